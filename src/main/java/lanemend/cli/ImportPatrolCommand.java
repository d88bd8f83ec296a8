package lanemend.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.exchange.GpxFile;
import lanemend.exchange.PatrolNotes;
import lanemend.exchange.RawFinding;
import lanemend.exchange.Read;
import lanemend.network.TrackMatch;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code import patrol}: a patrol's GPX file, its waypoints as defects and findings. */
@Command(
    name = "patrol",
    description = {
      "A patrol's GPX file: shows the roads its track drove and brings its waypoints in, each on"
          + " the road the patrol was on.",
      "",
      "A waypoint's name (or comment) is in this order:",
      "  KIND SEVERITY LENGTHxWIDTH[xDEPTH] [ft|m] [LANE] [remark]",
      "    pothole high 3x2x4 R1 by the gate",
      "  KIND [left|right] [remark]",
      "    fence right wire cut",
      "",
      "Sizes are feet, feet and inches, or metres, metres and millimetres: the agency's, or as"
          + " said. Left and right are as driven. Without a lane it is the one driven, where there"
          + " is one each way."
    })
final class ImportPatrolCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;
  @Mixin private DrivenOption driven;

  @Parameters(paramLabel = "GPX", description = "the patrol's file")
  private Path file;

  @Option(
      names = "--found-by",
      paramLabel = "NAME",
      defaultValue = "",
      description = "who patrolled")
  private String foundBy;

  @Option(
      names = "--found-on",
      paramLabel = "DAY",
      description = "day for waypoints without a time, such as 2026-04-30")
  private LocalDate foundOn;

  @Override
  public Integer call() {
    GpxFile gpx = GpxFile.read(file);
    Report report = new Report(spec.commandLine().getOut(), spec.commandLine().getErr());
    try (Store store = work.open()) {
      County county = County.read(store);
      TrackMatch match = driven.match(county, gpx.fixes().rows());
      new PatrolReport(county, spec.commandLine().getOut()).print(gpx.fixes(), match);
      report.refuse(gpx.fixes().problems());
      PatrolNotes notes =
          new PatrolNotes(
              gpx.waypoints(),
              county.units(),
              foundBy,
              ZoneId.systemDefault(),
              Optional.ofNullable(foundOn));
      EventIntake intake = new EventIntake(store, work.who(), Optional.of(match));
      report.add(intake.defects(file, notes.defects()));
      Read<RawFinding> findings = notes.findings();
      if (findings.rowsSeen() > 0) {
        report.add(intake.findings(file, findings));
      }
    }
    return report.finish(work);
  }
}
