package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.county.PlanMaking;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.exchange.CountyManifest;
import lanemend.exchange.FieldMap;
import lanemend.store.Store;
import lanemend.web.desk.Door;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code run}: the whole job on a folder of files. */
@Command(
    name = "run",
    description = {
      "Do the whole job on a folder that has a county.json: import, check, plan, sheets, export.",
      "",
      "Starts afresh each time. It replaces a store that 'run' itself made, and no other."
    })
final class RunCommand implements Callable<Integer> {
  /** Setting that marks a store as made by this command, so that it may be made again. */
  private static final String MADE_BY_RUN = "made_by_run";

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Parameters(paramLabel = "FOLDER", description = "folder with county.json and the files it names")
  private Path folder;

  @Option(
      names = "--serve",
      negatable = true,
      description = "then open the desk on what came of it, until stopped (default: --no-serve)")
  private boolean serve;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "" + ServeCommand.PORT,
      description = "port of the desk, 0 for any that is free (default: ${DEFAULT-VALUE})")
  private int port;

  @Override
  public Integer call() {
    ServeCommand.checkPort(port);
    PrintWriter out = spec.commandLine().getOut();
    int ended = job();
    if (ended == ExitCode.NOTHING_DONE) {
      return ended;
    }
    if (!serve) {
      hand(out);
      return ended;
    }
    // Sheets take longer than all before them, and the map does not need them.
    ServeCommand.serve(
        work,
        port,
        Optional.empty(),
        Door.ofThisComputer(),
        out,
        () -> {
          hand(out);
          out.println("desk       stays open at the address above (stop with Ctrl+C)");
          out.flush();
        });
    return ended;
  }

  private int job() {
    PrintWriter out = spec.commandLine().getOut();
    CountyManifest county = CountyManifest.read(folder);
    out.println(county.name() + (county.note().isEmpty() ? "" : ": " + county.note()));
    removeOwnStore();
    Report report = new Report(out, spec.commandLine().getErr());
    report.add(new RoadIntake(work).take(List.of(county.roads()), null));
    if (!work.hasStore()) {
      report.finish(work);
      return ExitCode.NOTHING_DONE;
    }
    try (Store store = work.open()) {
      store.write(work.who(), "run", c -> c.putSetting(MADE_BY_RUN, "true"));
      events(county, new EventIntake(store, work.who()), report);
      if (county.agency().isPresent()) {
        report.add(new AgencyIntake(store, work.who()).take(county.agency().get()));
      }
      county
          .forecast()
          .ifPresent(f -> report.add(new ForecastIntake(store, work.who()).take(f, FieldMap.NONE)));
      int checked = CheckCommand.check(store, out);
      if (county.agency().isPresent()) {
        plan(store, out);
      }
      int refused = report.finish(work);
      return refused == ExitCode.DONE ? checked : refused;
    }
  }

  /** Sheets for the crews and files for others. */
  private void hand(PrintWriter out) {
    try (Store store = work.open()) {
      County now = County.read(store);
      if (now.hasAgency()) {
        SheetsCommand.write(work, now, KeptProof.of(store), now.plan().days(), out);
      }
      ExportCommand.all(work, now, ExportCommand.Kind.CSV, out);
      ExportCommand.all(work, now, ExportCommand.Kind.GEOJSON, out);
      if (now.hasAgency() && !now.patches().isEmpty()) {
        out.println("next       'renew' studies the repairs of past years for overlays");
      }
    }
  }

  private static void events(CountyManifest county, EventIntake intake, Report report) {
    FieldMap map = FieldMap.NONE;
    county.posts().ifPresent(f -> report.add(intake.posts(f, map)));
    county.attributes().ifPresent(f -> report.add(intake.attributes(f, map)));
    county.defects().forEach(f -> report.add(intake.defects(f, map)));
    county.findings().forEach(f -> report.add(intake.findings(f, map)));
    county.patches().forEach(f -> report.add(intake.patches(f, map)));
  }

  private void plan(Store store, PrintWriter out) {
    County county = County.read(store);
    Planning.plan(
        store,
        work.who(),
        county,
        new PlanMaking(county, county.agency()),
        SearchBudget.iterations(PlanCommand.ITERATIONS, PlanCommand.SEED),
        PlanCommand.PROOF_SECONDS,
        out);
  }

  private void removeOwnStore() {
    if (!work.hasStore()) {
      return;
    }
    Optional<String> mark;
    try (Store store = work.open()) {
      mark = store.read(s -> s.setting(MADE_BY_RUN));
    }
    if (mark.isEmpty()) {
      throw new Refusal(
          work.storeFile()
              + " holds work that 'run' did not make and will not replace: name another folder"
              + " with --work");
    }
    work.deleteStore();
  }
}
