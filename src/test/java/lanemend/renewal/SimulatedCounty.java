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
}
