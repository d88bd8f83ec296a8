package lanemend.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code renew}: where repeat patching means an overlay. */
@Command(
    name = "renew",
    description = {
      "Study past repairs: which sections to overlay, how thick, and when.",
      "",
      "Writes an evidence page (HTML and PDF) for each flagged section, an index, flagged.csv,"
          + " flagged.geojson and records.csv into the work folder's renewal/. What the records leave"
          + " open is asked, not guessed. Everything is for review by a licensed engineer, whose"
          + " decision 'renew decide' keeps."
    },
    subcommands = RenewDecideCommand.class)
final class RenewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = County.read(store);
      run(work, county, spec.commandLine().getOut());
    }
    return ExitCode.DONE;
  }

  /** Studies the county, prints what comes of it and writes the pages. */
  static void run(WorkFolder work, County county, PrintWriter out) {
    CountyRenewal renewal = study(county);
    new RenewalReport(renewal, out).print();
    RenewalPages.write(work, renewal, out);
  }

  /** Studies the county with a progress bar. */
  static CountyRenewal study(County county) {
    try (Progress bar = new Progress("renewal", 100)) {
      return CountyRenewal.of(
          county,
          (stage, share) -> {
            bar.at(Math.round(100 * share));
            return true;
          });
    }
  }
}
