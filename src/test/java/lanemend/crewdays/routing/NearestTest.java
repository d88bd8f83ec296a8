package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.Comparator;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class NearestTest {
  /** Whole minutes, so that many stops are equally near; some cannot be reached. */
  private static DayProblem problem(int n, Random random) {
    double[] legs = new double[2 * (n + 1) * (n + 1)];
    for (int i = 0; i < legs.length; i++) {
      legs[i] = random.nextInt(8) == 0 ? Double.POSITIVE_INFINITY : random.nextInt(12);
    }
    return new DayProblem(
        n,
        1,
        legs,
        new DayKind[] {DayKind.plain(0, 100, 100)},
        new DayProblem.Slot[0],
        new double[1][n],
        new double[1][n],
        new double[n],
        new double[1][n],
        DayProblem.Shared.nothing(n, 1),
        new double[n],
        null);
  }

  @Test
  void theNearestAreThoseAFullSortPutsFirst() {
    Random random = new Random(3);
    for (int n : new int[] {1, 2, 7, 40, 200}) {
      DayProblem p = problem(n, random);
      for (int most : new int[] {1, 5, 40, 400}) {
        int[][] near = Nearest.of(p, most);
        for (int c = 0; c < n; c++) {
          int from = c;
          int[] sorted =
              IntStream.range(0, n)
                  .boxed()
                  .sorted(
                      Comparator.comparingDouble(
                          to -> to == from ? -1 : p.legs()[p.leg(from, to) + 1]))
                  .limit(most)
                  .mapToInt(to -> to)
                  .toArray();
          assertArrayEquals(sorted, near[c]);
        }
      }
    }
  }
}
