/**
 * From a defect to a repair that can be ordered: treatment, quantities, minutes, lay-down plan,
 * equipment and traffic control, each number a traced {@link lanemend.measure.Figure}.
 */
package lanemend.patching;
