package lanemend.renewal.repairs;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.renewal.exposure.CellHistories;

/**
 * Stretches whose cells share a cause: each has a level of its own, a multiple of its families'
 * rate, besides the frailty of each cell. Without it every cell of a weak stretch would be drawn
 * towards its family as if its neighbours knew nothing, and the families' own wear would be fitted
 * from stretches that are not like them.
 */
final class WeakSections implements CellLevel {
  private final int[] sectionOf;
  private final int[][] cells;
  private final double[] level;
  private final double[] logVariance;

  WeakSections(int size, List<int[]> sections) {
    sectionOf = new int[size];
    Arrays.fill(sectionOf, -1);
    cells = sections.toArray(int[][]::new);
    level = new double[cells.length];
    logVariance = new double[cells.length];
    Arrays.fill(level, 1);
    for (int s = 0; s < cells.length; s++) {
      for (int i : cells[s]) {
        sectionOf[i] = s;
      }
    }
  }

  /** Sections whose levels are known, in the order of {@code sections}. */
  WeakSections(int size, List<int[]> sections, List<RepairModel.SectionLevel> levels) {
    this(size, sections);
    for (int s = 0; s < cells.length; s++) {
      level[s] = levels.get(s).level();
      logVariance[s] = levels.get(s).logVariance();
    }
  }

  @Override
  public double of(int cell) {
    return sectionOf[cell] < 0 ? 1 : level[sectionOf[cell]];
  }

  /** The section of a cell, or -1. */
  int section(int cell) {
    return sectionOf[cell];
  }

  int count() {
    return cells.length;
  }

  /** Variance of ln of a section's level. */
  double logVariance(int section) {
    return logVariance[section];
  }

  List<RepairModel.SectionLevel> levels() {
    return IntStream.range(0, cells.length)
        .mapToObj(s -> new RepairModel.SectionLevel(level[s], logVariance[s]))
        .toList();
  }

  /** Each level by maximum likelihood with the families' fits as they stand. */
  void update(CellHistories h, FamilyFit[] fits) {
    for (int s = 0; s < cells.length; s++) {
      double log = Math.log(level[s]);
      double information = 0;
      for (int step = 0; step < 50; step++) {
        double score = 0;
        information = 0;
        for (int i : cells[s]) {
          FamilyFit fit = fits[h.family(i)];
          double mu = Math.exp(log) * expected(h, fit, i);
          double kappa = fit.frailtyShape();
          double n = h.repairs(i);
          // Of an infinite frailty shape both ratios are 1.
          double q = Double.isInfinite(kappa) ? 1 : (kappa + n) / (kappa + mu);
          double w = Double.isInfinite(kappa) ? 1 : kappa / (kappa + mu);
          score += n - q * mu;
          information += q * w * mu;
        }
        if (!(information > 0)) {
          break;
        }
        double change = Math.max(-1, Math.min(1, score / information));
        log += change;
        if (Math.abs(change) < 1e-10) {
          break;
        }
      }
      // A stretch with no repairs has no finite level of its own; a tenth is as far as it goes.
      level[s] = Math.max(0.1, Math.exp(log));
      logVariance[s] = information > 0 ? 1 / information : 0;
    }
  }

  private static double expected(CellHistories h, FamilyFit fit, int i) {
    double mu = 0;
    for (int s = h.firstSpell(i); s < h.firstSpell(i + 1); s++) {
      mu += fit.expected(h.fromAge(s), h.toAge(s), h.share(i), h.covariates(i));
    }
    return mu;
  }
}
