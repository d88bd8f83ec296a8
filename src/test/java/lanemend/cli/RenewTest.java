package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import lanemend.inventory.DefectStatus;
import lanemend.store.LoggedChange;
import lanemend.store.Store;
import lanemend.store.StoreCheck;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From past repairs to a decision that crew days keep to, through the commands a user types. */
class RenewTest {
  private static final String WHO = "E. Invented, P.E.";
  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void aCountyWithOneWeakStretch() throws IOException {
    shell = WeakRoad.county(folder);
  }

  private Shell.Outcome decide(String... more) {
    List<String> words =
        new ArrayList<>(
            List.of("renew", "decide", "--route", "SR 3", "--from", "2.0", "--to", "2.8"));
    words.addAll(List.of(more));
    return shell.run(words.toArray(String[]::new));
  }

  private Shell.Outcome accept(String year) {
    return decide("--accept", "--year", year, "--who", WHO, "--reason", "cores confirm it");
  }

  private DefectStatus status(String defect) {
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      return store.read(s -> s.defects().find(defect)).orElseThrow().value().status();
    }
  }

  private String plan() {
    Shell.Outcome said = shell.run("plan", "--iterations", "200");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    return said.out();
  }

  @Test
  void theWeakStretchIsFlaggedAndWhatTheRecordsLackIsAskedFirst() throws IOException {
    // When the county is studied
    Shell.Outcome said = shell.run("renew");
    assertEquals(ExitCode.DONE, said.code(), said.err());
    // then the surfacing nobody wrote down is asked about before anything is claimed
    int asked = said.out().indexOf("to ask: In which year was SR 8 last surfaced");
    int flagged = said.out().indexOf("1 section flagged");
    assertTrue(asked > 0 && asked < flagged, said.out());
    // and the stretch is flagged to the cell, give or take two
    JsonNode features =
        new ObjectMapper()
            .readTree(shell.work().resolve("renewal/flagged.geojson").toFile())
            .get("features");
    assertEquals(1, features.size());
    JsonNode f = features.get(0).get("properties");
    assertEquals("SR 3", f.get("route").asText());
    assertEquals(2.0, f.get("milepost_from").asDouble(), 0.21);
    assertEquals(2.8, f.get("milepost_to").asDouble(), 0.21);
    assertTrue(f.get("p_value").asDouble() < 0.01, f.toString());
    assertEquals("LineString", features.get(0).get("geometry").get("type").asText());
    // and the truth of the next five years (8 x 0.4 / 10 a year on each of 16 lane cells, that is
    // 25.6) lies in the interval
    assertTrue(f.get("repairs_5_years_low").asDouble() < 25.6, f.toString());
    assertTrue(f.get("repairs_5_years_high").asDouble() > 25.6, f.toString());
    assertEquals(2, Files.readAllLines(shell.work().resolve("renewal/flagged.csv")).size());
  }

  @Test
  void eachFlaggedSectionHasItsPageAndItsPaperAndOldOnesGo() throws IOException {
    Path pages = Files.createDirectories(shell.work().resolve("renewal"));
    Files.writeString(pages.resolve("section-of-last-year.html"), "old");
    assertEquals(ExitCode.DONE, shell.run("renew").code());
    try (Stream<Path> files = Files.list(pages)) {
      List<String> names = files.map(p -> p.getFileName().toString()).sorted().toList();
      assertEquals(6, names.size(), names.toString());
      assertTrue(names.containsAll(List.of("flagged.csv", "flagged.geojson", "index.html")));
      assertTrue(names.contains("records.csv"));
      assertEquals(2, names.stream().filter(n -> n.startsWith("section-SR_3_")).count());
    }
  }

  @Test
  void aDecisionNeedsANameAndAReason() {
    Shell.Outcome nameless = decide("--accept", "--reason", "cores");
    assertEquals(ExitCode.USAGE, nameless.code());
    assertTrue(nameless.err().contains("--who"), nameless.err());
    assertEquals(ExitCode.USAGE, decide("--accept", "--who", WHO).code());
    assertEquals(ExitCode.USAGE, decide("--accept", "--who", WHO, "--reason", " ").code());
    assertEquals(ExitCode.USAGE, decide("--who", WHO, "--reason", "x").code());
    assertEquals(
        ExitCode.USAGE, decide("--accept", "--reject", "--who", WHO, "--reason", "x").code());
    assertEquals(ExitCode.USAGE, decide("--defer", "--who", WHO, "--reason", "x").code());
    assertEquals(
        ExitCode.USAGE, decide("--reject", "--year", "2027", "--who", WHO, "--reason", "x").code());
    Shell.Outcome beyond = decide("--limits", "3.5,4.0", "--who", WHO, "--reason", "the curve too");
    assertEquals(ExitCode.NOTHING_DONE, beyond.code(), beyond.out());
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      assertEquals(List.of(), store.read(s -> s.decisions().all()));
    }
  }

  @Test
  void decisionsStandInTheNextStudyAndLeadItsProgram() {
    // Given the stretch accepted for 2028
    assertEquals(ExitCode.DONE, accept("2028").code());
    String said = shell.run("renew").out();
    assertTrue(said.contains("2028 (agreed)"), said);
    assertTrue(said.contains("accepted, overlay in 2028 by E. Invented, P.E. on "), said);
    assertTrue(said.contains(": cores confirm it"), said);
    // when the engineer changes their mind, then the new decision stands in the old one's place
    assertEquals(
        ExitCode.DONE, decide("--reject", "--who", WHO, "--reason", "sewer comes first").code());
    said = shell.run("renew").out();
    assertTrue(said.contains("patch on (rejected)"), said);
    assertFalse(said.contains("cores confirm it"), said);
    // and both are in the log
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      List<LoggedChange> log = store.read(s -> s.history("renewal_decision", "SR 3 2.000-2.800"));
      assertEquals(List.of("insert", "update"), log.stream().map(LoggedChange::action).toList());
      assertEquals(WHO, log.get(1).who());
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void changedLimitsAreTheOnesStudied() {
    assertEquals(
        ExitCode.DONE,
        decide("--limits", "1.9,3.1", "--who", WHO, "--reason", "to the bridge").code());
    String said = shell.run("renew").out();
    assertTrue(said.contains("  SR 3 1.900-3.100 "), said);
    assertTrue(said.contains("limits changed by "), said);
  }

  @Test
  void defectsUnderAnOverlayOfTheNextSeasonComeOffTheCrewDays() throws IOException {
    // Given a plan of all five open defects (seasons 2026 and 2027)
    assertTrue(plan().contains("plan       5 repairs"));
    assertEquals(ExitCode.DONE, shell.run("export", "stops").code());
    Path stops = shell.work().resolve("exports/stops.csv");
    String before = Files.readString(stops);
    // when the stretch under three of them is to be overlaid in 2027
    assertEquals(ExitCode.DONE, accept("2027").code());
    String said = plan();
    // then those are held together, with the section and whose decision it is
    assertTrue(said.contains("plan       2 repairs"), said);
    assertTrue(
        said.contains(
            "left out, 3: SR 3 2.000-2.800 is to be overlaid in 2027 (accepted by " + WHO),
        said);
    for (String d : List.of("D1", "D2", "D3")) {
      assertEquals(DefectStatus.DEFERRED_TO_OVERLAY, status(d));
    }
    assertEquals(DefectStatus.PLANNED, status("D5"));
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
    assertEquals(ExitCode.DONE, shell.run("export", "left-out").code());
    List<String> leftOut = Files.readAllLines(shell.work().resolve("exports/left-out.csv"));
    assertEquals(4, leftOut.size());
    assertTrue(leftOut.get(1).contains("hold it together until then"), leftOut.get(1));
    // and planning once more changes nothing
    assertTrue(plan().contains("left out, 3: SR 3"));
    // When the decision is taken back, then they are open at once, and planned as before
    Shell.Outcome back = decide("--withdraw", "--who", WHO, "--reason", "budget cut");
    assertEquals(ExitCode.DONE, back.code(), back.err());
    assertTrue(back.out().contains("3 defects are open again"), back.out());
    assertEquals(DefectStatus.OPEN, status("D1"));
    // what somebody else put off stays put off
    assertEquals(DefectStatus.DEFERRED_TO_OVERLAY, status("D4"));
    assertTrue(plan().contains("plan       5 repairs"));
    assertEquals(ExitCode.DONE, shell.run("export", "stops").code());
    assertEquals(before, Files.readString(stops));
    assertEquals(ExitCode.DONE, shell.run("check").code());
  }

  @Test
  void anOverlayInLaterYearsLeavesTheCrewDaysAlone() {
    assertEquals(ExitCode.DONE, accept("2028").code());
    assertTrue(plan().contains("plan       5 repairs"));
    // until a plan of 2027, when it is next season's
    Shell.Outcome later =
        shell.run("plan", "--iterations", "200", "--from", "2027-05-03", "--days", "30");
    assertTrue(later.out().contains("plan       2 repairs"), later.out());
  }

  @Test
  void takingBackWhatIsNotThereSaysSo() {
    Shell.Outcome said = decide("--withdraw", "--who", WHO, "--reason", "x");
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(said.err().contains("no decision is on file"), said.err());
  }

  @Test
  void withoutPastRepairsThereIsNothingToStudy() throws IOException {
    Shell empty = new Shell(folder.resolve("empty"));
    assertEquals(
        ExitCode.DONE, empty.run("import", "roads", folder.resolve("roads.csv").toString()).code());
    Shell.Outcome said = empty.run("renew");
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(said.err().contains("import patches"), said.err());
  }
}
