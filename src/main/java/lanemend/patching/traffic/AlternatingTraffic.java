package lanemend.patching.traffic;

import static lanemend.patching.Trace.in;

import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.RoadSetting;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;

/**
 * Queue and delay where flaggers let the two directions of a road through by turns. Method of the
 * Highway Capacity Manual, 7th edition, chapter 26 appendix B: a signal of two phases whose
 * clearance is the drive through the closure. Its steps, default values and passenger-car
 * equivalents for level terrain were read; the algebra of its equations is from memory. Balanced
 * directions and level ground are assumed, and the pace through the closure is given instead of its
 * regression.
 */
final class AlternatingTraffic {
  static final String SOURCE =
      "HCM 7th edition chapter 26 appendix B (steps and constants read, algebra from memory)";

  static final String SIGNAL_SOURCE =
      "Webster 1958, cycle of least delay (1.5 L + 5) / (1 - Y) (read in worked examples)";

  /** Trucks as passenger cars on level ground by flow 100, 200 ... 900 veh/h (exhibit 26-B4). */
  private static final double[] TRUCK_CARS = {1.9, 1.5, 1.4, 1.3, 1.2, 1.1, 1.1, 1.1, 1.0};

  private static final double INCREMENTAL_K = 0.5;
  private static final double SHORTEST_PERIOD_HOURS = 0.25;

  /**
   * Share of the green's capacity that is used at most, so that a burst of traffic still clears.
   */
  private static final double FULLEST_USE = 0.9;

  /** Who tells the two directions when to go. */
  enum Control {
    FLAGGERS("flaggers"),
    PILOT_CAR("a pilot car"),
    SIGNALS("temporary signals");

    private final String words;

    Control(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }

    static Control of(Situation situation) {
      return switch (situation) {
        case PILOT_CAR -> PILOT_CAR;
        case SIGNALS -> SIGNALS;
        default -> FLAGGERS;
      };
    }
  }

  private final TrafficSettings.Delay settings;
  private final Control control;

  AlternatingTraffic(TrafficSettings.Delay settings) {
    this(settings, Control.FLAGGERS);
  }

  AlternatingTraffic(TrafficSettings.Delay settings, Control control) {
    this.settings = settings;
    this.control = control;
  }

  /**
   * One cycle.
   *
   * @param demand passenger cars an hour each way
   * @param saturation queued passenger cars an hour past a flagger
   * @param use demand over capacity; from 1 on the queue grows
   */
  record Cycle(
      double demand, double saturation, double greenSeconds, double cycleSeconds, double use) {

    double capacity() {
      return saturation * greenSeconds / cycleSeconds;
    }

    double longestQueue() {
      return demand / 3600 * (cycleSeconds - greenSeconds);
    }

    double uniformDelaySeconds() {
      double red = 1 - greenSeconds / cycleSeconds;
      double served = Math.min(1, use) * greenSeconds / cycleSeconds;
      return 0.5 * cycleSeconds * red * red / (1 - served);
    }

    double randomDelaySeconds(double hours) {
      double over = use - 1;
      return 900
          * hours
          * (over + Math.sqrt(over * over + 8 * INCREMENTAL_K * use / (capacity() * hours)));
    }
  }

  static double truckCars(double vehiclesPerHour) {
    double at = Math.min(8, Math.max(0, vehiclesPerHour / 100 - 1));
    int low = (int) Math.min(7, Math.floor(at));
    return TRUCK_CARS[low] + (at - low) * (TRUCK_CARS[low + 1] - TRUCK_CARS[low]);
  }

  /** Passenger cars an hour for {@code vehicles} an hour in one direction. */
  double demand(double vehicles, double truckShare) {
    double flow = vehicles / settings.peakHourFactor();
    return flow * (1 + truckShare * (truckCars(flow) - 1));
  }

  /**
   * The cycle of least delay of a fixed-time signal, Webster (1958): (1.5 L + 5) / (1 - Y).
   *
   * @param lostSeconds L, when neither direction moves
   * @param flowRatio Y, sum over the phases of demand over saturation flow
   */
  static double websterCycleSeconds(double lostSeconds, double flowRatio) {
    return flowRatio < 1 ? (1.5 * lostSeconds + 5) / (1 - flowRatio) : Double.POSITIVE_INFINITY;
  }

  /** Seconds of a cycle in which nobody sets off, without the drive through. */
  private double standingSeconds() {
    double turns = control == Control.PILOT_CAR ? 2 * settings.pilotTurnSeconds() : 0;
    return 2 * settings.startLostSeconds() + turns;
  }

  private double paceMs() {
    return settings.paceKmh() / 3.6;
  }

