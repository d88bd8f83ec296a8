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
  private final boolean timed;

  /** The day up to {@link #done}. */
  private final Run before = new Run();

  /** The same with the stop and what comes after it. */
  private final Run whole = new Run();

  private DayKind kind;
  private double[] stopCost;
  private double[] late;
  private int depot;
  private int[] seq;
  private int size;
  private TimedDay day;

  /**
   * The stop to put in, and what the kind of day makes of it as {@link TimedDay} has the others.
   */
  private int extra;

  private double work;
  private double variance;
  private ZoneSupply supply;

  private int done;
  private boolean open;

  /** A day so far: its clock and its minutes. */
  private static final class Run {
    private final DayClock clock = new DayClock();
    private double busy;
    private double squares;
    private double variances;

    void begin(MixDay mix) {
      clock.begin(mix);
      busy = 0;
      squares = 0;
      variances = 0;
    }

    void copy(Run other) {
      clock.copy(other.clock);
      busy = other.busy;
      squares = other.squares;
      variances = other.variances;
    }

    void add(double minutes, double work, double variance) {
      busy += minutes + work;
      squares += minutes * minutes;
      variances += variance;
    }
  }

  InsertPrice(DayProblem p) {
    this.p = p;
    byStop = p.byStop();
    timed = p.supply() != null;
  }

  /** Begins with a slot's day and a stop; positions must then be asked for in growing order. */
  void begin(Solution s, int slot, int stop) {
    int k = s.kind[slot];
    kind = p.kinds()[k];
    stopCost = p.stopCost()[k];
    depot = p.depotPlace(k);
    seq = s.seq[slot];
    size = s.size[slot];
    day = s.timed[slot];
    extra = stop;
    work = byStop.service(k, stop);
    late = p.late()[p.date(slot)];
    variance = byStop.variance(k, stop);
    supply = byStop.supply(k, stop);
    done = 0;
    open = true;
    before.begin(kind.mix());
  }

  /** Runs the day up to a position. */
  private void runTo(int at) {
    while (done < at && open) {
      open = visit(before, done, day.driven[done]);
      done++;
    }
  }

  /** Drives to one of the day's own stops and works there; false when the plant closes too soon. */
  private boolean visit(Run run, int i, double minutes) {
    run.add(minutes, day.work[i], day.variance[i]);
    return !timed || run.clock.visit(minutes, day.work[i], day.supply[i]);
  }

  /**
   * Cost of the whole day with the stop before a position.
   *
   * @param mostWait more waiting than this makes the place useless
   * @return infinite when the day breaks a limit, or waits more than that
   */
  double with(int at, double mostWait) {
    runTo(at);
    if (!open || before.clock.waited() > mostWait + SLACK) {
      return Double.POSITIVE_INFINITY;
    }
    double[] legs = p.legs();
    int in = p.leg(at == 0 ? depot : seq[at - 1], extra);
    int out = p.leg(extra, at == size ? depot : seq[at]);
    whole.copy(before);
    whole.add(legs[in + 1], work, variance);
    boolean inTime = !timed || whole.clock.visit(legs[in + 1], work, supply);
    double minutes = legs[out + 1];
    for (int i = at; i < size && inTime && whole.clock.waited() <= mostWait + SLACK; i++) {
      inTime = visit(whole, i, minutes);
      minutes = day.driven[i + 1];
    }
    double wait = whole.clock.waited();
    if (!inTime || wait > mostWait + SLACK) {
      return Double.POSITIVE_INFINITY;
    }
    whole.add(minutes, 0, 0);
    double room = kind.limitMinutes() + EPS - wait;
    return whole.busy <= room && likely(whole.busy, whole.variances, whole.squares, room)
        ? cost(at, legs[in], legs[out], whole.busy + wait)
        : Double.POSITIVE_INFINITY;
  }

  /** What the day costs; asked of the few that are in time. */
  private double cost(int at, double kmIn, double kmOut, double minutes) {
    double km = 0;
    double cost = 0;
    for (int i = 0; i < at; i++) {
      km += day.drivenKm[i];
      cost += day.price[i];
    }
    km += kmIn;
    cost += stopCost[extra] + late[extra];
    km += kmOut;
    for (int i = at; i < size; i++) {
      cost += day.price[i];
      km += day.drivenKm[i + 1];
    }
    cost += kind.fixedCost();
    return cost + (kind.costPerKm() * km + kind.costPerMinute() * minutes);
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
