package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import lanemend.county.County;
import lanemend.crewdays.Agency;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.network.MilepostMap;
import lanemend.renewal.RenewalSettings;
import lanemend.renewal.RenewalStudy;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.overlay.CrackSurvey;
import lanemend.renewal.overlay.DesignTraffic;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.FlexibleEquation;
import lanemend.renewal.overlay.LayerTable;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayPrice;
import lanemend.renewal.overlay.Sensitivity;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.ScanSettings;
import lanemend.store.Snapshot;
import lanemend.store.Store;
import lanemend.web.renewal.EvidenceContext;
import lanemend.web.renewal.EvidencePage;
import lanemend.web.renewal.FlaggedSection;
import lanemend.web.renewal.RenewalIndex;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Evidence pages of sample-network's flagged sections, through the real importer and store. Prices,
 * layers and subgrade are invented.
 */
class SampleEvidenceTest {
  private static final Path SAMPLE = Path.of("sample-network");
  private static final double IN = Conversion.M_PER_IN;

  /** About what sample-network's own patches cost: 190 each and 300 a ton. */
  private static final RepairCost PATCHING = new RepairCost(190, 330);

  private static EvidenceContext context;
  private static List<FlaggedSection> sections;

  @BeforeAll
  static void studyTheCounty(@TempDir Path folder) throws IOException {
    Shell shell = new Shell(folder);
    bring(
        shell,
        "import",
        "roads",
        file("roads.geojson"),
        "--field=class=road_class",
        "--field=speed=posted_mph",
        "--field=lane_width_ft=lane_ft");
    for (String what : new String[] {"posts", "attributes", "patches"}) {
      bring(shell, "import", what, file(what + ".csv"));
    }
    bring(shell, "import", "agency", file("agency.json"));
    try (Store store = Store.open(folder.resolve("lanemend.gpkg"))) {
      Agency agency = County.read(store).agency();
      context = store.read(s -> context(s, agency));
    }
    sections = context.study().flagged().stream().map(SampleEvidenceTest::section).toList();
  }

  private static EvidenceContext context(Snapshot s, Agency agency) {
    RenewalSettings standard =
        RenewalSettings.standard(
            ExposureSettings.standard(LocalDate.of(2016, 1, 1), LocalDate.of(2026, 1, 1)),
            PATCHING);
    RenewalSettings quick =
        new RenewalSettings(
            standard.exposure(),
            standard.families(),
            standard.covariates(),
            standard.fit(),
            new ScanSettings(482.8, 4828, ScanSettings.Chance.FRAILTY, 999, 20, 0.05, 20_260_101L),
            standard.sectioning(),
            standard.repairCost(),
            standard.draws(),
            List.of(1));
    RoadAttributes attributes = new RoadAttributes(s.attributes().all());
    RenewalStudy study =
        RenewalStudy.of(s.network().routes().values(), attributes, s.patches().all(), quick);
    return new EvidenceContext(agency, s.network(), attributes, study);
  }

  private static FlaggedSection section(Cluster c) {
    return FlaggedSection.asFlagged(
        c.routeId() + " " + String.format(Locale.ROOT, "%.0f", c.fromAlongM()), c, overlay(c));
  }

  /** A design for an invented road of 4 in of cracked asphalt on 8 in of gravel. */
  private static OverlayCase overlay(Cluster c) {
    double middle = (c.fromAlongM() + c.toAlongM()) / 2;
    DesignTraffic traffic =
        new DesignTraffic(
            context.attributes().number(c.routeId(), middle, AttributeName.AADT).orElse(1000),
            context
                .attributes()
                .number(c.routeId(), middle, AttributeName.TRUCK_SHARE)
                .orElse(0.08),
            1.1,
            0.5,
            1,
            0.015,
            20);
    CrackSurvey survey = new CrackSurvey(8, 6, 0, 2, 0, false);
    LayerTable table = LayerTable.fromMemory();
    OverlayDesign design =
        OverlayDesign.of(
            new FlexibleEquation.Demand(
                traffic.loads().value(), 0.85, 0.45, 6000 * Conversion.KPA_PER_PSI, 2.0),
            List.of(
                OverlayDesign.Layer.of(
                    "asphalt",
                    4 * IN,
                    table
                        .row(LayerTable.Material.ASPHALT, survey, java.util.OptionalDouble.empty())
                        .orElseThrow(),
                    1),
                OverlayDesign.Layer.of(
                    "gravel base",
                    8 * IN,
                    table
                        .row(LayerTable.Material.GRANULAR, survey, java.util.OptionalDouble.empty())
                        .orElseThrow(),
                    1)),
            OverlayDesign.Limits.STANDARD);
    int[] cells = context.study().cells(c.routeId(), c.fromAlongM(), c.toAlongM());
    double area =
        IntStream.of(cells)
            .mapToDouble(i -> context.study().model().histories().cell(i).lengthM() * 3.5)
            .sum();
    Optional<OverlayCase.Costing> costing =
        design.chosen().map(o -> costing(c, new OverlayPrice(12_000, 75, 0.4).cost(o, area)));
    return new OverlayCase(
        Optional.of(traffic.loads()),
        Optional.of(design),
        costing,
        Optional.empty(),
        List.of(),
        List.of("subgrade 6,000 psi: the agency's usual value, not tested here"),
        List.of());
  }

