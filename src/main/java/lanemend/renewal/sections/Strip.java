package lanemend.renewal.sections;

import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.repairs.RepairModel;

/**
 * An unbroken row of one route's cells, all lanes together: repairs under the surface now in place,
 * what the families would have had in the same years, and the years themselves.
 *
 * @param edges along at the cells' ends; cell j lies between entries j and j + 1
 * @param repairs by cell
 * @param expected by cell, of the families
 * @param years lane-years watched by cell, short cells counted by their share
 * @param laneStart first lane of each cell in the two arrays below; one more entry than cells
 * @param laneExpected by lane of a cell
 * @param laneFrailty frailty shape of the lane's family; infinite where cells are alike
 */
public record Strip(
    String routeId,
    double[] edges,
    int[] repairs,
    double[] expected,
    double[] years,
    int[] laneStart,
    double[] laneExpected,
    double[] laneFrailty) {

  public int cells() {
    return repairs.length;
  }

  /** How much more the counts of cells vary than chance alone: 1 where frailty is nil. */
  public double dispersion() {
    double mean = 0;
    double extra = 0;
    for (int l = 0; l < laneExpected.length; l++) {
      mean += laneExpected[l];
      extra += laneExpected[l] * laneExpected[l] / laneFrailty[l];
    }
    return mean == 0 ? 1 : 1 + extra / mean;
  }

  /** All routes of the model's histories. */
  public static List<Strip> of(RepairModel model) {
    CellHistories h = model.histories();
    List<Strip> out = new ArrayList<>();
    int i = 0;
    while (i < h.size()) {
      int end = i;
      String route = h.cell(i).routeId();
      // Cells that another route owns leave a hole; what lies beyond it is a strip of its own.
      while (end < h.size()
          && h.cell(end).routeId().equals(route)
          && (end == i || h.cell(end).number() - h.cell(end - 1).number() <= 1)) {
        end++;
      }
      out.add(strip(model, i, end));
      i = end;
    }
    return out;
  }

  private static Strip strip(RepairModel model, int first, int end) {
    CellHistories h = model.histories();
    int cells = 0;
    for (int i = first; i < end; i++) {
      cells += newCell(h, first, i) ? 1 : 0;
    }
    double[] edges = new double[cells + 1];
    int[] repairs = new int[cells];
    double[] expected = new double[cells];
    double[] years = new double[cells];
    int[] laneStart = new int[cells + 1];
    double[] laneExpected = new double[end - first];
    double[] laneFrailty = new double[end - first];
    int cell = -1;
    for (int i = first; i < end; i++) {
      int lane = i - first;
      if (newCell(h, first, i)) {
        cell++;
        edges[cell] = h.cell(i).fromAlongM();
        laneStart[cell] = lane;
      }
      edges[cell + 1] = h.cell(i).toAlongM();
      FamilyFit fit = model.familyFit(h.family(i));
      laneFrailty[lane] = fit.frailtyShape();
      int last = h.firstSpell(i + 1) - 1;
      if (last >= h.firstSpell(i)) {
        laneExpected[lane] =
            fit.expected(h.fromAge(last), h.toAge(last), h.share(i), h.covariates(i));
        years[cell] += h.share(i) * (h.toAge(last) - h.fromAge(last));
        for (int r = h.firstRepair(i); r < h.firstRepair(i + 1); r++) {
          repairs[cell] += h.spellOf(r) == last ? 1 : 0;
        }
      }
      expected[cell] += laneExpected[lane];
    }
    laneStart[cells] = end - first;
    return new Strip(
        h.cell(first).routeId(),
        edges,
        repairs,
        expected,
        years,
        laneStart,
        laneExpected,
        laneFrailty);
  }

  private static boolean newCell(CellHistories h, int first, int i) {
    return i == first || h.cell(i).number() != h.cell(i - 1).number();
  }
}
