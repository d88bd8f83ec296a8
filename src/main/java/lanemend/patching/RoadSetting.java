package lanemend.patching;

import lanemend.network.RoadClass;

/**
 * The road around a defect, as far as treatment and traffic control need it.
 *
 * @param lanes through lanes of this roadway, both directions together where undivided
 * @param oneDirection true on a divided road's roadway or a one-way street
 * @param aadt vehicles a day on this roadway
 */
public record RoadSetting(
    RoadClass roadClass,
    double postedKmh,
    int lanes,
    double laneWidthM,
    double shoulderWidthM,
    boolean oneDirection,
    boolean urban,
    double aadt,
    double truckShare) {}
