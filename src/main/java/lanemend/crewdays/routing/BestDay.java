package lanemend.crewdays.routing;

import java.util.Arrays;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/**
 * What the best day of one slot earns when each stop pays a price, waits, order and chance of
 * ending in time and all: branch and bound over stops in order. The value is never too low:
 *
 * <ul>
 *   <li>A stop is passed over only where it is barred on the date, where it alone exceeds what a
 *       day may use up, or where {@link RelaxedDay.Knapsack#with} proves of every day that holds it
 *       that it earns no more than is known or than is counted for it. Whether the stop itself pays
 *       does not matter: one that does not may shorten a drive or fill a wait.
 *   <li>A beginning of a day is run exactly, waits and all. It is left only when the plant closes
 *       on it, when it uses up too much, or when what any going on may earn at most is known or
 *       counted. That most is what the beginning has earned, and the smaller of two bounds on the
 *       rest: {@link RelaxedDay#restAtMost}, which knows no order but takes no stop twice, and
 *       {@link OrderedRest}, which knows the order but may take a stop again. Neither has waits,
 *       which are never negative. The minutes left for driving and work fall with each wait and
 *       each variance on the way, and never rise again.
 *   <li>Bounds of what was left that lie above the best day found are kept, and the greatest is the
 *       answer: whatever was left because it could earn little more, because steps ran out, or
 *       because somebody wants an end.
 * </ul>
 */
final class BestDay {
  private static final double SLACK = 1e-6;

  private final DayProblem p;
  private final DayPrice exact;
  private final StopKinds byStop;
  private final OrderedRest rest;
  private final int mostSteps;
  private final double close;
  private final BooleanSupplier end;
  private final Consumer<int[]> seen;
  private RelaxedDay relaxed;
  private RelaxedDay.Knapsack sack;
  private DayKind kind;
  private int kindNumber;
  private int date;
  private double[] price;
  private double mostLoad;

  /** Stops that may be on a day that earns enough: place in the sack, number, own earnings. */
  private int n;

  private int[] item = new int[0];
  private int[] stop = new int[0];
  private double[] own = new double[0];
  private boolean[] on = new boolean[0];
  private boolean ordered;
  private int[] path = new int[16];
  private DayClock[] clocks = {new DayClock()};
  private int steps;
  private double found;
  private double most;

  /**
   * A day begun.
   *
   * @param last which of the stops was the last, -1 for none
   * @param place where it is, the depot for none
   * @param size number of stops
   * @param busy minutes of driving and work
   * @param waited minutes
   * @param variances of the minutes at the stops, added up
   * @param load used up
   * @param earned prices less cost, the way home apart
   */
  private record Beginning(
      int last,
      int place,
      int size,
      double busy,
      double waited,
      double variances,
      double load,
      double earned) {}

  /**
   * Searches for one slot.
   *
   * @param mostSteps beginnings of a day looked into before only bounds are counted
   * @param close what could earn no more than this beyond the best found is only counted
   * @param end whether somebody wants an end
   * @param seen hears of each day better than those before
   */
  BestDay(DayProblem p, int mostSteps, double close, BooleanSupplier end, Consumer<int[]> seen) {
    this.p = p;
    this.mostSteps = mostSteps;
    this.close = close;
    this.end = end;
    this.seen = seen;
    exact = new DayPrice(p);
    byStop = p.byStop();
    rest = new OrderedRest(p);
  }

  /**
   * What a day of this kind earns at most.
   *
   * @param floor what is known to be earned, by a day of another kind for instance
   * @return a value, at least the floor, that no day goes beyond
   */
  double most(RelaxedDay of, RelaxedDay.Knapsack items, int onDate, double[] prices, double floor) {
    relaxed = of;
    sack = items;
    kindNumber = of.kind();
    kind = p.kinds()[kindNumber];
    date = onDate;
    price = prices;
    mostLoad = p.mostLoad(kindNumber, date);
    steps = 0;
    found = floor;
    most = floor;
    choose();
    if (n > 0) {
      ordered = rest.fill(kindNumber, stop, n, own, relaxed.limit(0));
      clocks[0].begin(kind.mix());
      int depot = p.depotPlace(kindNumber);
      branch(new Beginning(-1, depot, 0, 0, 0, 0, 0, -kind.fixedCost()));
    }
    return most;
  }

