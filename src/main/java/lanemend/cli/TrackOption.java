package lanemend.cli;

import java.nio.file.Path;
import java.util.Optional;
import lanemend.county.County;
import lanemend.exchange.GpxFile;
import lanemend.network.TrackMatch;
import lanemend.store.Store;
import picocli.CommandLine.Mixin;
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

  @Mixin private DrivenOption driven;

  Optional<TrackMatch> match(Store store) {
    if (file == null) {
      if (driven.given()) {
        throw new Refusal("--patrolled goes with --track");
      }
      return Optional.empty();
    }
    return Optional.of(driven.match(County.read(store), GpxFile.read(file).fixes().rows()));
  }
}
