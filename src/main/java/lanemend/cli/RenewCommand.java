package lanemend.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import lanemend.county.County;
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
      PrintWriter out = spec.commandLine().getOut();
      if (county.patches().isEmpty()) {
        throw new Refusal("no repair is on record yet: 'import patches FILE' first");
      }
      run(work, county, out);
    }
    return ExitCode.DONE;
  }

  /** Studies the county, prints what comes of it and writes the pages. */
  static void run(WorkFolder work, County county, PrintWriter out) {
    Renewal renewal = Renewal.of(county);
    new RenewalReport(renewal, out).print();
    RenewalPages.write(work, renewal, out);
  }
}
