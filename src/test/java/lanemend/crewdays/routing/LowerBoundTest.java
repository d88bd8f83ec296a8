package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** The bound against the cheapest of all plans, on cases small enough for that. */
class LowerBoundTest {
  private static final int[][] NONE = {};

  private static double[] shares(DayProblem p, double cost) {
    double[] prices = new double[p.stops()];
    java.util.Arrays.fill(prices, cost / Math.max(1, p.stops()));
    return prices;
  }

  @Test
  void noPlanCostsLessThanTheBoundAndTheBoundIsNotFarBelow() {
    double optimum = 0;
    double bound = 0;
    for (int seed = 0; seed < 40; seed++) {
      DayProblem p = DaySearchTest.county(new Random(seed), 3 + seed % 5);
      double least = new DaySearchTest.EveryWay(p).least();
      double proven =
          LowerBound.of(p, least, shares(p, least), NONE, 400, 60, SearchProgress.NONE).cost();
      assertTrue(proven <= least + 1e-6, "seed " + seed + ": " + proven + " over " + least);
      optimum += least;
      bound += proven;
    }
    // How close is a finding, not a rule: it is written in docs/method.md.
    assertTrue(bound > 0.5 * optimum, bound + " of " + optimum);
  }

  @Test
  void anyPricesAtAllGiveAValidBound() {
    for (int seed = 0; seed < 40; seed++) {
      Random random = new Random(seed);
      DayProblem p = DaySearchTest.county(random, 3 + seed % 4);
      double least = new DaySearchTest.EveryWay(p).least();
      double[] prices = random.doubles(p.stops(), -1_000, 20_000).toArray();
      double proven = LowerBound.of(p, least, prices, NONE, 1, 60, SearchProgress.NONE).cost();
      assertTrue(proven <= least + 1e-6, "seed " + seed);
    }
  }

  @Test
  void daysInOrderMustEndAsSurelyAsAskedToo() {
    for (int seed = 0; seed < 40; seed++) {
      DayProblem p = TimedPlacesTest.uncertain(new Random(seed), 3 + seed % 4, 1.04);
      double least = new DaySearchTest.EveryWay(p).least();
      double proven =
          LowerBound.of(p, least, shares(p, least), NONE, 60, 60, SearchProgress.NONE).cost();
      assertTrue(proven <= least + 1e-6, "seed " + seed + ": " + proven + " over " + least);
    }
  }

  @Test
  void byRoundsTheBoundIsTheSameEveryTime() {
    DayProblem p = DaySearchTest.county(new Random(5), 25);
    double none = Arrays.stream(p.skipCost()).sum();
    LowerBound.Bound one = LowerBound.of(p, none, p.skipCost(), NONE, 60, 1e9, SearchProgress.NONE);
    assertEquals(one, LowerBound.of(p, none, p.skipCost(), NONE, 60, 1e9, SearchProgress.NONE));
    assertTrue(one.rounds() > 30, one.rounds() + " rounds: none in order");
  }

  @Test
  void whoListensIsToldByTheThreadThatBeganAndMayEndItAtAnyTime() {
    DayProblem p = DaySearchTest.county(new Random(5), 25);
    double none = Arrays.stream(p.skipCost()).sum();
    for (int end = 1; end <= 29; end += 7) {
      AtomicInteger told = new AtomicInteger();
      int last = end;
      Thread here = Thread.currentThread();
      LowerBound.Bound bound =
          LowerBound.of(
              p,
              none,
              p.skipCost(),
              NONE,
              60,
              1e9,
              (share, best) -> {
                assertSame(here, Thread.currentThread());
                assertTrue(share >= 0 && share <= 1, "share " + share);
                return told.incrementAndGet() < last;
              });
      assertEquals(last, told.get());
      assertTrue(bound.cost() > 0 && bound.rounds() <= last, bound + " after " + last);
    }
  }

  @Test
  void oneStopIsPricedExactly() {
    // 12 km and 12 min each way, 60 min of work, 2 a km, 4 a minute: 48 + 4 x 84 = 384.
    double[] legs = {0, 0, 12, 12, 12, 12, 0, 0};
    DayProblem p =
        new DayProblem(
            1,
            1,
            legs,
            new DayKind[] {new DayKind(0, 600, 100, 2, 4, 0, -1, null)},
            new DayProblem.Slot[] {new DayProblem.Slot(0, 0, new int[] {0})},
            new double[][] {{60}},
            new double[1][1],
            new double[1],
            new double[1][1],
            DayProblem.Shared.nothing(1, 1),
            new double[] {5_000},
            null);
    DayPrice price = new DayPrice(p);
    assertTrue(price.price(0, 0, new int[] {0}, 1, -1, -1));
    assertEquals(384, price.cost, 1e-9);
    LowerBound.Bound bound =
        LowerBound.of(p, 384, new double[] {1_000}, NONE, 100, 60, SearchProgress.NONE);
    assertEquals(384, bound.cost(), 1e-3);
    assertEquals(0, bound.gap(384), 1e-5);
  }

  @Test
  void withoutStopsNothingIsTheCost() {
    DayProblem p = DaySearchTest.county(new Random(1), 0);
    assertEquals(
        0, LowerBound.of(p, 0, new double[0], NONE, 5, 1, SearchProgress.NONE).cost(), 1e-9);
  }
}
