package lanemend.patching.traffic;

import java.util.List;
import lanemend.measure.Figure;

/**
 * First list of traffic control for one work zone, for review: the MUTCD, agency and permit
 * conditions rule.
 *
 * @param situation in words, for instance {@code one lane closed on a two-lane road, flaggers}
 * @param figures tapers, buffer, sign spacing, device counts, delay, each traced
 * @param devices what to load
 * @param signs in the order a driver meets them, per approach
 * @param delayVehicleHoursPerHour road-user delay while the zone stands
 */
public record TrafficPlan(
    String situation,
    List<Figure> figures,
    List<DeviceCount> devices,
    List<SignPlacement> signs,
    int flaggers,
    double setUpMinutes,
    double takeDownMinutes,
    double delayVehicleHoursPerHour,
    List<String> cautions) {

  /** Devices to load. */
  public record DeviceCount(String device, int count) {}

  /**
   * One sign.
   *
   * @param approach which traffic meets it, for instance {@code traffic from lower mileposts}
   * @param beforeWorkM distance ahead of the point where the restriction starts (flagger or first
   *     taper); negative past it, for {@code END ROAD WORK}
   */
  public record SignPlacement(String approach, String sign, double beforeWorkM) {}

  public TrafficPlan {
    figures = List.copyOf(figures);
    devices = List.copyOf(devices);
    signs = List.copyOf(signs);
    cautions = List.copyOf(cautions);
  }
}
