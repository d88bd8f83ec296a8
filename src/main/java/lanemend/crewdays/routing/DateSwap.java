package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.Comparator;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/** Exchanges the work of two dates of one crew, so that urgent days can move forward whole. */
final class DateSwap {
  private final DayProblem p;
  private final SplittableRandom random;
  private final DayPrice price;
  private final int[][] groups;
  private int[] first = new int[16];
  private int[] second = new int[16];

  DateSwap(DayProblem p, SplittableRandom random) {
    this.p = p;
    this.random = random;
    price = new DayPrice(p);
    groups = groups(p);
  }

  /** Slots of each group by date. */
  static int[][] groups(DayProblem p) {
    int count = 0;
    for (DayProblem.Slot slot : p.slots()) {
      count = Math.max(count, slot.group() + 1);
    }
    return IntStream.range(0, count)
        .mapToObj(
            g ->
                IntStream.range(0, p.slots().length)
                    .filter(s -> p.slots()[s].group() == g)
                    .boxed()
                    .sorted(Comparator.comparingInt(s -> p.date(s)))
                    .mapToInt(s -> s)
                    .toArray())
        .toArray(int[][]::new);
  }

  /** Swaps two random dates; false, with the solution spoiled, when the swap is not allowed. */
  boolean apply(Solution s) {
    if (s.activeCount == 0) {
      return false;
    }
    int a = s.active[random.nextInt(s.activeCount)];
    int[] group = groups[p.slots()[a].group()];
    int b = group[random.nextInt(group.length)];
    if (a == b) {
      return false;
    }
    int na = s.size[a];
    int nb = s.size[b];
    first = copy(s.seq[a], na, first);
    second = copy(s.seq[b], nb, second);
    int ka = s.kind[a];
    int kb = s.kind[b];
    empty(s, a);
    empty(s, b);
    return refill(s, b, ka, first, na) && refill(s, a, kb, second, nb);
  }

  private static int[] copy(int[] from, int n, int[] into) {
    int[] to = into.length < n ? new int[2 * n] : into;
    System.arraycopy(from, 0, to, 0, n);
    return to;
  }

  private static void empty(Solution s, int slot) {
    while (s.size[slot] > 0) {
      s.removeAt(slot, s.size[slot] - 1);
    }
    s.refresh(slot);
  }

  private boolean refill(Solution s, int slot, int kind, int[] stops, int n) {
    if (n == 0) {
      return true;
    }
    if (Arrays.stream(p.slots()[slot].kinds()).noneMatch(k -> k == kind)
        || !s.admitsAll(slot, kind, stops, n)
        || !price.price(kind, p.date(slot), stops, n, -1, -1)) {
      return false;
    }
    s.setKind(slot, kind);
    for (int i = 0; i < n; i++) {
      s.insert(slot, i, stops[i]);
    }
    return true;
  }
}
