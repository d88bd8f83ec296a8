package lanemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.util.List;
import lanemend.crewdays.CountyCase;
import lanemend.crewdays.CountyCases;
import lanemend.crewdays.Haul;
import lanemend.exchange.CountyManifest;
import lanemend.exchange.FieldMap;
import lanemend.patching.TrafficPlanner;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import picocli.CommandLine;

/** An invented county brought in as the whole job does, as a case for solvers. */
public final class SampleStore {
  private SampleStore() {}

  /** Invents, imports and designs a county in a folder. */
  public static CountyCase county(int defects, Path folder) throws IOException {
    Path files = folder.resolve("county");
    SampleCounty.write(files, SampleSize.withDefects(defects), SampleCounty.STANDARD_SEED);
    CountyManifest manifest = CountyManifest.read(files);
    WorkFolder work =
        CommandLine.populateCommand(new WorkFolder(), "--work", folder.toString());
    PrintWriter quiet = new PrintWriter(Writer.nullWriter());
    Report report = new Report(quiet, quiet);
    report.add(new RoadIntake(work).take(List.of(manifest.roads()), null));
    try (Store store = work.open()) {
      EventIntake intake = new EventIntake(store, work.who());
      report.add(intake.posts(manifest.posts().orElseThrow(), FieldMap.NONE));
      report.add(intake.attributes(manifest.attributes().orElseThrow(), FieldMap.NONE));
      manifest.defects().forEach(f -> report.add(intake.defects(f, FieldMap.NONE)));
      report.add(new AgencyIntake(store, work.who()).take(manifest.agency().orElseThrow()));
      County county = County.read(store);
      return CountyCases.of(
          defects,
          Haul.over(county.haulGraph()),
          county.agency(),
          new TrafficPlanner(county.settings())::plan,
          county.repairs());
    }
  }
}
