package lanemend.renewal.hindcast;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Route;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.exposure.Covariate;
import lanemend.renewal.exposure.ExposureBuilder;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.exposure.Families;

/**
 * Histories up to a day and what each cell had after it, until the records end or the cell is
 * resurfaced: a forecast made on that day knew of no later resurfacing.
 *
 * @param known histories up to the day
 * @param cells numbers of the cells whose age was known on the day and that were watched after it
 * @param windows years watched after the day, by entry of {@code cells}
 * @param repairs counted in the window, by entry of {@code cells}
 * @param lastYear repairs of the year before the day, by entry of {@code cells}
 */
public record Holdout(
    CellHistories known, int[] cells, double[] windows, int[] repairs, int[] lastYear) {

  /** Everything the histories are made from. */
  public record Records(
      Collection<Route> routes,
      RoadAttributes attributes,
      List<PastPatch> patches,
      Families families,
      List<Covariate> covariates,
      ExposureSettings settings) {

    CellHistories between(LocalDate from, LocalDate to) {
      ExposureSettings s = settings;
      ExposureSettings cut =
          new ExposureSettings(
              s.cellM(), from, to, s.inferAcrossM(), s.notRepairs(), s.lanesUnknown());
      return ExposureBuilder.build(routes, attributes, patches, families, covariates, cut)
          .histories();
    }
  }

  /** Cuts the records {@code years} years before their end. */
  public static Holdout of(Records records, int years) {
    ExposureSettings s = records.settings();
    LocalDate day = s.recordsTo().minusYears(years);
    return of(
        records.between(s.recordsFrom(), day),
        records.between(day, s.recordsTo()),
        day.toEpochDay());
  }

  /**
   * From histories before a day and after it; cells are matched by route, number and lane.
   *
   * @param day as {@link LocalDate#toEpochDay()}
   */
  public static Holdout of(CellHistories before, CellHistories after, long day) {
    Map<Cell, Integer> later = new HashMap<>();
    for (int i = 0; i < after.size(); i++) {
      later.put(after.cell(i), i);
    }
    int[] cells = new int[before.size()];
    double[] windows = new double[before.size()];
    int[] repairs = new int[before.size()];
    int[] lastYear = new int[before.size()];
    int n = 0;
    for (int i = 0; i < before.size(); i++) {
      Integer j = later.get(before.cell(i));
      if (j == null
          || Double.isNaN(before.ageNow(i))
          || after.firstSpell(j) == spellEnd(after, j)) {
        continue;
      }
      int spell = after.firstSpell(j);
      // A first spell from age 0 is a surface laid after the day: not what was forecast.
      if (after.fromAge(spell) == 0) {
        continue;
      }
      cells[n] = i;
      windows[n] = after.toAge(spell) - after.fromAge(spell);
      for (int r = after.firstRepair(j); r < after.firstRepair(j + 1); r++) {
        repairs[n] += after.spellOf(r) == spell ? 1 : 0;
      }
      for (int r = before.firstRepair(i); r < before.firstRepair(i + 1); r++) {
        lastYear[n] += before.repairDay(r) >= day - ExposureSettings.DAYS_PER_YEAR ? 1 : 0;
      }
      n++;
    }
    return new Holdout(
        before,
        Arrays.copyOf(cells, n),
        Arrays.copyOf(windows, n),
        Arrays.copyOf(repairs, n),
        Arrays.copyOf(lastYear, n));
  }

  private static int spellEnd(CellHistories h, int i) {
    return h.firstSpell(i + 1);
  }
}
