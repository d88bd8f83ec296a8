package lanemend.cli;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.ProjectedCrs;
import picocli.CommandLine.Option;

/** A place by longitude and latitude, in place of a route and milepost. */
final class AtOption {
  /** How far from it a road is looked for, in metres. */
  static final double REACH_M = 60;

  @Option(
      names = "--at",
      paramLabel = "LON,LAT",
      split = ",",
      description = "longitude and latitude in degrees, in place of a milepost")
  private List<Double> at = new ArrayList<>();

  boolean given() {
    return !at.isEmpty();
  }

  double longitude() {
    return at.get(0);
  }

  double latitude() {
    return at.get(1);
  }

  /**
   * {x, y} in the projected system.
   *
   * @throws Refusal when it is no place on earth
   */
  double[] in(ProjectedCrs crs) {
    boolean good = at.size() == 2 && Math.abs(longitude()) <= 180 && Math.abs(latitude()) <= 90;
    Refusal.unless(
        good, "--at", this, "a longitude from -180 to 180 and a latitude from -90 to 90");
    return crs.project(longitude(), latitude());
  }

  /** As it is written at the command line. */
  @Override
  public String toString() {
    return String.join(",", at.stream().map(String::valueOf).toList());
  }
}
