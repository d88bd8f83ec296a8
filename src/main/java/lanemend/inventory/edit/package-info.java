/**
 * What becomes of the events of a road when the road is edited: one rule for each kind of event.
 */
package lanemend.inventory.edit;
