package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Days of one solution put into another. */
class CrossingTest {
  private static final int STOPS = 60;

  /** Two crews, three dates each, room for about three quarters of the stops. */
  private static DayProblem problem(Random random) {
    int places = STOPS + 2;
    double[] x = random.doubles(places, 0, 60).toArray();
    double[] y = random.doubles(places, 0, 60).toArray();
    double[] legs = new double[2 * places * places];
    for (int a = 0; a < places; a++) {
      for (int b = 0; b < places; b++) {
        double d = Math.hypot(x[a] - x[b], y[a] - y[b]);
        legs[2 * (a * places + b)] = d;
        legs[2 * (a * places + b) + 1] = d;
      }
    }
    DayKind[] kinds = {
      new DayKind(0, 600, 40, 2, 4, 100, -1, null), new DayKind(1, 500, 30, 2, 3, 50, -1, null)
    };
    DayProblem.Slot[] slots =
        IntStream.range(0, 6)
            .mapToObj(i -> new DayProblem.Slot(i % 3, i / 3, new int[] {i / 3}))
            .toArray(DayProblem.Slot[]::new);
    double[][] service = new double[2][STOPS];
    Arrays.fill(service[0], 20);
    Arrays.fill(service[1], 25);
    double[][] late = new double[3][STOPS];
    for (int c = 0; c < STOPS; c++) {
      late[1][c] = random.nextInt(40);
      late[2][c] = 2 * late[1][c];
    }
    double[] skip = new double[STOPS];
    Arrays.fill(skip, 2_000);
    return new DayProblem(
        STOPS,
        2,
        legs,
        kinds,
        slots,
        service,
        new double[2][STOPS],
        random.ints(STOPS, 1, 8).asDoubleStream().toArray(),
        late,
        DayProblem.Shared.nothing(STOPS, 3),
        skip,
        null);
  }

  private static Solution filled(DayProblem p, int[][] near, long seed) {
    Solution s = new Solution(p);
    Recreate recreate = new Recreate(p, near, new SplittableRandom(seed));
    recreate.apply(s, 0);
    Ruin ruin = new Ruin(p, near, new SplittableRandom(seed));
    for (int i = 0; i < 50; i++) {
      ruin.apply(s);
      recreate.apply(s, 0);
    }
    return s;
  }

  private static void everythingAddsUp(DayProblem p, Solution s) {
    int[] times = new int[p.stops()];
    double cost = 0;
    DayPrice price = new DayPrice(p);
    for (int slot = 0; slot < p.slots().length; slot++) {
      double load = 0;
      for (int i = 0; i < s.size[slot]; i++) {
        times[s.seq[slot][i]]++;
        load += p.demand()[s.seq[slot][i]];
      }
      assertEquals(load, s.load[slot], 1e-9);
      assertTrue(load <= p.kinds()[s.kind[slot]].capacity());
      if (s.size[slot] > 0) {
        int date = p.slots()[slot].date();
        assertTrue(price.price(s.kind[slot], date, s.seq[slot], s.size[slot], -1, -1));
        cost += price.cost;
      }
    }
    for (int i = 0; i < s.absentCount; i++) {
      times[s.absent[i]]++;
      cost += p.skipCost()[s.absent[i]];
    }
    assertTrue(Arrays.stream(times).allMatch(n -> n == 1), Arrays.toString(times));
    assertEquals(cost, s.total(), 1e-6);
  }

  @Test
  void aCrossedSolutionHasEveryStopOnceKeepsItsLimitsAndKnowsItsCost() {
    for (int seed = 0; seed < 30; seed++) {
      DayProblem p = problem(new Random(seed));
      int[][] near = Nearest.of(p, STOPS);
      Solution child = filled(p, near, 2L * seed);
      Solution other = filled(p, near, 2L * seed + 1);
      new Crossing(p, near, new SplittableRandom(seed)).apply(child, other);
      everythingAddsUp(p, child);
    }
  }

  @Test
  void aSolutionCrossedWithItselfStaysWhatItIs() {
    DayProblem p = problem(new Random(3));
    int[][] near = Nearest.of(p, STOPS);
    Solution child = filled(p, near, 1);
    Solution same = filled(p, near, 1);
    double before = child.total();
    new Crossing(p, near, new SplittableRandom(9)).apply(child, same);
    assertEquals(0, Crossing.apart(child, same));
    assertEquals(before, child.total(), 1e-6);
  }

  @Test
  void solutionsAreAsFarApartAsStopsHaveOtherNeighbours() {
    DayProblem p = problem(new Random(5));
    Solution a = new Solution(p);
    Solution b = new Solution(p);
    for (int i = 0; i < 4; i++) {
      a.insert(0, i, i);
      b.insert(0, 0, i);
    }
    assertEquals(0, Crossing.apart(a, b), "a day driven the other way round is the same day");
    b.removeAt(0, 3);
    b.refresh(0);
    // 3-2-1 is left of 3-2-1-0: only stop 1 now drives home instead of to 0.
    assertEquals(1, Crossing.apart(a, b));
  }
}
