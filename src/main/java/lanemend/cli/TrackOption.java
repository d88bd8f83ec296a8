package lanemend.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import lanemend.county.County;
import lanemend.exchange.GpxFile;
import lanemend.exchange.GpxPoint;
import lanemend.network.ProjectedCrs;
import lanemend.network.TrackFix;
import lanemend.network.TrackMatch;
import lanemend.network.TrackMatcher;
import lanemend.network.TrackSettings;
import lanemend.store.Store;
import picocli.CommandLine.Option;

/** The patrol's own track beside what it found. */
final class TrackOption {
  @Option(
      names = "--track",
      paramLabel = "GPX",
      description =
          "the patrol's track: roads that run together or beside each other are told apart by"
              + " where it drove")
  private Path file;

  @Option(
      names = "--patrolled",
      paramLabel = "ROUTE",
      description = "the route the patrol was sent along, for where it runs together with others")
  private String patrolled;

  Optional<TrackMatch> match(Store store) {
    if (file == null) {
      if (patrolled != null) {
        throw new Refusal("--patrolled goes with --track");
      }
      return Optional.empty();
    }
    return Optional.of(
        match(
            County.read(store), GpxFile.read(file).fixes().rows(), Optional.ofNullable(patrolled)));
  }

  /** Puts fixes on the county's roads. */
  static TrackMatch match(County county, List<GpxPoint> fixes, Optional<String> patrolled) {
    if (patrolled.isPresent()
        && county.network().route(patrolled.get()).isEmpty()
        && county.network().named(patrolled.get()).isEmpty()) {
      throw new Refusal("there is no route '" + patrolled.get() + "'");
    }
    TrackSettings settings =
        patrolled.map(TrackSettings.STANDARD::along).orElse(TrackSettings.STANDARD);
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
