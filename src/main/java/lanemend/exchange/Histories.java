package lanemend.exchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;

/**
 * Cell histories as columns, for a file: a county has a hundred thousand cells and more.
 *
 * @param families as {@link CellHistories#families}
 * @param names routes and lanes, which cells name by their place here
 * @param route by cell, as are the columns down to {@code spells}
 * @param spells how many a cell has
 * @param fromAge by spell, as are the columns down to {@code repairs}
 * @param repairs how many a spell has
 * @param age by repair, as are the columns below it
 */
record Histories(
    List<String> families,
    List<String> names,
    int[] route,
    int[] number,
    int[] lane,
    double[] fromAlongM,
    double[] toAlongM,
    int[] family,
    double[] share,
    double[] ageNow,
    double[][] covariates,
    int[] spells,
    double[] fromAge,
    double[] toAge,
    int[] repairs,
    double[] age,
    double[] tonnes,
    long[] day) {

  static Histories of(CellHistories h) {
    int n = h.size();
    int spells = h.firstSpell(n);
    int repairs = h.allRepairs();
    Map<String, Integer> names = new LinkedHashMap<>();
    Histories out =
        new Histories(
            h.families(),
            new ArrayList<>(),
            new int[n],
            new int[n],
            new int[n],
            new double[n],
            new double[n],
            new int[n],
            new double[n],
            new double[n],
            new double[n][],
            new int[n],
            new double[spells],
            new double[spells],
            new int[spells],
            new double[repairs],
            new double[repairs],
            new long[repairs]);
    for (int i = 0; i < n; i++) {
      out.cell(i, h, names);
    }
    for (int s = 0; s < spells; s++) {
      out.fromAge[s] = h.fromAge(s);
      out.toAge[s] = h.toAge(s);
    }
    for (int r = 0; r < repairs; r++) {
      out.repairs[h.spellOf(r)]++;
      out.age[r] = h.repairAge(r);
      out.tonnes[r] = h.repairTonnes(r);
      out.day[r] = h.repairDay(r);
    }
    out.names.addAll(names.keySet());
    return out;
  }

  private void cell(int i, CellHistories h, Map<String, Integer> numbered) {
    Cell cell = h.cell(i);
    route[i] = place(cell.routeId(), numbered);
    number[i] = cell.number();
    lane[i] = place(cell.lane(), numbered);
    fromAlongM[i] = cell.fromAlongM();
    toAlongM[i] = cell.toAlongM();
    family[i] = h.family(i);
    share[i] = h.share(i);
    ageNow[i] = h.ageNow(i);
    covariates[i] = h.covariates(i);
    spells[i] = h.firstSpell(i + 1) - h.firstSpell(i);
  }

  private static int place(String name, Map<String, Integer> numbered) {
    return numbered.computeIfAbsent(name, k -> numbered.size());
  }

  /**
   * The histories these columns were made of.
   *
   * @throws RuntimeException when the columns do not go together
   */
  CellHistories unpacked() {
    CellHistories.Builder builder = new CellHistories.Builder(families);
    int s = 0;
    int r = 0;
    for (int i = 0; i < route.length; i++) {
      builder.cell(
          new Cell(names.get(route[i]), number[i], names.get(lane[i]), fromAlongM[i], toAlongM[i]),
          family[i],
          share[i],
          ageNow[i],
          covariates[i]);
      for (int last = s + spells[i]; s < last; s++) {
        builder.spell(fromAge[s], toAge[s]);
        for (int end = r + repairs[s]; r < end; r++) {
          builder.repair(age[r], tonnes[r], day[r]);
        }
      }
    }
    return builder.build();
  }
}
