package lanemend.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.exchange.RenewalExport;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.web.renewal.EvidenceContext;
import lanemend.web.renewal.EvidencePage;
import lanemend.web.renewal.FlaggedSection;
import lanemend.web.renewal.RenewalIndex;

/** Writes the evidence pages, their index and the tables into {@code renewal/}. */
final class RenewalPages {
  private static final String FOLDER = "renewal";

  private RenewalPages() {}

  static void write(WorkFolder work, CountyRenewal renewal, PrintWriter out) {
    County county = renewal.county();
    RenewalProposal proposal = renewal.proposal();
    Path folder = work.folderOf(FOLDER);
    RenewalExport export = new RenewalExport(county.network(), county.locator(), county.units());
    export.flagged(folder.resolve("flagged.csv"), proposal);
    export.flagged(folder.resolve("flagged.geojson"), proposal);
    export.records(folder.resolve("records.csv"), proposal.study().exposure());
    if (!county.hasAgency()) {
      out.printf(
          "renewal    %s; pages need the agency's name: 'import agency FILE'%n",
          folder.resolve("flagged.csv"));
      return;
    }
    EvidenceContext context = context(renewal);
    EvidencePage pages = new EvidencePage(context);
    List<ProposedSection> sections = proposal.all();
    try (Progress bar = new Progress("evidence", sections.size())) {
      WorkFolder.clearPages(folder);
      AtomicInteger done = new AtomicInteger();
      sections.parallelStream()
          .forEach(
              s -> {
                print(pages, s, folder);
                bar.at(done.incrementAndGet());
              });
      index(context, proposal, folder);
    } catch (IOException | UncheckedIOException e) {
      throw new Refusal("a page cannot be written in " + folder + ": " + e.getMessage());
    }
    out.printf(
        "renewal    %d evidence pages in %s%n", sections.size(), folder.resolve("index.html"));
  }

  /**
   * Writes the page of one section and the index anew; other pages stay as they are.
   *
   * @throws Refusal when pages cannot be written
   */
  static Path writeOne(WorkFolder work, CountyRenewal renewal, String sectionId) {
    ProposedSection section = renewal.section(sectionId);
    Path folder = work.folderOf(FOLDER);
    try {
      EvidenceContext context = context(renewal);
      print(new EvidencePage(context), section, folder);
      index(context, renewal.proposal(), folder);
    } catch (IOException | UncheckedIOException e) {
      throw new Refusal("a page cannot be written in " + folder + ": " + e.getMessage());
    }
    return folder.resolve(EvidencePage.fileName(shown(section)) + ".pdf");
  }

  private static EvidenceContext context(CountyRenewal renewal) {
    County county = renewal.county();
    return new EvidenceContext(
        county.agency(), county.network(), county.onRoads(), renewal.study());
  }

  private static void index(EvidenceContext context, RenewalProposal proposal, Path folder)
      throws IOException {
    List<RenewalIndex.Row> rows =
        proposal.all().stream().map(s -> new RenewalIndex.Row(shown(s), decision(s))).toList();
    Optional<RenewalIndex.Budgeted> budgeted =
        proposal.budgeted()
            ? Optional.of(new RenewalIndex.Budgeted(proposal.program(), proposal.firstYear()))
            : Optional.empty();
    Files.writeString(folder.resolve("index.html"), new RenewalIndex(context).html(rows, budgeted));
  }

  private static void print(EvidencePage pages, ProposedSection section, Path folder) {
    FlaggedSection shown = shown(section);
    String name = EvidencePage.fileName(shown);
    String html = pages.html(shown, decision(section));
    try {
      Files.writeString(folder.resolve(name + ".html"), html);
      pages.pdf(html, folder.resolve(name + ".pdf"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static FlaggedSection shown(ProposedSection s) {
    return new FlaggedSection(s.id(), s.cluster(), s.fromAlongM(), s.toAlongM(), s.overlay());
  }

  private static Optional<EngineerDecision> decision(ProposedSection s) {
    return s.decision().map(DecidedSection::decision);
  }
}
