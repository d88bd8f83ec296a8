package lanemend.cli;

import java.util.List;
import java.util.Optional;
import lanemend.county.County;
import lanemend.exchange.GpxPoint;
import lanemend.network.ProjectedCrs;
import lanemend.network.TrackFix;
import lanemend.network.TrackMatch;
import lanemend.network.TrackMatcher;
import lanemend.network.TrackSettings;
import picocli.CommandLine.Option;

/** Where a patrol was sent, which tells roads apart that its track alone does not. */
final class DrivenOption {
  @Option(
      names = "--patrolled",
      paramLabel = "ROUTE",
      description = "the route the patrol was sent along, for where it runs together with others")
  private String patrolled;

  boolean given() {
    return patrolled != null;
  }

  /** Puts fixes on the county's roads. */
  TrackMatch match(County county, List<GpxPoint> fixes) {
    if (given()
        && county.network().route(patrolled).isEmpty()
        && county.network().named(patrolled).isEmpty()) {
      throw new Refusal("there is no route '" + patrolled + "'");
    }
    TrackSettings settings =
        given() ? TrackSettings.STANDARD.along(patrolled) : TrackSettings.STANDARD;
    return new TrackMatcher(county.network(), county.haulGraph())
        .match(fixes.stream().flatMap(f -> fix(county.crs(), f).stream()).toList(), settings);
  }

  /** The fix on the ground plan; none where the network's projection does not reach. */
  private static Optional<TrackFix> fix(ProjectedCrs crs, GpxPoint point) {
    try {
      double[] at = crs.project(point.longitude(), point.latitude());
      return Optional.of(new TrackFix(at[0], at[1], point.at()));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
