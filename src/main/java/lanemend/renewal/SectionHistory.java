package lanemend.renewal;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.repairs.RepairModel;

/**
 * The strip of a section's repairs by year and place, and year by year what the model makes of
 * them: for an engineer to see whether it fits.
 *
 * @param firstYear calendar year of the first row
 * @param cells the section's places in order, all lanes together; columns of {@code repairs}
 * @param repairs by year and place
 * @param years one row for each calendar year
 */
public record SectionHistory(int firstYear, List<Place> cells, int[][] repairs, List<Year> years) {

  /** A cell's place on the route. */
  public record Place(double fromAlongM, double toAlongM) {}

  /**
   * One calendar year.
   *
   * @param repairs that were made
   * @param modelled repairs of the section's cells by the fitted model, each drawn towards its
   *     family, on the surface now in place
   * @param family repairs had its cells been average for their families
   * @param laneYears lane-years of cells that the surface now in place was watched
   */
  public record Year(int year, int repairs, double modelled, double family, double laneYears) {}

  public SectionHistory {
    cells = List.copyOf(cells);
    years = List.copyOf(years);
  }

  /** The history of these cells between two days, the second not included. */
  public static SectionHistory of(RepairModel model, int[] section, LocalDate from, LocalDate to) {
    CellHistories h = model.histories();
    List<Place> places = new ArrayList<>();
    int first = from.getYear();
    int last = to.minusDays(1).getYear();
    int[][] grid = new int[last - first + 1][section.length];
    double[] modelled = new double[grid.length];
    double[] family = new double[grid.length];
    double[] laneYears = new double[grid.length];
    int before = -1;
    for (int i : section) {
      Cell c = h.cell(i);
      if (c.number() != before) {
        places.add(new Place(c.fromAlongM(), c.toAlongM()));
        before = c.number();
      }
      for (int r = h.firstRepair(i); r < h.firstRepair(i + 1); r++) {
        grid[LocalDate.ofEpochDay(h.repairDay(r)).getYear() - first][places.size() - 1]++;
      }
      for (int y = 0; y < grid.length; y++) {
        double[] ages = agesIn(h, i, first + y, to);
        if (ages[1] > ages[0]) {
          FamilyFit fit = model.familyFit(h.family(i));
          double mean = fit.expected(ages[0], ages[1], h.share(i), h.covariates(i));
          family[y] += mean;
          modelled[y] += mean * model.level(i) * model.outlook(i).multiplier();
          laneYears[y] += (ages[1] - ages[0]) * h.share(i);
        }
      }
    }
    List<Year> years = new ArrayList<>();
    int[][] repairs = new int[grid.length][];
    for (int y = 0; y < grid.length; y++) {
      repairs[y] = java.util.Arrays.copyOf(grid[y], places.size());
      years.add(
          new Year(
              first + y,
              java.util.Arrays.stream(repairs[y]).sum(),
              modelled[y],
              family[y],
              laneYears[y]));
    }
    return new SectionHistory(first, places, repairs, years);
  }

  /** Ages of the surface now in place within a calendar year, as far as it was watched. */
  private static double[] agesIn(CellHistories h, int i, int year, LocalDate recordsTo) {
    int spell = h.firstSpell(i + 1) - 1;
    if (spell < h.firstSpell(i)) {
      return new double[2];
    }
    double end = recordsTo.toEpochDay();
    double yearFrom = LocalDate.of(year, 1, 1).toEpochDay();
    double yearTo = LocalDate.of(year + 1, 1, 1).toEpochDay();
    double from = h.toAge(spell) - (end - yearFrom) / ExposureSettings.DAYS_PER_YEAR;
    double to = h.toAge(spell) - (end - yearTo) / ExposureSettings.DAYS_PER_YEAR;
    return new double[] {Math.max(h.fromAge(spell), from), Math.min(h.toAge(spell), to)};
  }
}