  private static OverlayCase.Costing costing(Cluster c, Figure cost) {
    return OverlayCase.Costing.of(
        cost,
        new Economics(cost.value(), 14, PATCHING, 0.03, 20, 0.3),
        context.study().outlook(c.routeId(), c.fromAlongM(), c.toAlongM(), 20),
        RepairForecast.Draws.STANDARD,
        Sensitivity.Swing.STANDARD);
  }

  private static String file(String name) {
    return SAMPLE.resolve(name).toString();
  }

  private static void bring(Shell shell, String... words) {
    Shell.Outcome said = shell.run(words);
    assertEquals(ExitCode.DONE, said.code(), said.err());
  }

  @Test
  void everyFlaggedSectionPrintsWithItsOwnNumbers(@TempDir Path folder) throws IOException {
    EvidencePage pages = new EvidencePage(context);
    assertTrue(sections.size() >= 7, sections.size() + " flagged");
    for (FlaggedSection s : sections) {
      String html = pages.html(s, Optional.empty());
      Path file = folder.resolve(EvidencePage.fileName(s) + ".pdf");
      pages.pdf(html, file);
      String text = text(file);
      Cluster c = s.cluster();
      // Given the scan's counts and the route's own mileposts, then the page says them
      assertTrue(text.contains(c.repairs() + " repairs were made"), text.substring(0, 600));
      assertTrue(text.contains(String.format(Locale.ROOT, "%.1f", c.expected())));
      MilepostMap map = context.network().route(c.routeId()).orElseThrow().mileposts();
      assertTrue(text.contains(map.at(c.fromAlongM()).text()));
      assertTrue(text.contains(map.at(c.toAlongM()).text()));
      // and the thickness and what it costs to wait
      OverlayDesign design = s.overlay().design().orElseThrow();
      assertTrue(text.contains(String.format(Locale.ROOT, "%.2f", design.needed().value())));
      assertEquals(design.chosen().isPresent(), s.overlay().costing().isPresent());
    }
  }

  @Test
  void theIndexLeadsToEveryPageAndAccountsForEveryRepair(@TempDir Path folder) throws IOException {
    List<RenewalIndex.Row> rows =
        sections.stream().map(s -> new RenewalIndex.Row(s, Optional.empty())).toList();
    String html = new RenewalIndex(context).html(rows, Optional.empty());
    for (FlaggedSection s : sections) {
      assertTrue(html.contains("href=\"" + EvidencePage.fileName(s) + ".html\""));
    }
    new EvidencePage(context).pdf(html, folder.resolve("index.pdf"));
    String text = text(folder.resolve("index.pdf"));
    // Given the 5,240 repairs of sample-network (truth.json), counted and not counted make them all
    Exposure exposure = context.study().exposure();
    int counted = exposure.histories().allRepairs();
    int not = exposure.unused().size();
    assertEquals(5240, counted + not);
    assertTrue(
        text.contains(String.format(Locale.ROOT, "%,d counted, %,d not", counted, not)), text);
    // and those not counted are said with their reason
    // (all of them: their surface before a recorded resurfacing is of unknown age)
    assertTrue(text.contains(not + " not counted: the surfacing before it is not known."), text);
  }

  private static String text(Path pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      return new PDFTextStripper().getText(document).replaceAll("[\\s\\u00a0]+", " ");
    }
  }
}
