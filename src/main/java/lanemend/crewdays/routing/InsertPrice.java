package lanemend.crewdays.routing;

/**
 * Prices a day with one stop more at one position after another. What lies before the position is
 * run once and not for each of them; a try ends as soon as its waits alone cost too much or take
 * too long. Sums are added in the order in which {@link DayPrice} adds them, so that both give the
 * same number to the last digit. One per thread; nothing is allocated.
 */
final class InsertPrice {
  private static final double EPS = 1e-7;

  /** Rounding that must not cut off a place that would do. */
  private static final double SLACK = 1e-6;

  private final DayProblem p;
  private final StopKinds byStop;
  private final DayClock before = new DayClock();
  private final DayClock clock = new DayClock();
  private DayKind kind;
  private int depot;
  private int[] seq;
  private int size;
  private final boolean timed;
  private final boolean uncertain;
  private int k;
  private double[] stopCost;
  private double[] late;

  /** Position up to which {@link #before} has run, the stop last served and the sums till then. */
  private int done;

  private int from;
  private boolean open;
  private double km;
  private double busy;
  private double cost;
  private double squares;
  private double variances;

  InsertPrice(DayProblem p) {
    this.p = p;
    byStop = p.byStop();
    timed = p.supply() != null;
    uncertain = p.chance() != null;
  }

  /** Begins with a day; positions must then be asked for in growing order. */
  void begin(int asKind, int date, int[] stops, int count) {
    k = asKind;
    kind = p.kinds()[k];
    depot = p.depotPlace(k);
    seq = stops;
    size = count;
    stopCost = p.stopCost()[k];
    late = p.late()[date];
    done = 0;
    from = depot;
    open = true;
    km = 0;
    busy = 0;
    cost = 0;
    squares = 0;
    variances = 0;
    if (timed) {
      before.begin(kind.mix());
    }
  }

  /** Runs the day up to a position; the wait until there. */
  double waitBefore(int at) {
    while (done < at && open) {
      int stop = seq[done];
      int leg = p.leg(from, stop);
      double minutes = p.legs()[leg + 1];
      km += p.legs()[leg];
      double service = byStop.service(k, stop);
      busy += minutes + service;
      cost += stopCost[stop] + late[stop];
      if (uncertain) {
        squares += minutes * minutes;
        variances += byStop.variance(k, stop);
      }
      open = !timed || before.visit(minutes, service, byStop.supply(k, stop));
      from = stop;
      done++;
    }
    return timed ? before.waited() : 0;
  }

  /**
   * Cost of the whole day with a stop before a position.
   *
   * @param mostWait more waiting than this makes the place useless
   * @return infinite when the day breaks a limit, or waits more than that
   */
  double with(int at, int extra, double mostWait) {
    if (waitBefore(at) > mostWait + SLACK || !open) {
      return Double.POSITIVE_INFINITY;
    }
    double[] legs = p.legs();
    double allKm = km;
    double allBusy = busy;
    double allCost = cost;
    double allSquares = squares;
    double allVariances = variances;
    int last = from;
    if (timed) {
      clock.copy(before);
    }
    for (int i = at - 1; i < size; i++) {
      int stop = i < at ? extra : seq[i];
      int leg = p.leg(last, stop);
      double minutes = legs[leg + 1];
      allKm += legs[leg];
      double service = byStop.service(k, stop);
      allBusy += minutes + service;
      allCost += stopCost[stop] + late[stop];
      if (uncertain) {
        allSquares += minutes * minutes;
        allVariances += byStop.variance(k, stop);
      }
      if (timed
          && (!clock.visit(minutes, service, byStop.supply(k, stop))
              || clock.waited() > mostWait + SLACK)) {
        return Double.POSITIVE_INFINITY;
      }
      last = stop;
    }
    int leg = p.leg(last, depot);
    double minutes = legs[leg + 1];
    allKm += legs[leg];
    allBusy += minutes;
    allSquares += uncertain ? minutes * minutes : 0;
    allCost += kind.fixedCost();
    double wait = timed ? clock.waited() : 0;
    allCost += kind.costPerKm() * allKm + kind.costPerMinute() * (allBusy + wait);
    double room = kind.limitMinutes() + EPS - wait;
    return allBusy <= room && likely(allBusy, allVariances, allSquares, room)
        ? allCost
        : Double.POSITIVE_INFINITY;
  }

  private boolean likely(double mean, double variances, double squares, double room) {
    DayChance chance = p.chance();
    if (chance == null) {
      return true;
    }
    double ofDrives = chance.driveSpread() * chance.driveSpread() * squares;
    return chance.within(mean, variances + ofDrives, room);
  }
}