  /**
   * Green by the rule of the length, longer where the traffic needs it; by Webster's cycle of least
   * delay under signals.
   */
  Cycle cycle(double demand, double closureM) {
    double saturation = 3600 / settings.headwaySeconds();
    double clearance = 2 * closureM / paceMs() + standingSeconds();
    double longest = settings.longestGreenSeconds();
    double green;
    if (control == Control.SIGNALS) {
      double best = (websterCycleSeconds(clearance, 2 * demand / saturation) - clearance) / 2;
      green = Math.max(settings.shortestGreenSeconds(), Math.min(best, longest));
    } else {
      double rule =
          Math.max(
              settings.shortestGreenSeconds(),
              Math.min(settings.longestRuleGreenSeconds(), settings.greenSecondsPerM() * closureM));
      double share = demand / saturation / FULLEST_USE;
      double needed = share < 0.5 ? share * clearance / (1 - 2 * share) : Double.POSITIVE_INFINITY;
      green = Math.max(rule, Math.min(needed, Math.max(rule, longest)));
    }
    double cycle = 2 * green + clearance;
    return new Cycle(demand, saturation, green, cycle, demand / (saturation * green / cycle));
  }

  /**
   * The longest closure at which the longest green still carries the traffic (0.9 of its capacity)
   * and nobody waits longer than {@code longestWaitSeconds}; 0 where none is short enough.
   */
  double longestClosureM(double demand, double longestWaitSeconds) {
    double green = settings.longestGreenSeconds();
    double saturation = 3600 / settings.headwaySeconds();
    double carried =
        demand > 0
            ? FULLEST_USE * saturation * green / demand - 2 * green
            : Double.POSITIVE_INFINITY;
    double waited = longestWaitSeconds - green;
    return Math.max(0, paceMs() / 2 * (Math.min(carried, waited) - standingSeconds()));
  }

  /** Passenger cars an hour each way in an hour with this share of the day's traffic. */
  double demand(RoadSetting setting, double hourShare) {
    return demand(setting.aadt() * hourShare / 2, setting.truckShare());
  }

  /** Vehicle-hours an hour, without a trace. */
  double hourlyDelay(RoadSetting setting, double closureM, double workMinutes) {
    double vehicles = setting.aadt() * settings.hourShare() / 2;
    Cycle cycle = cycle(demand(vehicles, setting.truckShare()), closureM);
    double hours = Math.max(SHORTEST_PERIOD_HOURS, workMinutes / 60);
    return 2
        * vehicles
        * (cycle.uniformDelaySeconds()
            + cycle.randomDelaySeconds(hours)
            + slowSeconds(setting, closureM))
        / 3600;
  }

  /** Adds flow, cycle, queue and delay to {@code trace}; vehicle-hours for each hour. */
  Figure trace(Trace trace, RoadSetting setting, double closureM, double workMinutes) {
    double vehicles = setting.aadt() * settings.hourShare() / 2;
    Figure flow =
        trace.add(
            "traffic each way",
            vehicles,
            Unit.VEHICLES_PER_HOUR,
            "AADT x share of an hour / 2",
            Figure.COMMON_PRACTICE,
            in("AADT", setting.aadt(), Unit.VEHICLES_PER_DAY),
            in("share of an hour", settings.hourShare(), Unit.RATIO));
    double demand = demand(vehicles, setting.truckShare());
    Cycle cycle = cycle(demand, closureM);
    double hours = Math.max(SHORTEST_PERIOD_HOURS, workMinutes / 60);
    Figure green =
        trace.add(
            "green each way",
            cycle.greenSeconds(),
            Unit.SECOND,
            control == Control.SIGNALS
                ? "half of what the cycle of least delay leaves, 20 s or more"
                : "0.0375 s for each ft of closure, 20 to 60 s; longer where the traffic needs it",
            control == Control.SIGNALS ? SIGNAL_SOURCE : SOURCE,
            in("closure", closureM, Unit.METER),
            in("demand, passenger cars an hour each way", demand, Unit.COUNT));
    Figure whole =
        trace.add(
            control == Control.SIGNALS ? "signal cycle" : "flagging cycle",
            cycle.cycleSeconds(),
            Unit.SECOND,
            control == Control.PILOT_CAR
                ? "2 greens + 2 x closure / pace + 2 x start-up lost time + 2 x pilot car turns"
                : "2 greens + 2 x closure / pace + 2 x start-up lost time",
            SOURCE,
            green.asInput(),
            in("closure", closureM, Unit.METER),
            in("pace", settings.paceKmh(), Unit.KM_PER_HOUR),
            in("start-up lost time", settings.startLostSeconds(), Unit.SECOND),
            in(
                "pilot car turns",
                control == Control.PILOT_CAR ? settings.pilotTurnSeconds() : 0,
                Unit.SECOND));
    longestWait(trace, cycle, whole, green);
    trace.add(
        "longest queue each way",
        Math.ceil(cycle.longestQueue() - 1e-9),
        Unit.COUNT,
        "demand x (cycle - green), rounded up; longer where demand is above capacity",
        SOURCE,
        in("demand, passenger cars an hour each way", demand, Unit.COUNT),
        whole.asInput(),
        green.asInput());
    return delay(trace, flow, cycle, hours, slowSeconds(setting, closureM));
  }

