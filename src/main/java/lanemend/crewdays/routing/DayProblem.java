package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * Which stops may go on which day, and what that costs: all the search knows.
 *
 * <p>Places are numbered stops first, then depots. {@code legs} holds, for every pair of places
 * {@code (a, b)}, kilometres at {@code 2 * (a * places + b)} and minutes right after it.
 */
public final class DayProblem {
  /** Rounding that must not cut off a place that would do. */
  private static final double SLACK = 1e-6;

  private final int stops;
  private final int depots;
  private final double[] legs;
  private final DayKind[] kinds;
  private final Slot[] slots;
  private final int[] dateOf;
  private final double[][] service;
  private final double[][] stopCost;
  private final double[] demand;
  private final double[][] late;
  private final Shared shared;
  private final double[] skipCost;
  private final ZoneSupply[][] supply;
  private final DayChance chance;
  private StopKinds stopKinds;
  private LeastLegs leastLegs;

  /**
   * A problem; the arrays are taken as they are.
   *
   * @param stops number of stops
   * @param depots number of depots
   * @param legs km and minutes between places, {@link Double#POSITIVE_INFINITY} where there is no
   *     way
   * @param kinds ways a day may be run
   * @param slots days that may be used, each at most once
   * @param service minutes at the stop, by kind and stop; infinite where this kind cannot do the
   *     stop
   * @param stopCost cost of the stop besides its minutes, by kind and stop
   * @param demand taken from the day's capacity and its source, by stop
   * @param late cost of doing the stop on a date, by date and stop
   * @param shared what days of one date share
   * @param skipCost cost of leaving a stop out, by stop
   * @param supply how a stop takes its mix, by kind and stop, null entries for stops without; null
   *     when no stop takes any
   * @param chance how sure each day must be to end in time; null when minutes are taken as they are
   */
  public DayProblem(
      int stops,
      int depots,
      double[] legs,
      DayKind[] kinds,
      Slot[] slots,
      double[][] service,
      double[][] stopCost,
      double[] demand,
      double[][] late,
      Shared shared,
      double[] skipCost,
      ZoneSupply[][] supply,
      DayChance chance) {
    this.stops = stops;
    this.depots = depots;
    this.legs = legs;
    this.kinds = kinds;
    this.slots = slots;
    dateOf = Arrays.stream(slots).mapToInt(Slot::date).toArray();
    this.service = service;
    this.stopCost = stopCost;
    this.demand = demand;
    this.late = late;
    this.shared = shared;
    this.skipCost = skipCost;
    this.supply = supply;
    this.chance = chance;
  }

  /** A problem whose minutes are certain. */
  public DayProblem(
      int stops,
      int depots,
      double[] legs,
      DayKind[] kinds,
      Slot[] slots,
      double[][] service,
      double[][] stopCost,
      double[] demand,
      double[][] late,
      Shared shared,
      double[] skipCost,
      ZoneSupply[][] supply) {
    this(
        stops, depots, legs, kinds, slots, service, stopCost, demand, late, shared, skipCost,
        supply, null);
  }

  /**
   * One day of one crew.
   *
   * @param date index of the calendar date
   * @param group slots of a group differ in date only; lower dates come first
   * @param kinds indices of the kinds it may be run as
   */
  public record Slot(int date, int group, int[] kinds) {}

  /**
   * Limits over all days of a date.
   *
   * @param machineBits machines a stop needs, a bit for each kind of machine, by stop
   * @param machineLimit days of one date that may hold each machine, by date and machine
   * @param sourceLimit most demand of one date from each source, by date and source
   * @param stock most demand of all dates together from each source, infinite for most; may be
   *     empty
   * @param units of the pool (trucks) a day of each kind takes; empty when there is no pool
   * @param pool units in the pool, by date
   */
  public record Shared(
      int[] machineBits,
      int[][] machineLimit,
      double[][] sourceLimit,
      double[] stock,
      int[] units,
      int[] pool) {
    /** Machines and sources only. */
    public Shared(int[] machineBits, int[][] machineLimit, double[][] sourceLimit) {
      this(machineBits, machineLimit, sourceLimit, new double[0], new int[0], new int[0]);
    }

    /** Nothing is shared. */
    public static Shared nothing(int stops, int dates) {
      return new Shared(new int[stops], new int[dates][0], new double[dates][0]);
    }
  }

  public int stops() {
    return stops;
  }

  public int depots() {
    return depots;
  }

  public double[] legs() {
    return legs;
  }

  public DayKind[] kinds() {
    return kinds;
  }

  /** Date of a slot, without looking for the slot in the memory. */
  int date(int slot) {
    return dateOf[slot];
  }

  public Slot[] slots() {
    return slots;
  }

  public double[][] service() {
    return service;
  }

  public double[][] stopCost() {
    return stopCost;
  }

  public double[] demand() {
    return demand;
  }

  public double[][] late() {
    return late;
  }

  public Shared shared() {
    return shared;
  }

  public double[] skipCost() {
    return skipCost;
  }

  public ZoneSupply[][] supply() {
    return supply;
  }

  public DayChance chance() {
    return chance;
  }

  /** The same, laid out by stop; made when first asked for. */
  synchronized StopKinds byStop() {
    if (stopKinds == null) {
      stopKinds = new StopKinds(this);
    }
    return stopKinds;
  }

  /** Bounds on the legs, made when first asked for. */
  synchronized LeastLegs leastLegs() {
    if (leastLegs == null) {
      leastLegs = new LeastLegs(this);
    }
    return leastLegs;
  }

  /**
   * Minutes of driving and work from which on a day of this kind is proven to break its limit, the
   * variances at its stops adding up to this at least.
   */
  double mostBusy(int kind, double separate) {
    double limit = kinds[kind].limitMinutes() + SLACK;
    return chance == null ? limit : chance.beyondFrom(limit, separate);
  }

  /** The most a day of this kind may use up on a date, whatever other days draw. */
  double mostLoad(int kind, int date) {
    int source = kinds[kind].source();
    double[] gives = shared.sourceLimit()[date];
    double most = source < 0 || gives.length == 0 ? Double.POSITIVE_INFINITY : gives[source];
    return Math.min(kinds[kind].capacity(), most) + SLACK;
  }

  /** Machines no day of this date may hold, a bit for each. */
  int barred(int date) {
    int bits = 0;
    int[] most = shared.machineLimit()[date];
    for (int m = 0; m < most.length; m++) {
      bits |= most[m] < 1 ? 1 << m : 0;
    }
    return bits;
  }

  public int places() {
    return stops + depots;
  }

  public int dates() {
    return late.length;
  }

  /** Index into {@link #legs()} of the way from place {@code a} to place {@code b}. */
  public int leg(int a, int b) {
    return 2 * (a * (stops + depots) + b);
  }

  /** Place number of a kind's depot. */
  public int depotPlace(int kind) {
    return stops + kinds[kind].depot();
  }

  /** True when no day ever waits and none is uncertain, so that minutes simply add up. */
  public boolean additive() {
    return supply == null && chance == null;
  }
}
