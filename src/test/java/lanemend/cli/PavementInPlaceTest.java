package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import lanemend.store.Store;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Surveys, cores and stretches chosen by hand, from file to evidence page. */
class PavementInPlaceTest {
  private static final String WHO = "E. Invented, P.E.";

  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void aCountyWithOneWeakStretch() throws IOException {
    shell = WeakRoad.county(folder);
  }

  private Shell.Outcome bring(String kind, String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.writeString(file, text);
    return shell.run("import", kind, file.toString());
  }

  private String page(String begins) throws IOException {
    try (Stream<Path> files = Files.list(shell.work().resolve("renewal"))) {
      Path page =
          files
              .filter(p -> p.getFileName().toString().startsWith("section-" + begins))
              .filter(p -> p.getFileName().toString().endsWith(".html"))
              .findFirst()
              .orElseThrow();
      return Files.readString(page).replace('\u00a0', ' ');
    }
  }

  private static final String SURVEY =
      """
      sample,route,milepost_from,milepost_to,width_ft,surveyed_on,kind,severity,quantity_ft2,quantity_ft,quantity_count
      3-1,SR 3,2.10,2.12,24,2025-09-01,alligator_cracking,medium,120,,
      3-1,SR 3,2.10,2.12,24,2025-09-01,pothole,low,,,2
      3-2,SR 3,2.50,2.52,24,2025-09-01,none,,,,
      """;

  @Test
  void aSurveyGivesTheIndexStepByStepOnceTheCurvesAreThere() throws IOException {
    // Given a survey of two samples and no curves
    Shell.Outcome said = bring("survey", "survey.csv", SURVEY);
    assertEquals(ExitCode.DONE, said.code(), said.err());
    assertEquals(ExitCode.DONE, shell.run("renew").code());
    // then the page says which curves are missing and takes the cracking all the same
    String page = page("SR_3_");
    assertTrue(page.contains("deduct curve of alligator cracking, medium"), page);
    assertTrue(page.contains("cracking from the condition survey of 2025-09-01: 2 samples"), page);
    assertFalse(page.contains("cracking as the marked defects show it"), page);
    // When the agency gives curves (made-up numbers, not the standard's)
    said =
        bring(
            "curves",
            "curves.json",
            """
            {"source": "made up for a test", "density_in": "feet",
             "deducts": {"alligator_cracking": {"medium": [[1, 20], [100, 60]]},
                         "pothole": {"low": [[0.01, 5], [1, 25]]}},
             "corrected": {"1": [[0, 0], [100, 100]], "2": [[0, 0], [100, 70]]}}
            """);
    assertEquals(ExitCode.DONE, said.code(), said.err());
    assertTrue(said.out().contains("made up for a test"), said.out());
    assertEquals(ExitCode.DONE, shell.run("renew").code());
    page = page("SR_3_");
    // then by hand: 0.02 mi x 24 ft is 2,534.4 ft2; 120 ft2 are 4.735 %, deduct 20 + 40 x
    // log(4.735) / 2 = 33.5; 2 potholes 0.0789 %, deduct 5 + 10 x log(7.89) = 14.0; q 2: 47.5 x 0.7
    // = 33.2; q 1: 35.5; the sample 64.5, the clean one 100, the section 82
    assertTrue(page.contains("82 of 100"), page);
    assertTrue(page.contains("q = 1: 35.5, corrected 35.5"), page);
    assertTrue(page.contains("made up for a test"), page);
    List<String> flagged = Files.readAllLines(shell.work().resolve("renewal/flagged.csv"));
    int column = List.of(flagged.get(0).split(",", -1)).indexOf("condition_index");
    assertEquals("82", List.of(flagged.get(1).split(",", -1)).get(column));
  }

