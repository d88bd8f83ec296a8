package lanemend.patching.traffic;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.patching.RoadSign;

/**
 * First plan of traffic control for one work zone, for review: the MUTCD, agency and permit
 * conditions rule.
 *
 * @param choice which typical situation, why, and which others may apply
 * @param layout stretches of the zone and what stands along it
 * @param figures tapers, buffer, sign spacing, device counts, delay, each traced
 * @param devices what to load, signs apart
 * @param signs in the order a driver meets them, per approach
 * @param delayVehicleHoursPerHour road-user delay while the zone stands
 */
public record TrafficPlan(
    SituationChoice choice,
    Layout layout,
    List<Figure> figures,
    List<DeviceCount> devices,
    List<SignPlacement> signs,
    int flaggers,
    double setUpMinutes,
    double takeDownMinutes,
    double delayVehicleHoursPerHour,
    List<String> cautions) {

  /** Minutes of work to turn the closure over to the other lane. */
  static final String TURN_OVER = "turn the closure over";

  /** Devices to load. */
  public record DeviceCount(String device, int count) {}

  /**
   * One sign.
   *
   * @param approach which traffic meets it
   * @param beforeWorkM distance ahead of the point where the restriction starts (flagger or first
   *     taper); negative past it, for {@code END ROAD WORK}
   * @param boards 2 where it stands at both edges of the roadway
   */
  public record SignPlacement(
      TrafficApproach approach, RoadSign sign, double beforeWorkM, int boards) {}

  public TrafficPlan {
    figures = List.copyOf(figures);
    devices = List.copyOf(devices);
    signs = List.copyOf(signs);
    cautions = List.copyOf(cautions);
  }

  /** In words, for instance {@code one lane closed on a two-lane road, flaggers at both ends}. */
  public String situation() {
    return choice.situation().words();
  }

  /** True where repairs of both sides can share this set-up, one lane closed after the other. */
  public boolean turnsOver() {
    return figure(TURN_OVER).isPresent();
  }

  /** Minutes to turn the closure over to the other lane; 0 where it is not turned over. */
  public double turnOverMinutes() {
    return figure(TURN_OVER).map(Figure::value).orElse(0.0);
  }

  /** The figure of this name. */
  public Optional<Figure> figure(String name) {
    return figures.stream().filter(f -> f.name().equals(name)).findFirst();
  }
}
