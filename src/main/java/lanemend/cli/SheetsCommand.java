package lanemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProof;
import lanemend.store.Store;
import lanemend.web.sheet.SheetContext;
import lanemend.web.sheet.SheetIndex;
import lanemend.web.sheet.SheetWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code sheets}: prints each crew day of the plan. */
@Command(
    name = "sheets",
    description =
        "Print each crew day as a page (HTML) and for paper (PDF) into the work folder's sheets/.")
final class SheetsCommand implements Callable<Integer> {
  private static final String FOLDER = "sheets";

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(names = "--day", paramLabel = "DATE", description = "only this day, YYYY-MM-DD")
  private LocalDate day;

  @Option(names = "--crew", paramLabel = "ID", description = "only this crew")
  private String crew;

  @Override
  public Integer call() {
    try (Store store = work.open()) {
      County county = County.read(store);
      Plan plan = county.plan();
      List<CrewDay> days =
          plan.days().stream()
              .filter(d -> day == null || d.date().equals(day))
              .filter(d -> crew == null || d.crew().id().equals(crew))
              .toList();
      if (days.isEmpty()) {
        throw new Refusal(
            "the plan has no crew day"
                + (crew == null ? "" : " of crew '" + crew + "'")
                + (day == null ? "" : " on " + day));
      }
      write(work, county, KeptProof.of(store), days, spec.commandLine().getOut());
    }
    return ExitCode.DONE;
  }

  static void write(
      WorkFolder work,
      County county,
      Optional<PlanProof> proof,
      List<CrewDay> days,
      PrintWriter out) {
    Plan plan = county.plan();
    SheetContext context =
        new SheetContext(county.agency(), county.network(), county.locator(), county.haulGraph());
    SheetWriter writer = new SheetWriter(context);
    Path folder = work.folderOf(FOLDER);
    try (Progress bar = new Progress("sheets", days.size())) {
      if (days.size() == plan.days().size()) {
        WorkFolder.clearPages(folder);
      }
      AtomicInteger done = new AtomicInteger();
      days.parallelStream()
          .forEach(
              crewDay -> {
                print(writer, crewDay, folder);
                bar.at(done.incrementAndGet());
              });
      Files.writeString(folder.resolve("index.html"), new SheetIndex(context).html(plan, proof));
    } catch (IOException | UncheckedIOException e) {
      throw new Refusal("a sheet cannot be written in " + folder + ": " + e.getMessage());
    }
    out.printf("sheets     %d crew days in %s%n", days.size(), folder.resolve("index.html"));
  }

  private static void print(SheetWriter writer, CrewDay crewDay, Path folder) {
    String name = SheetIndex.fileName(crewDay);
    String html = writer.html(crewDay);
    try {
      Files.writeString(folder.resolve(name + ".html"), html);
      Files.writeString(
          folder.resolve(SheetIndex.numbersFileName(crewDay) + ".html"),
          writer.numbersHtml(crewDay));
      writer.pdf(html, folder.resolve(name + ".pdf"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
