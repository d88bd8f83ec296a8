/**
 * Temporary traffic control of a work zone: which typical situation of the MUTCD's Part 6 it is,
 * its tapers, signs and devices, flaggers or their like, and what it costs the road's users. Always
 * a plan for review.
 */
package lanemend.patching.traffic;
