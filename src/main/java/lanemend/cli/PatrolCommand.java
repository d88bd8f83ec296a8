package lanemend.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.exchange.GpxFile;
import lanemend.exchange.TrackExport;
import lanemend.network.TrackMatch;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code patrol}: which roads a patrol drove, by route and milepost. */
@Command(
    name = "patrol",
    description = {
      "Show which roads a patrol's GPX track drove, by route and milepost, with times. Changes"
          + " nothing; 'import patrol' brings its waypoints in.",
      "  patrol tuesday.gpx --patrolled \"SR 7\"",
      "",
      "Where the track does not tell one road from another, the others are listed with the share"
          + " of belief in them, and the command ends with 1."
    })
final class PatrolCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private DrivenOption driven;

  @Parameters(paramLabel = "GPX", description = "the patrol's track")
  private Path file;

  @Option(
      names = "--to",
      paramLabel = "FILE",
      description = "also write the stretches, .csv or .geojson")
  private Path to;

  @Override
  public Integer call() {
    GpxFile gpx = GpxFile.read(file);
    Report report = new Report(spec.commandLine().getOut(), spec.commandLine().getErr());
    try (Store store = work.open()) {
      County county = County.read(store);
      TrackMatch match = driven.match(county, gpx.fixes().rows());
      boolean clear =
          new PatrolReport(county, spec.commandLine().getOut()).print(gpx.fixes(), match);
      if (to != null) {
        new TrackExport(county.network(), county.locator()).write(to, match.stretches());
        spec.commandLine().getOut().printf("export     %s%n", to);
      }
      report.refuse(gpx.fixes().problems());
      int code = report.finish(work);
      return code == ExitCode.DONE && !clear ? ExitCode.TROUBLE_FOUND : code;
    }
  }
}
