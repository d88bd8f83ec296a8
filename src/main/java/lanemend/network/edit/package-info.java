/**
 * Edits of roads in time: a new centreline, new mileposts, a route cut in two, two made one,
 * another name, a road given up. Each gives new editions and says, stretch by stretch, where the
 * road of before is to be found on the road of after. Events are carried by {@code inventory.edit}.
 */
package lanemend.network.edit;
