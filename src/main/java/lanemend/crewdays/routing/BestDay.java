package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * The day of one slot that earns most when each stop pays a price, waits and orders and all: branch
 * and bound over stops in order. What a beginning of a day may still earn is bounded by the
 * knapsack of {@link RelaxedDay} over the minutes left. When it would take too many steps, what the
 * branches not looked into may earn at most counts instead, so that the value is never too low.
 */
final class BestDay {
  private static final double EPS = 1e-7;

  private final DayProblem p;
  private final DayPrice exact;
  private final int mostSteps;
  private RelaxedDay relaxed;
  private RelaxedDay.Knapsack sack;
  private int kind;
  private int date;
  private double[] price;
  private int[] path = new int[16];
  private boolean[] on = new boolean[0];
  private int steps;
  private double most;
  private double found;
  private int[] stops;

  /**
   * @param mostSteps beginnings of a day looked at before only their bounds are counted
   */
  BestDay(DayProblem p, int mostSteps) {
    this.p = p;
    this.mostSteps = mostSteps;
    exact = new DayPrice(p);
  }

  /**
   * The best day of this kind.
   *
   * @param floor days that earn no more are not looked for
   * @return null when none earns more; else a value no day goes beyond, and the best day seen
   */
  RelaxedDay.Best search(
      RelaxedDay of, RelaxedDay.Knapsack items, int onDate, double[] prices, double floor) {
    relaxed = of;
    sack = items;
    kind = of.kind();
    date = onDate;
    price = prices;
    on = new boolean[items.size()];
    steps = 0;
    most = floor;
    found = floor;
    stops = null;
    branch(p.depotPlace(kind), 0, 0, -p.kinds()[kind].fixedCost());
    if (most <= floor) {
      return null;
    }
    return new RelaxedDay.Best(most, stops == null ? items.stops() : stops);
  }

  /** Every stop that may come next. */
  private void branch(int at, int size, double minutes, double earned) {
    DayKind k = p.kinds()[kind];
    for (int i = 0; i < sack.size(); i++) {
      if (on[i]) {
        continue;
      }
      int stop = sack.stop(i);
      int leg = p.leg(at, stop);
      double km = p.legs()[leg];
      double drive = p.legs()[leg + 1];
      double then = minutes + drive + p.service()[kind][stop];
      double gain = earned + sack.own(i) - k.costPerKm() * km - k.costPerMinute() * drive;
      double bound = gain + relaxed.restAtMost(sack, i, then);
      if (bound <= most + EPS) {
        continue;
      }
      if (++steps > mostSteps) {
        most = bound;
        continue;
      }
      if (path.length == size) {
        path = Arrays.copyOf(path, 2 * size);
      }
      path[size] = stop;
      close(size + 1);
      on[i] = true;
      branch(stop, size + 1, then, gain);
      on[i] = false;
    }
  }

  private void close(int size) {
    if (!exact.price(kind, date, path, size, -1, -1)) {
      return;
    }
    double value = -exact.cost;
    for (int i = 0; i < size; i++) {
      value += price[path[i]];
    }
    if (value > found) {
      found = value;
      stops = Arrays.copyOf(path, size);
    }
    most = Math.max(most, value);
  }
}
