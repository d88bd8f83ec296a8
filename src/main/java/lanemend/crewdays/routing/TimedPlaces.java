package lanemend.crewdays.routing;

/**
 * Finds the cheapest place of a stop in a day that may wait or end late: a place's three legs say
 * what it costs and takes at least, and only where that might do the day is run. The same answer as
 * running the day with the stop at each place. One per thread; nothing is allocated.
 */
final class TimedPlaces {
  private static final double EPS = 1e-7;

  /** Rounding that must not cut off a place that would do. */
  private static final double SLACK = 1e-6;

  /** Size of the memory of days found full, less one; a power of two. */
  private static final int FULL_MASK = (1 << 20) - 1;

  private final DayProblem p;
  private final StopKinds byStop;
  private final Blinks blinks;
  private final InsertPrice insertPrice;

  private final LeastLegs leastLegs;

  /** Days with a stop more that were found too full for it, by their code; older ones are lost. */
  private final long[] full = new long[FULL_MASK + 1];

  /** No detour at a place is shorter. */
  private double[] leastMinutes = new double[16];

  private double[] detourMinutes = new double[16];
  private double[] detourKm = new double[16];

  /** True when a place of the day looked at last was blinked past. */
  private boolean blinked;

  /** Position of the place found last. */
  int at;

  TimedPlaces(DayProblem p, Blinks blinks) {
    this.p = p;
    byStop = p.byStop();
    this.blinks = blinks;
    insertPrice = new InsertPrice(p);
    leastLegs = p.leastLegs();
  }

  /**
   * The least that the day costs more with the stop in it, its place in {@link #at}; {@code bar}
   * when no place costs less.
   */
  double cheapest(Solution s, int slot, int stop, double bar) {
    int k = s.kind[slot];
    double service = byStop.service(k, stop);
    double mostDetour = s.room(slot) - service;
    // Drives are shortest ways, so no detour is shorter than nothing. Most days lack room for the
    // work alone.
    if (mostDetour < -LeastLegs.LOST) {
      blinks.pass(s.size[slot] + 1);
      return bar;
    }
    TimedDay day = s.timed[slot];
    DayKind kind = p.kinds()[k];
    double busy = s.busy[slot] + service;
    double room = kind.limitMinutes() + EPS - s.busy[slot] - service;
    double variances = p.chance() == null ? 0 : day.separate + byStop.variance(k, stop);
    double detour = leastDetour(s, slot, stop);
    long tried = day.with(stop);
    if (detour > mostDetour || full(kind, busy + detour, variances) || isFull(tried)) {
      blinks.pass(s.size[slot] + 1);
      return bar;
    }
    double stretch = stretch(s, slot, busy + detour, variances);
    if (full(kind, busy + detours(s, slot, stop, mostDetour, stretch), variances)) {
      rememberFull(tried);
      return bar;
    }
    double best = cheapestPlace(s, slot, stop, bar, room, mostDetour, stretch);
    if (best == Double.POSITIVE_INFINITY) {
      rememberFull(tried);
    }
    return best;
  }

  /** The least that one of the places of {@link #detours} costs more, or {@code bar}. */
  private double cheapestPlace(
      Solution s, int slot, int stop, double bar, double room, double mostDetour, double stretch) {
    double best = bar;
    DayKind kind = p.kinds()[s.kind[slot]];
    double perMinute = kind.costPerMinute();
    double waiting = perMinute * s.wait[slot];
    double base = best < Double.POSITIVE_INFINITY ? base(s, slot, stop) : 0;
    boolean begun = false;
    for (int i = 0; i <= s.size[slot]; i++) {
      double minutes = detourMinutes[i];
      double cost = base + kind.costPerKm() * detourKm[i] + perMinute * minutes;
      // Waiting that is there now may go when a stop is put before it.
      double mayGo = i == 0 ? waiting : waiting - perMinute * s.firstWait[slot];
      if (cost < best + mayGo && minutes <= room) {
        double mostWait = Math.min(room - minutes, stretch * (mostDetour - minutes));
        if (perMinute > 0) {
          mostWait = Math.min(mostWait, (best + waiting - cost) / perMinute);
        }
        if (s.timed[slot].waitedBefore[i] > mostWait + SLACK) {
          continue;
        }
        if (!begun) {
          insertPrice.begin(s, slot, stop);
          begun = true;
        }
        cost = insertPrice.with(i, mostWait) - s.cost[slot];
        if (cost < best) {
          base = best < Double.POSITIVE_INFINITY ? base : base(s, slot, stop);
          best = cost;
          at = i;
        }
      }
    }
    return best;
  }