  private static void longestWait(Trace trace, Cycle cycle, Figure whole, Figure green) {
    trace.add(
        "longest wait",
        cycle.cycleSeconds() - cycle.greenSeconds(),
        Unit.SECOND,
        "cycle - green: who comes as the green ends; longer where a queue is left",
        Trace.ARITHMETIC,
        whole.asInput(),
        green.asInput());
  }

  private Figure delay(Trace trace, Figure flow, Cycle cycle, double hours, double slowSeconds) {
    double uniform = cycle.uniformDelaySeconds();
    double random = cycle.randomDelaySeconds(hours);
    trace.add(
        "use of the open lane",
        cycle.use(),
        Unit.RATIO,
        "demand / capacity, capacity = saturation flow x green / cycle",
        SOURCE,
        in("demand, passenger cars an hour each way", cycle.demand(), Unit.COUNT),
        in("saturation flow", cycle.saturation(), Unit.COUNT));
    return trace.add(
        "road-user delay for each hour",
        2 * flow.value() * (uniform + random + slowSeconds) / 3600,
        Unit.VEHICLE_HOUR,
        "2 x traffic each way x (uniform + random delay + slower drive through)",
        SOURCE,
        flow.asInput(),
        in("uniform delay", uniform, Unit.SECOND),
        in("random delay", random, Unit.SECOND),
        in("slower drive", slowSeconds, Unit.SECOND),
        in("work", hours * 60, Unit.MINUTE));
  }

  /**
   * The delay for each hour, with that of traffic held both ways for a while once during the work:
   * who comes meanwhile waits, and the queue goes as fast as the open lane lets it.
   */
  Figure held(Trace trace, ZoneWork work, double closureM, Figure hold, Figure byHour) {
    RoadSetting road = work.setting();
    double vehicles = road.aadt() * settings.hourShare();
    double use =
        Math.min(FULLEST_USE, cycle(demand(vehicles / 2, road.truckShare()), closureM).use());
    double hours = hold.value() / 60;
    Figure held =
        trace.add(
            "delay while traffic is held both ways",
            vehicles * hours * hours / 2 / (1 - use),
            Unit.VEHICLE_HOUR,
            "traffic both ways x hold^2 / 2 / (1 - use of the open lane, 0.9 at most)",
            "deterministic queue (textbook)",
            in("traffic both ways", vehicles, Unit.VEHICLES_PER_HOUR),
            hold.asInput(),
            in("use of the open lane", use, Unit.RATIO));
    double workHours = Math.max(SHORTEST_PERIOD_HOURS, work.workMinutes() / 60);
    return trace.add(
        "road-user delay for each hour with the hold",
        byHour.value() + held.value() / workHours,
        Unit.VEHICLE_HOUR,
        "road-user delay for each hour + delay while held / hours of work",
        Trace.ARITHMETIC,
        byHour.asInput(),
        held.asInput(),
        in("hours of work", workHours, Unit.HOUR));
  }

  private double slowSeconds(RoadSetting setting, double closureM) {
    double pace = Math.min(settings.paceKmh(), setting.postedKmh());
    return closureM * 3.6 / pace - closureM * 3.6 / setting.postedKmh();
  }

  /** Vehicle-hours for each hour past one closed lane of a multilane road, or a shift. */
  Figure slowed(
      Trace trace, RoadSetting setting, double closureM, int openLanes, double workMinutes) {
    double share = setting.oneDirection() ? 1 : 0.5;
    double vehicles = setting.aadt() * settings.hourShare() * share;
    double pace =
        Math.max(
            Math.min(settings.paceKmh(), setting.postedKmh()),
            setting.postedKmh() - settings.speedDropKmh());
    double slow = (closureM / 1000) * (1 / pace - 1 / setting.postedKmh());
    // A queue grows by the whole hours' traffic, not by its busiest quarter: no peak-hour factor.
    double cars = vehicles * (1 + setting.truckShare() * (settings.multilaneTruckCars() - 1));
    double over = Math.max(0, cars - openLanes * settings.laneCapacity());
    double queued = over * workMinutes / 60 / 2;
    return trace.add(
        "road-user delay for each hour",
        vehicles * slow + queued,
        Unit.VEHICLE_HOUR,
        "traffic x slower drive past + half the queue grown over the work where demand is above"
            + " capacity",
        "deterministic queue; 1,600 cars an hour a lane, HCM 2000 chapter 22 (from memory)",
        in("traffic", vehicles, Unit.VEHICLES_PER_HOUR),
        in("closure", closureM, Unit.METER),
        in("pace", pace, Unit.KM_PER_HOUR),
        in("posted", setting.postedKmh(), Unit.KM_PER_HOUR),
        in("open lanes", openLanes, Unit.COUNT),
        in("demand above capacity, cars an hour", over, Unit.COUNT),
        in("work", workMinutes, Unit.MINUTE));
  }
}
