/**
 * Units and traced figures, the ground everything else stands on. Inside Lanemend lengths are
 * metres, areas square metres, mass tonnes, liquid litres, time minutes or {@link
 * java.time.Duration}; {@link lanemend.measure.UnitSystem} turns them into what the reader uses.
 */
package lanemend.measure;