  /** What the stop costs in the day wherever it is put; not looked up while no place is known. */
  private double base(Solution s, int slot, int stop) {
    int k = s.kind[slot];
    double minutes = p.kinds()[k].costPerMinute() * byStop.service(k, stop);
    return p.stopCost()[k][stop] + p.late()[p.date(slot)][stop] + minutes;
  }

  /** Keeps in mind that no place would do, unless some were blinked past. */
  private void rememberFull(long code) {
    if (!blinked) {
      full[(int) code & FULL_MASK] = code;
    }
  }

  private boolean isFull(long code) {
    return full[(int) code & FULL_MASK] == code;
  }

  /** True when a day that drives and works so long at least cannot keep its limit. */
  private boolean full(DayKind kind, double busy, double variances) {
    return busy > kind.limitMinutes() + SLACK
        || (p.chance() != null && p.chance().beyond(kind.limitMinutes() + SLACK, busy, variances));
  }

  /** No detour over the stop from any place in the day is shorter. */
  private double leastDetour(Solution s, int slot, int stop) {
    int size = s.size[slot];
    if (leastMinutes.length <= size) {
      leastMinutes = new double[2 * size + 1];
      detourMinutes = new double[2 * size + 1];
      detourKm = new double[2 * size + 1];
    }
    int depot = p.depotPlace(s.kind[slot]);
    return leastLegs.detour(stop, s.seq[slot], size, depot, s.timed[slot].driven, leastMinutes);
  }

  /**
   * Minutes of waiting for which there is room at most where a day could be busy a minute more: a
   * day that may stray takes longer than its mean, so that it is more than one. As good as without
   * bound where that is not proven.
   */
  private double stretch(Solution s, int slot, double busy, double variances) {
    DayChance chance = p.chance();
    if (chance == null) {
      return 1;
    }
    double limit = p.kinds()[s.kind[slot]].limitMinutes() + SLACK;
    return chance.growing(busy, variances)
        ? limit / (s.busy[slot] + s.room(slot))
        : Double.MAX_VALUE;
  }

  /**
   * Detours over a stop from each place of a day; the shortest. Infinite where blinked past, and
   * where {@link #leastDetour} is too long or the day has waited too long before to take it.
   *
   * @param most minutes of detour for which there is room
   */
  private double detours(Solution s, int slot, int stop, double most, double stretch) {
    double[] legs = p.legs();
    int places = p.places();
    int[] seq = s.seq[slot];
    int size = s.size[slot];
    TimedDay day = s.timed[slot];
    int depot = p.depotPlace(s.kind[slot]);
    int from = depot;
    int stopRow = 2 * stop * places;
    double shortest = Double.POSITIVE_INFINITY;
    blinked = false;
    for (int at = 0; at <= size; at++) {
      int to = at < size ? seq[at] : depot;
      if (blinks.past()) {
        blinked = true;
        detourMinutes[at] = Double.POSITIVE_INFINITY;
      } else if (leastMinutes[at] > most
          || day.waitedBefore[at] > stretch * (most - leastMinutes[at]) + SLACK) {
        detourMinutes[at] = Double.POSITIVE_INFINITY;
      } else {
        int in = 2 * (from * places + stop);
        int out = stopRow + 2 * to;
        detourMinutes[at] = legs[in + 1] + legs[out + 1] - day.driven[at];
        detourKm[at] = legs[in] + legs[out] - day.drivenKm[at];
        shortest = Math.min(shortest, detourMinutes[at]);
      }
      from = to;
    }
    return shortest;
  }
}
