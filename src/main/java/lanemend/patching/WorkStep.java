package lanemend.patching;

import lanemend.measure.Figure;

/**
 * One step of a repair.
 *
 * @param minutes mean, traced
 * @param spreadMinutes one standard deviation
 * @param setUp true for steps done once per work zone (set up, take down), false per patch
 */
public record WorkStep(String name, Figure minutes, double spreadMinutes, boolean setUp) {}
