package lanemend.web.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import lanemend.measure.UnitSystem;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.LaneStrip;
import lanemend.renewal.SectionHistory;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.program.Candidate;
import lanemend.renewal.program.Program;
import lanemend.renewal.program.ProgramSolver;
import lanemend.renewal.repairs.RepairForecast.Horizon;
import lanemend.renewal.sections.Cluster;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The evidence of an invented road's weak mile, as the page says it and as the PDF prints it. */
class EvidencePageTest {
  private static EvidenceContext context;
  private static FlaggedSection section;
  private static String html;
  private static String pdf;

  @BeforeAll
  static void print(@TempDir Path folder) throws IOException {
    context = InventedCounty.context(UnitSystem.US_CUSTOMARY);
    Cluster weak = context.study().flagged().get(0);
    section = FlaggedSection.asFlagged("SR 7/1", weak, InventedCounty.overlay(context, weak));
    EvidencePage page = new EvidencePage(context);
    html = page.html(section, Optional.of(decision("culvert <low end> & ditch first")));
    page.pdf(html, folder.resolve("page.pdf"));
    try (PDDocument read = Loader.loadPDF(folder.resolve("page.pdf").toFile())) {
      pdf = flat(new PDFTextStripper().getText(read));
    }
  }

  private static String flat(String text) {
    return text.replaceAll("[\\s\\u00a0]+", " ");
  }

  private static EngineerDecision decision(String reason) {
    return new EngineerDecision(
        "SR 7/1",
        EngineerDecision.Kind.DEFERRED,
        section.fromAlongM(),
        section.toAlongM(),
        2028,
        reason,
        "J. Example, PE",
        LocalDate.of(2026, 3, 2));
  }

  private static void says(String text) {
    assertTrue(pdf.contains(flat(text)), text + " is not in: " + pdf);
  }

  @Test
  void theWeakMileIsTheOneFlagged() {
    // Given one planted mile, 2.0 to 3.0 of SR 7, the page is about it within a cell or two.
    assertEquals("SR 7", section.cluster().routeId());
    assertEquals(2.0, section.fromAlongM() / 1609.344, 0.21);
    assertEquals(3.0, section.toAlongM() / 1609.344, 0.21);
  }

  @Test
  void theHeadSaysWhereWhyAndForWhom() {
    Cluster c = section.cluster();
    says(
        "SR 7 Milepost "
            + Mileposts.of(context.network(), "SR 7").range(c.fromAlongM(), c.toAlongM()));
    says("For review by a licensed engineer");
    says(
        String.format(
            Locale.ROOT,
            "Flagged because %d repairs were made under the present surface where %.1f were expected",
            c.repairs(),
            c.expected()));
    says(HeaderPart.p(c.pValue()));
    says("at most about 5 % should be false alarms");
    says("2: L1, R1");
    says("walk it, core it");
  }

  @Test
  void theStripHoldsEveryRepairOfTheSection() {
    LaneStrip strip = Evidence.of(section, context).strip();
    int inside = 0;
    for (int p = 0; p < strip.places().size(); p++) {
      double middle = (strip.places().get(p).fromAlongM() + strip.places().get(p).toAlongM()) / 2;
      boolean in = middle > section.fromAlongM() && middle < section.toAlongM();
      inside += in ? strip.repairsAt(p) : 0;
    }
    // the surface was never renewed, so the flag counts the same repairs
    assertEquals(section.cluster().repairs(), inside);
    assertEquals(10, strip.years());
    assertEquals(List.of("L1", "R1"), strip.lanes().stream().map(l -> l.code()).toList());
    assertTrue(strip.marks()[0][0][0].watched());
    assertFalse(strip.marks()[0][0][0].surfaced());
  }

  @Test
  void theModelStandsBesideWhatWasRepaired() {
    Evidence e = Evidence.of(section, context);
    for (SectionHistory.Year y : e.history().years()) {
      says(
          String.format(
              Locale.ROOT,
              "%d %d %.1f %d to %d",
              y.year(),
              y.repairs(),
              y.modelled(),
              e.low(e.inYear(y.modelled())),
              e.high(e.inYear(y.modelled()))));
    }
  }

  @Test
  void everyForecastIsPrintedWithItsInterval() {
    for (Horizon h : Evidence.of(section, context).forecast().horizons()) {
      says(
          String.format(
              Locale.ROOT,
              "%d %d-12-31 %,.0f %,.0f to %,.0f",
              h.years(),
              2025 + h.years(),
              h.repairs().mean(),
              h.repairs().low(),
              h.repairs().high()));
      says(
          String.format(
              Locale.ROOT,
              "%,.0f %,.0f to %,.0f",
              h.cost().mean(),
              h.cost().low(),
              h.cost().high()));
    }
  }

