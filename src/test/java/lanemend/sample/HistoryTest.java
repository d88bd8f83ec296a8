package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import lanemend.sample.Wear.Cell;
import lanemend.sample.Wear.Family;
import lanemend.sample.Wear.Period;
import lanemend.sample.Wear.Weak;
import org.junit.jupiter.api.Test;

/** The simulated history against the truth it was drawn from; bands are 4 Poisson deviations. */
class HistoryTest {
  private static final County COUNTY = Counties.STANDARD;
  private static final Wear WEAR = COUNTY.wear();

  private static List<History.Row> repairs() {
    return COUNTY.history().stream().filter(r -> r.family() >= 0).toList();
  }

  private static double expected(Cell c, LocalDate from, LocalDate to) {
    double sum = 0;
    for (Period p : Wear.periods(c.section())) {
      double low = StrictMath.max(p.fromYears(), Surfacing.years(p.laid(), from));
      double high = StrictMath.min(p.toYears(), Surfacing.years(p.laid(), to));
      sum += low < high ? WEAR.expected(c, low, high, true) : 0;
    }
    return sum;
  }

  private static void assertPoisson(double expected, long seen, String what) {
    double band = 4 * StrictMath.sqrt(expected);
    assertEquals(expected, (double) seen, band, what);
  }

  @Test
  void countsOfEveryFamilyFitTheirExpectation() {
    for (int f = 0; f < WEAR.families().size(); f++) {
      int family = f;
      double expected =
          WEAR.cells().stream()
              .filter(c -> c.family() == family)
              .mapToDouble(c -> expected(c, Surfacing.HISTORY_FROM, Surfacing.HISTORY_TO))
              .sum();
      long seen = repairs().stream().filter(r -> r.family() == family).count();
      assertTrue(expected > 50, WEAR.families().get(f).name() + " has hardly any road");
      assertPoisson(expected, seen, WEAR.families().get(f).name());
    }
    assertTrue(repairs().size() > 3_000 && repairs().size() < 9_000, repairs().size() + " rows");
  }

  @Test
  void repairsComeWithAgeYearByYear() {
    for (int year = 2016; year <= 2025; year++) {
      LocalDate from = LocalDate.of(year, 1, 1);
      LocalDate to = LocalDate.of(year + 1, 1, 1);
      double expected = WEAR.cells().stream().mapToDouble(c -> expected(c, from, to)).sum();
      int wanted = year;
      long seen = repairs().stream().filter(r -> r.doneOn().getYear() == wanted).count();
      // A weekend at New Year moves at most three days of repairs into the next year.
      assertEquals(
          expected, (double) seen, 4 * StrictMath.sqrt(expected) + expected * 3 / 365, "" + year);
    }
  }

  @Test
  void weakSectionsWereRepairedAsOftenAsPlantedAndAreStillOld() {
    assertTrue(WEAR.weak().size() >= 6);
    for (Weak w : WEAR.weak()) {
      double expected =
          WEAR.cells().stream()
              .filter(c -> w.holds(c.section().road(), c.middleM()))
              .mapToDouble(c -> expected(c, Surfacing.HISTORY_FROM, Surfacing.HISTORY_TO))
              .sum();
      long seen =
          repairs().stream().filter(r -> w.holds(r.road(), (r.fromM() + r.toM()) / 2)).count();
      assertPoisson(expected, seen, w.section().road().id());
      assertEquals(null, w.section().renewed());
    }
  }

  @Test
  void halfTheRepairsOfAFamilyTakeLessThanItsMedianTons() {
    for (int f = 0; f < WEAR.families().size(); f++) {
      Family family = WEAR.families().get(f);
      int number = f;
      List<History.Row> rows = repairs().stream().filter(r -> r.family() == number).toList();
      long below = rows.stream().filter(r -> r.tons() < family.tons()).count();
      double share = (double) below / rows.size();
      assertEquals(0.5, share, 2 / StrictMath.sqrt(rows.size()), family.name());
    }
  }

  @Test
  void rowsAreDatedWithinTheTenYearsOnWorkdaysAndInOrder() {
    LocalDate last = Surfacing.HISTORY_FROM;
    for (History.Row r : COUNTY.history()) {
      assertTrue(!r.doneOn().isBefore(last) && r.doneOn().isBefore(Surfacing.HISTORY_TO));
      last = r.doneOn();
      if (r.family() >= 0) {
        assertTrue(
            r.doneOn().getDayOfWeek() != DayOfWeek.SATURDAY
                && r.doneOn().getDayOfWeek() != DayOfWeek.SUNDAY);
      }
    }
  }

  @Test
  void everyResurfacedSectionStandsInTheHistory() {
    long renewed =
        COUNTY.sections().stream()
            .flatMap(List::stream)
            .filter(s -> s.renewed() != null && !s.road().led().holds((s.fromM() + s.toM()) / 2))
            .count();
    long written = COUNTY.history().stream().filter(r -> r.work().equals("resurfacing")).count();
    assertTrue(renewed > 10);
    assertEquals(renewed, written);
  }
}
