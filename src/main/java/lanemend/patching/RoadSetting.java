package lanemend.patching;

import java.util.List;
import lanemend.network.RoadClass;

/**
 * The road around a defect, as far as treatment and traffic control need it.
 *
 * @param lanes through lanes of this roadway, both directions together where undivided
 * @param oneDirection true on a divided road's roadway or a one-way street
 * @param aadt vehicles a day on this roadway
 * @param assumed in words, each fact that the agency's data does not give and that was taken from
 *     the usual values of the road class; a sheet says them
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
    double truckShare,
    List<String> assumed) {

  public RoadSetting {
    assumed = List.copyOf(assumed);
  }

  /** A setting in which everything is known. */
  public RoadSetting(
      RoadClass roadClass,
      double postedKmh,
      int lanes,
      double laneWidthM,
      double shoulderWidthM,
      boolean oneDirection,
      boolean urban,
      double aadt,
      double truckShare) {
    this(
        roadClass,
        postedKmh,
        lanes,
        laneWidthM,
        shoulderWidthM,
        oneDirection,
        urban,
        aadt,
        truckShare,
        List.of());
  }

  /** Lanes of one direction of traffic here: the middle lane of three counts for neither. */
  public int lanesEachWay() {
    return oneDirection ? lanes : Math.max(1, lanes / 2);
  }

  /**
   * True on an undivided road of one lane each way, whose lanes can be closed one after the other.
   */
  public boolean twoLaneTwoWay() {
    return lanes == 2 && !oneDirection;
  }

  /** True where traffic past a closed lane has another of its own to merge into. */
  public boolean severalLanesEachWay() {
    return lanesEachWay() >= 2;
  }
}
