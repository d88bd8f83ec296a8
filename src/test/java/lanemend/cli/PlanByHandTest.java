package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Predicate;
import lanemend.crewdays.Assignment;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A plan changed by hand through the commands a planner types. */
class PlanByHandTest {
  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void planASmallCounty() throws IOException {
    Path county = folder.resolve("county");
    SampleCounty.write(county, SampleSize.withDefects(30), 11);
    shell = new Shell(folder.resolve("work"));
    done(
        "import",
        "roads",
        county.resolve("roads.geojson").toString(),
        "--speed-unit",
        "mph",
        "--field",
        "class=road_class",
        "--field",
        "speed=posted_mph");
    for (String kind : List.of("posts", "attributes", "defects")) {
      done("import", kind, county.resolve(kind + ".csv").toString());
    }
    done("import", "agency", county.resolve("agency.json").toString());
    String said = done("plan", "--iterations", "300");
    assertTrue(said.contains("no plan of these work zones costs less than"), said);
  }

  private String done(String... words) {
    Shell.Outcome outcome = shell.run(words);
    assertEquals(ExitCode.DONE, outcome.code(), outcome.out() + outcome.err());
    return outcome.out();
  }

  private Assignment plan() {
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      return store.read(s -> s.assignment());
    }
  }

  @Test
  void aMovedZoneStaysWhereItWasPutUntilItIsReleased() {
    // Given the last crew day of the plan and one of the same crew before it
    Assignment before = plan();
    Assignment.Day last = before.days().get(before.days().size() - 1);
    String defect = last.zones().get(0).defectIds().get(0);
    String date = last.date().plusDays(7).toString();
    // when its first zone is put a week later, then it says what it costs and keeps it
    String said =
        done(
            "plan", "move", defect, "--crew", last.crewId(), "--on", date, "--today", "2026-05-04");
    assertTrue(said.contains("with it there"), said);
    assertTrue(said.contains("set by hand: moved by hand"), said);
    assertEquals(date, plan().dayOf(defect).orElseThrow().date().toString());
    // and a new plan leaves it there
    done("plan", "--iterations", "300");
    assertEquals(date, plan().dayOf(defect).orElseThrow().date().toString());
    String rules = done("plan", "release", defect);
    assertFalse(rules.contains(defect), rules);
  }

  @Test
  void planningSomeDatesLeavesTheCrewDaysOfOthersAsTheyAre() {
    // Given a plan, and two days in its middle
    Assignment before = plan();
    List<LocalDate> dates = before.days().stream().map(Assignment.Day::date).distinct().toList();
    LocalDate first = dates.get(dates.size() / 2);
    LocalDate end = first.plusDays(2);
    Predicate<Assignment.Day> planned = d -> !d.date().isBefore(first) && d.date().isBefore(end);
    assertTrue(before.days().stream().anyMatch(planned), "work on them");
    assertTrue(before.days().stream().anyMatch(d -> !d.date().isBefore(end)), "and after it");
    // when they alone are planned anew
    String said =
        done(
            "plan", "--from", first + "", "--days", "2", "--keep-other-days", "--iterations", "99");
    // then every other crew day is what it was, and they are planned
    List<Assignment.Day> others = before.days().stream().filter(planned.negate()).toList();
    assertEquals(others, plan().days().stream().filter(planned.negate()).toList());
    assertTrue(plan().days().stream().anyMatch(planned), said);
    assertFalse(said.contains("are gone"), said);
    // and without the option it says how many crew days went
    String bare = done("plan", "--from", first + "", "--days", "2", "--iterations", "99");
    long later = others.stream().filter(d -> !d.date().isBefore(end)).count();
    assertTrue(bare.contains(later + " crew days planned for later dates are gone"), bare);
  }

  @Test
  void whatIsLeftOutByHandSaysWhyAndComesBackWhenReleased() {
    String defect = plan().days().get(0).zones().get(0).defectIds().get(0);
    String said = done("plan", "leave-out", defect, "--reason", "utility cut first");
    assertTrue(said.contains("left out by hand: utility cut first"), said);
    assertTrue(plan().dayOf(defect).isEmpty());
    done("plan", "release", defect);
    done("plan", "adjust", "--today", "2026-05-04", "--freeze", "0", "--iterations", "300");
    assertTrue(plan().dayOf(defect).isPresent());
    // and taking the last two writes back brings the rule and the plan back
    done("undo");
    assertTrue(plan().dayOf(defect).isEmpty());
  }

  @Test
  void aClosedDayIsWorkedByNobodyAndTheListSaysWhatMovedAndWhy() {
    Assignment.Day first = plan().days().get(0);
    String date = first.date().toString();
    done(
        "plan",
        "close",
        "--on",
        date,
        "--reason",
        "rain",
        "--today",
        date,
        "--freeze",
        "0",
        "--iterations",
        "300");
    assertTrue(plan().days().stream().noneMatch(d -> d.date().equals(first.date())));
    String changes = done("plan", "changes", "--today", date);
    assertTrue(changes.contains("nobody works on " + date + ": rain"), changes);
  }

  @Test
  void aLockedDayIsRefusedToEverybody() {
    Assignment.Day first = plan().days().get(0);
    done("plan", "lock", "--crew", first.crewId(), "--on", first.date().toString());
    String other = plan().days().get(1).zones().get(0).defectIds().get(0);
    Shell.Outcome said =
        shell.run(
            "plan",
            "move",
            other,
            "--crew",
            first.crewId(),
            "--on",
            first.date().toString(),
            "--today",
            first.date().toString());
    assertEquals(ExitCode.TROUBLE_FOUND, said.code());
    assertTrue(said.out().contains("stays as it is: locked by hand"), said.out());
  }

  @Test
  void anUrgentDefectIsDoneInTime() {
    Assignment before = plan();
    Assignment.Day last = before.days().get(before.days().size() - 1);
    String defect = last.zones().get(0).defectIds().get(0);
    String by = before.days().get(0).date().plusDays(4).toString();
    String said =
        done("plan", "urgent", defect, "--by", by, "--reason", "bus stop", "--today", "2026-05-04");
    assertTrue(said.contains("urgent     " + defect + " is done by crew"), said);
    assertFalse(plan().dayOf(defect).orElseThrow().date().isAfter(java.time.LocalDate.parse(by)));
    assertTrue(done("plan", "rules").contains(defect + " is done by " + by + " (bus stop)"));
  }
}
