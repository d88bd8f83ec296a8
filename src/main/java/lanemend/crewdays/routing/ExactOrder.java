package lanemend.crewdays.routing;

/**
 * The best order of a small day, exactly: every order is tried, except those whose driving so far
 * already costs as much as the best whole day. Waiting is never negative, so nothing better is cut
 * off.
 */
final class ExactOrder {
  /** Days of more stops are left as the search ordered them. */
  static final int MOST_STOPS = 8;

  private final DayProblem p;
  private final DayPrice price;
  private final int[] order = new int[MOST_STOPS];
  private final int[] best = new int[MOST_STOPS];
  private double bestCost;
  private int kind;
  private int date;

  ExactOrder(DayProblem p) {
    this.p = p;
    price = new DayPrice(p);
  }

  /** Puts every small day in its best order. */
  void apply(Solution s) {
    for (int i = 0; i < s.activeCount; i++) {
      int slot = s.active[i];
      if (s.size[slot] > 1 && s.size[slot] <= MOST_STOPS) {
        settle(s, slot);
      }
    }
  }

  private void settle(Solution s, int slot) {
    kind = s.kind[slot];
    date = p.date(slot);
    int n = s.size[slot];
    DayKind k = p.kinds()[kind];
    // What no order changes: everything but driving and waiting.
    double fixed = k.fixedCost();
    for (int i = 0; i < n; i++) {
      int stop = s.seq[slot][i];
      order[i] = stop;
      fixed +=
          p.stopCost()[kind][stop]
              + p.late()[date][stop]
              + k.costPerMinute() * p.service()[kind][stop];
    }
    bestCost = s.cost[slot] - 1e-9;
    double before = bestCost;
    extend(0, n, p.depotPlace(kind), fixed);
    if (bestCost < before) {
      System.arraycopy(best, 0, s.seq[slot], 0, n);
      s.refresh(slot);
    }
  }

  private void extend(int placed, int n, int from, double soFar) {
    if (placed == n) {
      if (price.price(kind, date, order, n, -1, -1) && price.cost < bestCost) {
        bestCost = price.cost;
        System.arraycopy(order, 0, best, 0, n);
      }
      return;
    }
    DayKind k = p.kinds()[kind];
    for (int i = placed; i < n; i++) {
      int stop = order[i];
      int leg = p.leg(from, stop);
      double cost = soFar + k.costPerKm() * p.legs()[leg] + k.costPerMinute() * p.legs()[leg + 1];
      if (cost < bestCost) {
        order[i] = order[placed];
        order[placed] = stop;
        extend(placed + 1, n, stop, cost);
        order[placed] = order[i];
        order[i] = stop;
      }
    }
  }
}