  private void choose() {
    int all = sack.size();
    if (item.length < all) {
      item = new int[all];
      stop = new int[all];
      own = new double[all];
      on = new boolean[all];
    }
    int barred = p.barred(date);
    n = 0;
    for (int i = 0; i < all; i++) {
      int c = sack.stop(i);
      double with = sack.with(i);
      if (p.demand()[c] > mostLoad || (p.shared().machineBits()[c] & barred) != 0) {
        continue;
      }
      if (with > found + close) {
        item[n] = i;
        stop[n] = c;
        own[n++] = sack.own(i);
      } else {
        count(with);
      }
    }
  }

  /** Counts what may be earned at most by days not looked into; no number where there are none. */
  private void count(double atMost) {
    if (atMost > most) {
      most = atMost;
    }
  }

  /** Looks into every way to go on, the most promising first. */
  private void branch(Beginning day) {
    double limit = limit(day);
    int[] order = new int[n];
    double[] bound = new double[n];
    int size = 0;
    for (int i = 0; i < n; i++) {
      if (on[i] || day.load + p.demand()[stop[i]] > mostLoad) {
        continue;
      }
      double ends = atMost(day, i, limit);
      if (!(ends > found + close)) {
        count(ends);
        continue;
      }
      int j = size++;
      while (j > 0 && bound[j - 1] < ends) {
        bound[j] = bound[j - 1];
        order[j] = order[j - 1];
        j--;
      }
      bound[j] = ends;
      order[j] = i;
    }
    for (int j = 0; j < size; j++) {
      // Those after it promise no more.
      if (bound[j] <= Math.max(most, found + close) || steps >= mostSteps) {
        count(bound[j]);
        return;
      }
      steps++;
      if (end.getAsBoolean()) {
        steps = mostSteps;
      }
      goOn(day, order[j]);
    }
  }

  /** Minutes of driving and work a day may have at most that begins like this. */
  private double limit(Beginning day) {
    double most = relaxed.limit(day.waited);
    double left = kind.limitMinutes() + SLACK - day.waited;
    return p.chance() == null ? most : Math.min(most, p.chance().beyondFrom(left, day.variances));
  }

  /** What a day earns at most that begins like this and goes on to a stop. */
  private double atMost(Beginning day, int i, double limit) {
    int leg = p.leg(day.place, stop[i]);
    double then = day.busy + p.legs()[leg + 1] + p.service()[kindNumber][stop[i]];
    double after = relaxed.restAtMost(sack, item[i], limit - then);
    if (ordered) {
      after = Math.min(after, rest.after(i, day.last, limit - then));
    }
    return day.earned + own[i] - cost(leg) + after;
  }

  private double cost(int leg) {
    return kind.costPerKm() * p.legs()[leg] + kind.costPerMinute() * p.legs()[leg + 1];
  }

  private void goOn(Beginning day, int i) {
    int c = stop[i];
    int leg = p.leg(day.place, c);
    double drive = p.legs()[leg + 1];
    double service = p.service()[kindNumber][c];
    double wait = 0;
    if (p.supply() != null) {
      DayClock clock = clock(day.size);
      if (!clock.visit(drive, service, byStop.supply(kindNumber, c))) {
        return;
      }
      wait = clock.waited();
    }
    if (path.length == day.size) {
      path = Arrays.copyOf(path, 2 * day.size);
    }
    path[day.size] = c;
    Beginning then =
        new Beginning(
            i,
            c,
            day.size + 1,
            day.busy + drive + service,
            wait,
            day.variances + (p.chance() == null ? 0 : byStop.variance(kindNumber, c)),
            day.load + p.demand()[c],
            day.earned + own[i] - cost(leg) - kind.costPerMinute() * (wait - day.waited));
    if (then.earned - cost(p.leg(c, p.depotPlace(kindNumber))) > found) {
      close(then.size);
    }
    on[i] = true;
    branch(then);
    on[i] = false;
  }

  /** A clock that stands where the day so far ends, to go on with. */
  private DayClock clock(int size) {
    if (clocks.length <= size + 1) {
      int had = clocks.length;
      clocks = Arrays.copyOf(clocks, 2 * had);
      Arrays.setAll(clocks, d -> d < had ? clocks[d] : new DayClock());
    }
    clocks[size + 1].copy(clocks[size]);
    return clocks[size + 1];
  }

  /** Ends the day here, if it may. */
  private void close(int size) {
    if (!exact.price(kindNumber, date, path, size, -1, -1)) {
      return;
    }
    double value = -exact.cost;
    for (int i = 0; i < size; i++) {
      value += price[path[i]];
    }
    if (value > found) {
      found = value;
      most = Math.max(most, value);
      seen.accept(Arrays.copyOf(path, size));
    }
  }
}
