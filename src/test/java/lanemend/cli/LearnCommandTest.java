package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.county.LearnedWork;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Learning from done work and the season's report, as a planner types them. */
class LearnCommandTest {
  @TempDir Path folder;
  private Shell shell;
  private Path county;

  @BeforeEach
  void importACounty() throws IOException {
    county = folder.resolve("county");
    SampleCounty.write(county, new SampleSize(150, 30, 5, 8), 11);
    shell = new Shell(folder.resolve("work"));
    Commands.importCounty(county, shell.work());
  }

  private String done(String... words) {
    Shell.Outcome outcome = shell.run(words);
    assertEquals(ExitCode.DONE, outcome.code(), outcome.out() + outcome.err());
    return outcome.out();
  }

  private Store store() {
    return Store.open(shell.work().resolve("lanemend.gpkg"));
  }

  private double minutesOfHandPatches() {
    try (Store store = store()) {
      return County.read(store).repairs().stream()
          .filter(r -> r.choice().treatment() == Treatment.HAND_PATCH)
          .mapToDouble(PatchDesign::minutes)
          .sum();
    }
  }

  @Test
  void whatTheSeasonTaughtIsAcceptedUsedAndTakenBack() {
    // Given a season with its plans, the truth is told near what it is
    String said = done("learn");
    assertTrue(said.contains("minutes hand_patch"), said);
    assertTrue(said.contains("repairs: no plan on record"), said);
    assertTrue(said.contains("far off    P-"), said);
    double before = minutesOfHandPatches();
    // when one factor is accepted, designs are that much longer
    String accepted = done("learn", "accept", "minutes hand_patch", "--who", "ann");
    assertTrue(accepted.contains("outside the 90 % interval") || accepted.contains("inside"));
    double factor;
    try (Store store = store()) {
      factor = County.read(store).learned().inForce(Measure.MINUTES, Treatment.HAND_PATCH, "");
    }
    assertEquals(before * factor, minutesOfHandPatches(), 1e-6 * before);
    assertTrue(done("learn", "in-force").contains("by ann"));
    assertTrue(done("history").contains("accept learned minutes hand_patch"));
    // and taken back by undo or release they are as before
    done("undo");
    assertEquals(before, minutesOfHandPatches(), 1e-9 * before);
    done("learn", "accept", "--all");
    done("learn", "release", "minutes hand_patch");
    assertEquals(before, minutesOfHandPatches(), 1e-9 * before);
    assertTrue(shell.run("learn", "release", "minutes hand_patch").err().contains("in force"));
    assertEquals(ExitCode.NOTHING_DONE, shell.run("learn", "accept", "mix hand_patch C2").code());
    assertEquals(ExitCode.NOTHING_DONE, shell.run("learn", "accept").code());
  }

  @Test
  void theEffectIsToldWithAndWithoutAndNothingIsWritten() {
    done("plan", "--iterations", "100", "--proof", "0");
    String said = done("learn", "effect", "--clear", "--iterations", "100");
    assertTrue(said.contains("plan as kept:") && said.contains("planned anew:"), said);
    assertTrue(said.contains("chance of ending in time"), said);
    try (Store store = store()) {
      assertEquals(List.of(), County.read(store).learned().all());
    }
  }

  @Test
  void theReportAddsUpAndGoesToCsv() throws IOException {
    Path csv = folder.resolve("season.csv");
    String said = done("report", "--by", "treatment", "--to-csv", csv.toString());
    assertTrue(said.contains("season     2025-01-01 to 2025-12-31"), said);
    assertTrue(said.contains("hand_patch"), said);
    List<String> lines = Files.readAllLines(csv);
    assertTrue(lines.get(0).startsWith("from,to,by,group,repairs"), lines.get(0));
    int total = repairs(lines, "total");
    assertEquals(total, repairs(lines, "crew"));
    assertEquals(total, repairs(lines, "month"));
    assertTrue(Files.exists(folder.resolve("season-not-done.csv")));
    assertEquals(
        ExitCode.NOTHING_DONE,
        shell.run("report", "--from", "2026-05-01", "--to", "2026-04-01").code());
  }

  private static int repairs(List<String> lines, String by) {
    return lines.stream()
        .map(l -> l.split(","))
        .filter(c -> c[2].equals(by))
        .mapToInt(c -> Integer.parseInt(c[4]))
        .sum();
  }

  @Test
  void whatIsClosedOrPastAndNotRecordedIsNamedWithItsReason() {
    done("plan", "--iterations", "100", "--proof", "0");
    String day;
    String crew;
    try (Store store = store()) {
      var first = County.read(store).assignment().days().get(0);
      day = first.date().toString();
      crew = first.crewId();
    }
    done("plan", "close", "--on", day, "--crew", crew, "--reason", "rain all day", "--today", day);
    String said = done("report", "--from", "2026-05-01", "--to", "2026-10-31");
    assertTrue(said.contains("the day was closed: rain all day"), said);
  }

  @Test
  void plansOfPatchesComeInAndGoOutUnchanged() {
    Path out = folder.resolve("patches.csv");
    done("export", "patches", "--to", out.toString());
    List<DoneRepair> before;
    try (Store store = store()) {
      before = new LearnedWork(County.read(store)).done();
    }
    Shell other = new Shell(folder.resolve("other"));
    shell = other;
    Commands.importCounty(county, other.work());
    done("undo");
    done("undo");
    assertFalse(done("import", "patches", out.toString()).isEmpty());
    try (Store store = store()) {
      List<DoneRepair> after = new LearnedWork(County.read(store)).done();
      assertEquals(before.size(), after.size());
      int planned = 0;
      for (int i = 0; i < before.size(); i++) {
        DoneRepair.Planned a = before.get(i).planned();
        DoneRepair.Planned b = after.get(i).planned();
        assertEquals(a == null, b == null);
        if (a != null) {
          planned++;
          assertEquals(a.tonnes(), b.tonnes(), 1e-6);
          assertEquals(a.minutes(), b.minutes(), 1e-6);
          assertEquals(a.mixPrice(), b.mixPrice(), 1e-6);
          assertEquals(a.on(), b.on());
          assertEquals(before.get(i).crewId(), after.get(i).crewId());
        }
      }
      assertTrue(planned > 50, planned + " with a plan");
    }
  }
}