  @Test
  void theThicknessIsTheOneWorkedByHand() {
    // 5 x 0.25 + 12 x 0.12 = 2.69; the Guide's figure 3.1 demand needs 4.976 by the equation;
    // (4.976 - 2.69) / 0.44 = 5.195 in, up to 5.5 in (docs/renewal.md, section 4).
    says("No milling; lay 5.5 in of asphalt");
    says("The road needs SN 4.98; what is left in place gives 2.69");
    says("0.0 in 2.69 2.29 5.2 in 5.5 in 5.5 in chosen");
    says("a of new asphalt 0.44");
    // 900 x 0.1 x 1 x 0.5 x 1 x 365 x (1.02^20 - 1)/0.02 = 16,425 x 24.2974 = 399,084
    says("399,084");
    says("None: no condition survey of this section's surface was entered.");
  }

  @Test
  void costsSayBestYearCrossoverSalvageAndWhatTheyHangOn() {
    OverlayCase.Costing c = section.overlay().costing().orElseThrow();
    int cross = c.lifeCycle().crossoverYear();
    says("Crossover: by the end of " + (2025 + cross) + " (year " + cross + ")");
    // 20 years are one life of 15 and 5 years of the next: two thirds of 60,000 are left
    says("has 40,000 USD left at the end of year 20");
    // In the drawing, where lines of text stand too close for the PDF reader to part them.
    c.bars().forEach(b -> assertTrue(html.contains(b.input()), b.input()));
    says("the cheapest: it saves " + String.format(Locale.ROOT, "%,.0f", c.lifeCycle().saving()));
  }

  @Test
  void theHindcastStandsBesideTheFlag() {
    Hindcast h = context.study().hindcasts().get(0);
    says(
        String.format(
            Locale.ROOT, "intervals held %.1f %% with 1 year left out", 100 * h.coverage()));
    for (Hindcast.Score s : h.scores()) {
      says(s.name() + String.format(Locale.ROOT, " %,.0f", s.deviance()));
    }
  }

  @Test
  void theKeptDecisionAndRoomForTheNextAreThere() {
    says("On file: deferred, not before 2028");
    says("Reason: culvert <low end> & ditch first.");
    for (String word : new String[] {"Accept", "Change limits", "Defer", "Reject", "License"}) {
      says(word);
    }
  }

  @Test
  void thePageIsWellFormedAndLoadsNothing() {
    Document page = parse(html);
    NodeList all = page.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element e = (Element) all.item(i);
      assertFalse(e.hasAttribute("src") || e.hasAttribute("href"), e.getTagName());
      assertFalse(List.of("script", "link", "img", "iframe", "object").contains(e.getTagName()));
    }
    assertFalse(html.contains("url(") || html.contains("@import"));
    assertTrue(html.contains("Roads &amp; &lt;Bridges&gt;, invented"));
  }

  private static Document parse(String text) {
    try {
      return DocumentBuilderFactory.newDefaultInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(text)));
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void whatIsNotKnownIsSaidInstead() {
    FlaggedSection bare =
        FlaggedSection.asFlagged(
            "SR 7/1",
            section.cluster(),
            OverlayCase.lacking(List.of("Thickness of the layers in place is not known.")));
    String page = new EvidencePage(context).html(bare, Optional.empty());
    assertTrue(page.contains("No thickness is worked out, because something is missing:"));
    assertTrue(page.contains("Thickness of the layers in place is not known."));
    assertTrue(page.contains("Not compared, because something is missing."));
    assertFalse(page.contains("On file:"));
  }

  @Test
  void metricAgenciesReadMetric() {
    EvidenceContext metric = InventedCounty.context(UnitSystem.METRIC);
    FlaggedSection same =
        FlaggedSection.asFlagged(
            "SR 7/1", section.cluster(), InventedCounty.overlay(metric, section.cluster()));
    String page = flat(new EvidencePage(metric).html(same, Optional.empty()));
    assertTrue(page.contains("lay 140 mm of asphalt"));
    assertTrue(page.contains("repairs per lane km and year"));
    assertFalse(page.contains(" mi<"));
  }

  @Test
  void theIndexLeadsToEveryPageAndSaysWhatMoneyBuys() {
    Candidate one =
        new Candidate(
            "SR 7/1",
            "SR 7",
            section.fromAlongM(),
            section.toAlongM(),
            List.of(new Candidate.Choice(1, "overlay", 60_000, 90_000)));
    Program program =
        ProgramSolver.solve(
            List.of(one), new double[] {10_000, 70_000}, ProgramSolver.Effort.STANDARD);
    String index =
        flat(
            new RenewalIndex(context)
                .html(
                    List.of(new RenewalIndex.Row(section, Optional.of(decision("wait & <see>")))),
                    Optional.of(new RenewalIndex.Budgeted(program, 2026))));
    parse(index);
    assertTrue(index.contains("href=\"section-SR_7~002f1.html\""));
    assertTrue(index.contains("href=\"section-SR_7~002f1.pdf\""));
    assertTrue(index.contains("wait &amp; &lt;see&gt;"));
    assertTrue(index.contains("2027, overlay"));
    assertTrue(index.contains("70,000") && index.contains("60,000"));
    assertTrue(index.contains("The program saves 90,000 USD of present cost"));
    assertTrue(index.contains("proven gap"));
    assertTrue(index.contains("One more dollar adds"));
  }
}
