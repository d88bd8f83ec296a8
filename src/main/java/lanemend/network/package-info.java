/**
 * Routes, mileposts and locating. A {@link lanemend.network.Route} is a line of road whose places
 * are told by 'along': ground metres from its start. A {@link lanemend.network.MilepostMap} turns
 * along into mileposts and back.
 */
package lanemend.network;
