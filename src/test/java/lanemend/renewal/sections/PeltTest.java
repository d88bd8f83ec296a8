package lanemend.renewal.sections;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PeltTest {
  private static final int[] NILE = {
    1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180,
    799, 958, 1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833,
    701, 916, 692, 1020, 1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845,
    864, 862, 698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649,
    846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815,
    1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740
  };
  private static final int[] COAL = {
    4, 5, 4, 0, 1, 4, 3, 4, 0, 6, 3, 3, 4, 0, 2, 6, 3, 3, 5, 4, 5, 3, 1, 4, 4, 1, 5, 5, 3, 4, 2, 5,
    2, 2, 3, 4, 2, 1, 3, 2, 2, 1, 1, 1, 1, 3, 0, 0, 1, 0, 1, 1, 0, 0, 3, 1, 0, 3, 2, 2, 0, 1, 1, 1,
    0, 1, 0, 1, 0, 0, 0, 2, 1, 0, 0, 0, 1, 1, 0, 2, 3, 3, 1, 1, 2, 1, 1, 1, 1, 2, 4, 2, 0, 0, 1, 4,
    0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 1
  };

  @Test
  void nileChangesAfterIts28thYear() {
    // Cobb 1978 (series read): the known change is 1898, the 28th. Totals computed by full optimal
    // partitioning in an independent script.
    double[] scaled = Arrays.stream(NILE).mapToDouble(v -> v / 118.887217).toArray();
    Pelt.Partition p = Pelt.partition(Pelt.mean(scaled), 100, 2 * Math.log(100), 1);
    assertArrayEquals(new int[] {28, 100}, p.ends());
    assertEquals(122.231278, p.cost(), 1e-5);
    assertEquals(
        126.836448, Pelt.partition(Pelt.mean(scaled), 100, 3 * Math.log(100), 1).cost(), 1e-5);
  }

  @Test
  void coalMineDisastersAtThreePenalties() {
    // Jarrett 1979 (read to 1935, rest memory); the known change is about 1891, the 41st year.
    double[] years = new double[COAL.length];
    Arrays.fill(years, 1);
    Pelt.Cost cost = Pelt.poisson(COAL, years);
    double log = Math.log(COAL.length);
    Pelt.Partition one = Pelt.partition(cost, 111, log, 1);
    assertArrayEquals(new int[] {41, 79, 96, 111}, one.ends());
    assertEquals(-280.827227, one.cost(), 1e-5);
    Pelt.Partition two = Pelt.partition(cost, 111, 2 * log, 1);
    assertArrayEquals(new int[] {41, 96, 111}, two.ends());
    assertEquals(-268.205413, two.cost(), 1e-5);
    Pelt.Partition three = Pelt.partition(cost, 111, 3 * log, 1);
    assertArrayEquals(new int[] {41, 111}, three.ends());
    assertEquals(-261.577268, three.cost(), 1e-5);
  }

  @Test
  void aToySeriesWorkedByHand() {
    // Each inner segment of three pairs costs 1.5 about its mean.
    double[] toy = {0, 1, 0, 1, 0, 1, 10, 11, 10, 11, 10, 11, 5, 6, 5, 6, 5, 6};
    Pelt.Partition p = Pelt.partition(Pelt.mean(toy), 18, 1, 1);
    assertArrayEquals(new int[] {6, 12, 18}, p.ends());
    assertEquals(6.5, p.cost(), 1e-9);
    assertArrayEquals(new int[] {6, 18}, Pelt.partition(Pelt.mean(toy), 18, 200, 1).ends());
    assertArrayEquals(new int[] {18}, Pelt.partition(Pelt.mean(toy), 18, 1000, 1).ends());
  }

  @Test
  void withAShortestSegmentItStillFindsTheExactOptimum() {
    // Given random counts and shortest segments of 1 to 8, against the full search without pruning
    SplittableRandom random = new SplittableRandom(3);
    for (int trial = 0; trial < 60; trial++) {
      int n = 20 + random.nextInt(60);
      int shortest = 1 + random.nextInt(8);
      int[] counts = random.ints(n, 0, 5).toArray();
      double[] years = random.doubles(n, 0.5, 2).toArray();
      Pelt.Cost cost = Pelt.poisson(counts, years);
      double penalty = 0.5 + 3 * random.nextDouble();
      assertEquals(
          full(cost, n, penalty, shortest),
          Pelt.partition(cost, n, penalty, shortest).cost(),
          1e-9);
    }
  }

  private static double full(Pelt.Cost cost, int n, double penalty, int shortest) {
    double[] best = new double[n + 1];
    Arrays.fill(best, Double.POSITIVE_INFINITY);
    best[0] = -penalty;
    for (int t = shortest; t <= n; t++) {
      for (int s = 0; s <= t - shortest; s++) {
        best[t] = Math.min(best[t], best[s] + cost.of(s, t) + penalty);
      }
    }
    return best[n];
  }
}