  @Test
  void rowsOfASampleThatDisagreeAreRefusedAndNamed() throws IOException {
    Shell.Outcome said =
        bring(
            "survey",
            "survey.csv",
            SURVEY
                + "3-1,SR 3,2.20,2.22,24,2025-09-01,rutting,low,50,,\n"
                + "3-1,SR 3,2.10,2.12,24,2025-09-01,pothole,low,,,1\n"
                + "3-3,SR 3,2.60,2.62,24,2025-09-01,edge_cracking,low,50,,\n"
                + "3-4,SR 3,2.70,2.72,24,2025-09-01,none,,4,,\n"
                + "3-5,SR 3,2.70,2.72,,2025-09-01,rutting,low,4,,\n");
    assertEquals(ExitCode.ROWS_REFUSED, said.code(), said.out());
    String report = said.out() + said.err();
    assertTrue(report.contains("survey.csv:5"), report);
    assertTrue(report.contains("add the quantities up"), report);
    assertTrue(report.contains("quantity_ft or quantity_m alone"), report);
    assertTrue(report.contains("nothing beside the kind none"), report);
    assertTrue(report.contains("survey.csv:9"), report);
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      assertEquals(3L, (long) store.read(s -> s.surveys().count()));
    }
  }

  @Test
  void coresAreUsedBeforeWhatWasBuiltAndThatBeforeTheClass() throws IOException {
    assertEquals(ExitCode.DONE, shell.run("renew").code());
    assertTrue(page("SR_3_").contains("of asphalt, by the road"), page("SR_3_"));
    Shell.Outcome said =
        bring(
            "layers",
            "layers.csv",
            """
            route,milepost_from,milepost_to,layer,thickness_in,year,source
            SR 3,2.1,2.2,asphalt,5.0,2024,core
            SR 3,2.6,2.7,asphalt,6.0,2024,core
            SR 3,,,asphalt,9,1990,as_built
            SR 3,,,base,8,1990,as_built
            SR 3,2.0,2.1,base,,1990,as_built
            """);
    assertEquals(ExitCode.ROWS_REFUSED, said.code(), said.out());
    assertEquals(ExitCode.DONE, shell.run("renew").code());
    String page = page("SR_3_");
    assertTrue(page.contains("5.5 in (140 mm) of asphalt: mean of 2 cores, 5.0 in"), page);
    assertTrue(page.contains("8.0 in (203 mm) of base as built, 1990"), page);
    assertFalse(page.contains("by the road's class"), page);
  }

  @Test
  void whatWasMeasuredComesBackAsItWentOut() throws IOException {
    bring("survey", "survey.csv", SURVEY);
    bring(
        "layers",
        "layers.csv",
        """
        route,milepost_from,milepost_to,layer,thickness_in,year,source
        SR 3,2.1,2.2,asphalt,5.25,2024,core
        """);
    for (String table : List.of("surveys", "layers")) {
      assertEquals(ExitCode.DONE, shell.run("export", table).code());
    }
    Path out = shell.work().resolve("exports");
    Shell other = WeakRoad.county(Files.createDirectories(folder.resolve("again")));
    assertEquals(
        ExitCode.DONE, other.run("import", "survey", out.resolve("surveys.csv").toString()).code());
    assertEquals(
        ExitCode.DONE, other.run("import", "layers", out.resolve("layers.csv").toString()).code());
    for (String table : List.of("surveys", "layers")) {
      assertEquals(ExitCode.DONE, other.run("export", table).code());
      assertEquals(
          Files.readString(out.resolve(table + ".csv")),
          Files.readString(other.work().resolve("exports/" + table + ".csv")));
    }
    assertEquals(ExitCode.DONE, other.run("check").code());
  }

  @Test
  void aStretchPutOnTheListByHandGetsItsPage() throws IOException {
    // Given a stretch nobody flagged
    Shell.Outcome said =
        shell.run(
            "renew",
            "decide",
            "--route",
            "SR 3",
            "--from",
            "4.0",
            "--to",
            "4.8",
            "--add",
            "--who",
            WHO,
            "--reason",
            "heaved last winter");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    // then its page is there at once, says why, and claims no p-value
    assertTrue(said.out().contains("section-SR_3_4.000-4.800.pdf"), said.out());
    String page = page("SR_3_4.000");
    assertTrue(page.contains("an engineer chose the stretch"), page);
    assertTrue(page.contains("heaved last winter"), page);
    assertTrue(page.contains("Overlay thickness"), page);
    // and the next study lists it beside the flagged one
    said = shell.run("renew");
    assertTrue(said.out().contains("1 section flagged, 1 by hand"), said.out());
    assertTrue(said.out().contains("by hand"), said.out());
    String index = Files.readString(shell.work().resolve("renewal/index.html"));
    assertTrue(index.contains("section-SR_3_4.000-4.800.html"), index);
    assertEquals(3, Files.readAllLines(shell.work().resolve("renewal/flagged.csv")).size());
    // and a decision on it replaces the entry
    said =
        shell.run(
            "renew",
            "decide",
            "--route",
            "SR 3",
            "--from",
            "4.0",
            "--to",
            "4.8",
            "--reject",
            "--page",
            "--who",
            WHO,
            "--reason",
            "the culvert is to blame");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    assertTrue(page("SR_3_4.000").contains("the culvert is to blame"));
    assertEquals(ExitCode.DONE, shell.run("check").code());
  }
}
