package lanemend.crewdays.routing;

/**
 * Prices one day in full: kilometres, minutes, waiting and cost. One per thread; results stand in
 * its fields until the next call, so that the search allocates nothing.
 */
final class DayPrice {
  private static final double EPS = 1e-7;

  private final DayProblem p;
  private final StopKinds byStop;
  private final DayClock clock = new DayClock();
  double km;

  /** Driving and work. */
  double busy;

  double wait;

  /** The part of {@link #wait} at the first stop. */
  double firstWait;

  double cost;

  /** Variances of the minutes at the stops, added up; 0 where minutes are certain. */
  double separate;

  /** Waiting before each stop is reached; kept where days are timed. */
  double[] waitedBefore = new double[8];

  DayPrice(DayProblem p) {
    this.p = p;
    byStop = p.byStop();
  }

  /**
   * Prices the stops {@code seq[0..size)} as one day, with stop {@code extra} put in before
   * position {@code at} when {@code at >= 0}.
   *
   * @return false when the day breaks its limit or may do so too likely, cannot do a stop, or finds
   *     the plant closed
   */
  boolean price(int kind, int date, int[] seq, int size, int at, int extra) {
    DayKind k = p.kinds()[kind];
    double[] stopCost = p.stopCost()[kind];
    double[] late = p.late()[date];
    double[] legs = p.legs();
    boolean timed = p.supply() != null;
    DayChance chance = p.chance();
    double squares = 0;
    double variances = 0;
    if (timed) {
      clock.begin(k.mix());
    }
    int n = at >= 0 ? size + 1 : size;
    begin(n);
    int depot = p.depotPlace(kind);
    int from = depot;
    for (int i = 0; i < n; i++) {
      int stop = i == at ? extra : seq[at >= 0 && i > at ? i - 1 : i];
      int leg = p.leg(from, stop);
      double service = byStop.service(kind, stop);
      km += legs[leg];
      busy += legs[leg + 1] + service;
      cost += stopCost[stop] + late[stop];
      if (service == Double.POSITIVE_INFINITY) {
        return false;
      }
      if (chance != null) {
        squares += legs[leg + 1] * legs[leg + 1];
        variances += byStop.variance(kind, stop);
      }
      if (timed) {
        waitedBefore[i] = clock.waited();
      }
      if (timed && !clock.visit(legs[leg + 1], service, byStop.supply(kind, stop))) {
        return false;
      }
      if (timed && i == 0) {
        firstWait = clock.waitMinutes();
      }
      from = stop;
    }
    if (n > 0) {
      int leg = p.leg(from, depot);
      km += legs[leg];
      busy += legs[leg + 1];
      squares += chance == null ? 0 : legs[leg + 1] * legs[leg + 1];
      cost += k.fixedCost();
      wait = timed ? clock.waited() : 0;
    }
    cost += k.costPerKm() * km + k.costPerMinute() * (busy + wait);
    separate = variances;
    double room = k.limitMinutes() + EPS - wait;
    return busy <= room && likely(busy, separate, squares, room);
  }

  /**
   * False when a day of these stops cannot keep its limit or cannot cost less than this even if
   * nobody waits: the same sums as {@link #price} makes, without the trucks.
   */
  boolean mayDo(int kind, int date, int[] seq, int size, double below) {
    DayKind k = p.kinds()[kind];
    double[] stopCost = p.stopCost()[kind];
    double[] late = p.late()[date];
    double[] legs = p.legs();
    double room = k.limitMinutes() + EPS;
    double allKm = 0;
    double minutes = 0;
    double price = 0;
    double squares = 0;
    double variances = 0;
    int depot = p.depotPlace(kind);
    int from = depot;
    for (int i = 0; i <= size; i++) {
      int to = i < size ? seq[i] : depot;
      int leg = p.leg(from, to);
      allKm += legs[leg];
      squares += legs[leg + 1] * legs[leg + 1];
      if (i < size) {
        minutes += legs[leg + 1] + byStop.service(kind, to);
        price += stopCost[to] + late[to];
        variances += byStop.variance(kind, to);
      } else {
        minutes += legs[leg + 1];
      }
      if (!(minutes <= room)) {
        return false;
      }
      from = to;
    }
    price += k.fixedCost();
    price += k.costPerKm() * allKm + k.costPerMinute() * minutes;
    return price < below && likely(minutes, variances, squares, room);
  }

  private boolean likely(double mean, double variances, double squares, double room) {
    DayChance chance = p.chance();
    if (chance == null) {
      return true;
    }
    double ofDrives = chance.driveSpread() * chance.driveSpread() * squares;
    return chance.within(mean, variances + ofDrives, room);
  }

  private void begin(int stops) {
    km = 0;
    busy = 0;
    wait = 0;
    firstWait = 0;
    cost = 0;
    if (waitedBefore.length < stops) {
      waitedBefore = new double[2 * stops];
    }
  }
}
