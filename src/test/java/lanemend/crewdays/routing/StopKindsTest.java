package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The small tables of a problem against the problem itself. */
class StopKindsTest {
  /**
   * Kinds that serve alike share their variances, as an agency's do; some kinds differ all the
   * same.
   */
  private static DayProblem alike(Random random, int n, int differing) {
    DayProblem p = TimedPlacesTest.uncertain(random, n, 1.04);
    int kinds = 70;
    double[][] service = new double[kinds][];
    double[][] variance = new double[kinds][];
    double[][] stopCost = new double[kinds][];
    ZoneSupply[][] supply = new ZoneSupply[kinds][];
    DayKind[] kind = new DayKind[kinds];
    for (int k = 0; k < kinds; k++) {
      int as = k % p.kinds().length;
      kind[k] = p.kinds()[as];
      variance[k] = p.chance().variance()[as];
      stopCost[k] = p.stopCost()[as];
      supply[k] = p.supply() == null ? null : p.supply()[as];
      service[k] = p.service()[as].clone();
      for (int c = 0; c < n; c++) {
        if (random.nextInt(5) == 0) {
          service[k][c] = Double.POSITIVE_INFINITY;
        }
      }
    }
    for (int i = 0; i < differing; i++) {
      service[random.nextInt(kinds)][random.nextInt(n)] = random.nextInt(90);
    }
    return new DayProblem(
        n,
        p.depots(),
        p.legs(),
        kind,
        p.slots(),
        service,
        stopCost,
        p.demand(),
        p.late(),
        p.shared(),
        p.skipCost(),
        p.supply() == null ? null : supply,
        new DayChance(1.04, 0.08, 0.15, variance));
  }

  @Test
  void everyKindThatCanDoAStopHasItsMinutesVarianceAndTrucks() {
    for (int seed = 0; seed < 60; seed++) {
      DayProblem p = alike(new Random(seed), 150, seed % 3 == 0 ? 0 : seed);
      StopKinds byStop = p.byStop();
      for (int k = 0; k < p.kinds().length; k++) {
        for (int c = 0; c < p.stops(); c++) {
          boolean can = p.service()[k][c] < Double.POSITIVE_INFINITY;
          assertEquals(can, byStop.can(k, c));
          assertEquals(p.service()[k][c], byStop.service(k, c), 0.0);
          if (can) {
            assertEquals(p.chance().variance()[k][c], byStop.variance(k, c), 0.0);
            assertEquals(p.supply() == null ? null : p.supply()[k][c], byStop.supply(k, c));
          }
        }
      }
    }
  }

  @Test
  void aDetourIsNeverShorterThanToldNorMuchLonger() {
    for (int seed = 0; seed < 60; seed++) {
      Random random = new Random(seed);
      DayProblem p = DaySearchTest.county(random, 9);
      int[] seq = {1, 4, 6, 2};
      double[] driven = new double[seq.length + 1];
      double[] detour = new double[seq.length + 1];
      double[] told = new double[seq.length + 1];
      int depot = p.depotPlace(0);
      for (int at = 0; at <= seq.length; at++) {
        int from = at == 0 ? depot : seq[at - 1];
        int to = at == seq.length ? depot : seq[at];
        driven[at] = minutes(p, from, to);
        detour[at] = minutes(p, from, 8) + minutes(p, 8, to) - driven[at];
      }
      double shortest = p.leastLegs().detour(8, seq, seq.length, depot, driven, told);
      assertEquals(Arrays.stream(told).min().orElseThrow(), shortest, 0.0);
      for (int at = 0; at < told.length; at++) {
        assertTrue(
            told[at] <= detour[at] && told[at] > detour[at] - 2 / 64.0,
            told[at] + " of " + detour[at]);
      }
    }
  }

  private static double minutes(DayProblem p, int from, int to) {
    return p.legs()[p.leg(from, to) + 1];
  }

  @Test
  void whetherADayEndsInTimeIsToldAsByItsMinutes() {
    Random random = new Random(11);
    int near = 0;
    for (int i = 0; i < 300_000; i++) {
      DayChance chance =
          new DayChance(random.nextDouble() * 3 - 0.5, random.nextDouble() * 0.3, 0.15, null);
      double mean = random.nextInt(20) == 0 ? 0 : random.nextDouble() * 600;
      double separate = Math.pow(random.nextDouble() * 300, 2);
      double minutes = chance.minutes(mean, separate);
      // Rooms far away, close by, and the minutes themselves.
      double[] rooms = {
        random.nextDouble() * 600, minutes * (1 + (random.nextDouble() - 0.5) * 1e-3), minutes
      };
      for (double room : rooms) {
        assertEquals(minutes <= room, chance.within(mean, separate, room), mean + " " + separate);
        near += Math.abs(room - minutes) < 0.1 ? 1 : 0;
      }
    }
    assertTrue(near > 100_000, near + " close by");
  }

  @Test
  void aDayToldImpossibleOrDearIsSoWhenPricedWhole() {
    int ruledOut = 0;
    int left = 0;
    for (int seed = 0; seed < 400; seed++) {
      Random random = new Random(seed);
      DayProblem p = TimedPlacesTest.uncertain(random, 9, new double[] {-0.2, 1.04, 2.4}[seed % 3]);
      DayPrice price = new DayPrice(p);
      for (int k = 0; k < p.kinds().length; k++) {
        int size = 1 + random.nextInt(4);
        int[] stops = random.ints(0, 9).distinct().limit(size).toArray();
        boolean fits = price.price(k, 0, stops, size, -1, -1);
        double cost = fits ? price.cost : Double.POSITIVE_INFINITY;
        double below = random.nextBoolean() ? Double.POSITIVE_INFINITY : price.cost - 1;
        if (!price.mayDo(k, 0, stops, size, below)) {
          ruledOut++;
          assertTrue(cost >= below, "seed " + seed);
        } else {
          left++;
        }
      }
    }
    assertTrue(ruledOut > 200 && left > 200, ruledOut + " ruled out, " + left + " left");
  }

  @Test
  void joinsOfEqualSavingsKeepTheirOrder() {
    Random random = new Random(2);
    double[] saved = random.doubles(20_000).map(d -> Math.floor(d * 900) / 8 + 1e-9).toArray();
    int[] numbers = new int[saved.length];
    Arrays.setAll(numbers, i -> i);
    long[] keys = Arrays.stream(saved).mapToLong(d -> ~Double.doubleToRawLongBits(d)).toArray();
    Integer[] expected = new Integer[saved.length];
    Arrays.setAll(expected, i -> i);
    // The library's sort of objects is stable.
    Arrays.sort(expected, (a, b) -> Double.compare(saved[b], saved[a]));
    assertEquals(
        Arrays.asList(expected), Arrays.stream(Savings.sorted(numbers, keys)).boxed().toList());
  }
}
