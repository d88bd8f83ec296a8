package lanemend.crewdays.routing;

/**
 * Prices one day in full: kilometres, minutes, waiting and cost. One per thread; results stand in
 * its fields until the next call, so that the search allocates nothing.
 */
final class DayPrice {
  private static final double EPS = 1e-7;

  private final DayProblem p;
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

  /** Squares of the drives' minutes, added up; 0 where minutes are certain. */
  double drives;

  /** Waiting before each stop is reached; kept where days are timed. */
  double[] waitedBefore = new double[8];

  DayPrice(DayProblem p) {
    this.p = p;
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
    double[] service = p.service()[kind];
    double[] stopCost = p.stopCost()[kind];
    double[] late = p.late()[date];
    ZoneSupply[] supply = p.supply() == null ? null : p.supply()[kind];
    double[] legs = p.legs();
    boolean timed = supply != null;
    DayChance chance = p.chance();
    double[] spread = chance == null ? null : chance.variance()[kind];
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
      km += legs[leg];
      busy += legs[leg + 1] + service[stop];
      cost += stopCost[stop] + late[stop];
      if (spread != null) {
        squares += legs[leg + 1] * legs[leg + 1];
        variances += spread[stop];
      }
      if (timed) {
        waitedBefore[i] = clock.waited();
      }
      if (timed && !clock.visit(legs[leg + 1], service[stop], supply[stop])) {
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
      squares += spread == null ? 0 : legs[leg + 1] * legs[leg + 1];
      cost += k.fixedCost();
      wait = timed ? clock.waited() : 0;
    }
    cost += k.costPerKm() * km + k.costPerMinute() * (busy + wait);
    separate = variances;
    drives = squares;
    double room = k.limitMinutes() + EPS - wait;
    if (busy > room || chance == null) {
      return busy <= room;
    }
    double ofDrives = chance.driveSpread() * chance.driveSpread() * drives;
    return chance.minutes(busy, separate + ofDrives) <= room;
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
