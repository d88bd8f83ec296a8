package lanemend.renewal;

import java.util.List;
import java.util.SplittableRandom;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.Sampling;

/**
 * Histories drawn from a known truth: power law in age, gamma frailty by cell, records that start
 * late and surfaces of many ages.
 */
public final class SimulatedCounty {
  private SimulatedCounty() {}

  /** The truth: repairs of a cell to age t are a t^b times a gamma frailty of this variance. */
  public record Truth(double a, double b, double frailtyVariance) {}

  /** Histories with the days counted from age 0 of nothing: only ages matter to a fit. */
  public static CellHistories draw(
      List<Truth> families, int cellsOfEach, double recordYears, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Sampling sampling = new Sampling(random);
    List<String> names =
        java.util.stream.IntStream.range(0, families.size()).mapToObj(f -> "family " + f).toList();
    CellHistories.Builder to = new CellHistories.Builder(names);
    int number = 0;
    for (int f = 0; f < families.size(); f++) {
      Truth truth = families.get(f);
      for (int c = 0; c < cellsOfEach; c++) {
        double start = Math.max(0, random.nextDouble() * 25 - 3);
        double end = start + recordYears * (start == 0 ? 0.4 + 0.6 * random.nextDouble() : 1);
        to.cell(
            new Cell("SR " + f, number, "R1", number * 160.9344, (number + 1) * 160.9344),
            f,
            1,
            end,
            new double[0]);
        number++;
        to.spell(start, end);
        double z = sampling.gammaWithMeanOne(truth.frailtyVariance());
        double low = Math.pow(start, truth.b());
        double high = Math.pow(end, truth.b());
        long n = sampling.poisson(z * truth.a() * (high - low));
        for (long k = 0; k < n; k++) {
          double age = Math.pow(low + random.nextDouble() * (high - low), 1 / truth.b());
          to.repair(Math.max(age, 1e-6), Math.exp(1 + 0.5 * random.nextGaussian()), 0);
        }
      }
    }
    return to.build();
  }

  /** Histories before and after a day 0, of the same cells with the same frailties. */
  public record Split(CellHistories before, CellHistories after) {}

  /** A stretch of one route whose cells are worse by a factor. */
  public record Planted(int route, int fromCell, int toCell, double factor) {}

  /** Routes of 100 two-lane cells; each ten cells were surfaced together. */
  public static Split split(
      Truth truth,
      int routes,
      double yearsBefore,
      double yearsAfter,
      List<Planted> bad,
      long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Sampling sampling = new Sampling(random);
    CellHistories.Builder before = new CellHistories.Builder(List.of("one"));
    CellHistories.Builder after = new CellHistories.Builder(List.of("one"));
    for (int r = 0; r < routes; r++) {
      double surfaced = 0;
      for (int c = 0; c < 100; c++) {
        surfaced = c % 10 == 0 ? random.nextDouble() * 18 : surfaced;
        int cell = c;
        int route = r;
        double factor =
            bad.stream()
                .filter(b -> b.route() == route && cell >= b.fromCell() && cell < b.toCell())
                .mapToDouble(Planted::factor)
                .findFirst()
                .orElse(1);
        for (String lane : List.of("L1", "R1")) {
          double day = surfaced + yearsBefore;
          Cell of = new Cell("SR " + r, c, lane, c * 160.9344, (c + 1) * 160.9344);
          before.cell(of, 0, 1, day, new double[0]);
          after.cell(of, 0, 1, day + yearsAfter, new double[0]);
          double z = factor * sampling.gammaWithMeanOne(truth.frailtyVariance());
          fill(before, truth, z, surfaced, day, day, sampling);
          fill(after, truth, z, day, day + yearsAfter, day, sampling);
        }
      }
    }
    return new Split(before.build(), after.build());
  }

  private static void fill(
      CellHistories.Builder to,
      Truth truth,
      double z,
      double from,
      double end,
      double dayZero,
      Sampling sampling) {
    to.spell(from, end);
    double low = Math.pow(from, truth.b());
    double high = Math.pow(end, truth.b());
    long n = sampling.poisson(z * truth.a() * (high - low));
    for (long k = 0; k < n; k++) {
      double age = Math.pow(low + sampling.uniform() * (high - low), 1 / truth.b());
      to.repair(
          Math.max(age, 1e-6),
          Math.exp(1 + 0.5 * sampling.normal()),
          Math.round((age - dayZero) * 365.25));
    }
  }
}
