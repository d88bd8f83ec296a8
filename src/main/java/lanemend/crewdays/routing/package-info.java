/**
 * The search behind the crew days, over plain arrays: stops, kinds of day, slots to put days in. It
 * knows no roads or repairs, so that published vehicle routing instances run through the same code
 * as a county.
 */
package lanemend.crewdays.routing;
