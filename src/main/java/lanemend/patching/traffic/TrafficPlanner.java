package lanemend.patching.traffic;

import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.RoadClass;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;
import lanemend.patching.traffic.AlternatingTraffic.Control;
import lanemend.patching.traffic.TrafficPlan.DeviceCount;
import lanemend.patching.traffic.TrafficPlan.SignPlacement;

/**
 * First traffic-control plan of a work zone. A plan for review: the MUTCD, agency and permit
 * conditions rule.
 */
public final class TrafficPlanner {
  private final TrafficSettings traffic;
  private final SituationChooser chooser;
  private final TrafficCautions cautions;

  /** A planner with the traffic part of {@code settings}. */
  public TrafficPlanner(PatchSettings settings) {
    this.traffic = settings.traffic();
    this.chooser = new SituationChooser(traffic, settings.wordsIn());
    this.cautions = new TrafficCautions(traffic, settings.wordsIn());
  }

  /** Situation, tapers, buffer, signs, devices, people, minutes and road-user delay. */
  public TrafficPlan plan(ZoneWork work) {
    SituationChoice choice = chooser.choose(work);
    Situation situation = choice.situation();
    Trace trace = new Trace();
    SignSequence sequence = new SignSequence(traffic);
    boolean turned = mayTurnOver(situation, work) && sequence.alike(situation);
    Layout bare = Layout.of(trace, situation, work, traffic, turned);
    List<SignPlacement> signs = sequence.place(trace, situation, work, bare);
    boolean arrow = arrowBoard(situation);
    boolean attenuator = attenuator(situation, work.setting());
    Layout layout = bare.with(stations(situation, bare, arrow, attenuator));
    Figure byHour = delay(trace, situation, work, layout);
    Figure delay = turned ? turnOver(trace, situation, work, layout, byHour) : byHour;
    int stands = signs.stream().mapToInt(SignPlacement::boards).sum();
    double setUp = setUp(trace, layout.devices(), stands, boards(situation, arrow));
    double takeDown =
        trace
            .add(
                "take down",
                setUp * traffic.effort().takeDownShare(),
                Unit.MINUTE,
                "set up x share",
                Figure.COMMON_PRACTICE,
                in("set up", setUp, Unit.MINUTE),
                in("share", traffic.effort().takeDownShare(), Unit.RATIO))
            .value();
    return new TrafficPlan(
        choice,
        layout,
        trace.figures(),
        devices(situation, layout, stands, arrow, attenuator),
        signs,
        situation.flagged() ? 2 : 0,
        setUp,
        takeDown,
        delay.value(),
        cautions.of(choice, work, layout));
  }

  /** One lane each way, and somebody or something that holds both directions while it is done. */
  private boolean mayTurnOver(Situation situation, ZoneWork work) {
    return work.bothSides()
        && traffic.choice().bothSides()
        && work.setting().twoLaneTwoWay()
        && situation.holdsBothWays();
  }

  /**
   * Minutes to turn the closure over, and the delay with the traffic held both ways meanwhile.
   * Where that is longer than anybody may be kept waiting, the closure is not turned over: there is
   * no such figure then.
   *
   * @return road-user delay for each hour, the hold shared out over the work
   */
  private Figure turnOver(
      Trace trace, Situation situation, ZoneWork work, Layout layout, Figure byHour) {
    TrafficSettings.Effort effort = traffic.effort();
    double again = effort.minutesPerDevice() * (1 + effort.takeDownShare());
    double minutes = effort.turnOverMinutes() + layout.devices() * again;
    if (minutes * 60 > traffic.choice().longestWaitSeconds()) {
      return byHour;
    }
    Figure turning =
        trace.add(
            TrafficPlan.TURN_OVER,
            minutes,
            Unit.MINUTE,
            "hold and release + devices x (picking up + placing); not longer than the longest wait",
            Figure.COMMON_PRACTICE,
            in("hold and release", effort.turnOverMinutes(), Unit.MINUTE),
            in("devices", layout.devices(), Unit.COUNT),
            in("picking up and placing a device", again, Unit.MINUTE),
            in("longest wait", traffic.choice().longestWaitSeconds() / 60, Unit.MINUTE));
    return new AlternatingTraffic(traffic.delay(), Control.of(situation))
        .held(trace, work, layout.closureM(), turning, byHour);
  }

  private boolean arrowBoard(Situation situation) {
    return traffic
        .agency()
        .of(situation.key())
        .arrowBoard()
        .orElse(situation.arrow() == Situation.Arrow.ARROW);
  }

  private boolean attenuator(Situation situation, RoadSetting road) {
    boolean byClass =
        switch (traffic.choice().attenuator()) {
          case NEVER -> false;
          case FREEWAYS -> road.roadClass() == RoadClass.FREEWAY;
          case SEVERAL_LANES -> road.roadClass() == RoadClass.FREEWAY || road.severalLanesEachWay();
          case ALWAYS -> true;
        };
    return traffic
        .agency()
        .of(situation.key())
        .attenuator()
        .orElse(byClass || situation == Situation.MOBILE_SEVERAL_LANES);
  }

  private static int boards(Situation situation, boolean arrow) {
    if (!arrow) {
      return 0;
    }
    return situation == Situation.MIDDLE_LANE || situation == Situation.MOBILE_SEVERAL_LANES
        ? 2
        : 1;
  }

  private static List<Station> stations(
      Situation situation, Layout layout, boolean arrow, boolean attenuator) {
    List<Station> stations = new ArrayList<>();
    if (situation.flagged() || situation == Situation.SIGNALS) {
      Station.Kind kind = situation.flagged() ? Station.Kind.FLAGGER : Station.Kind.SIGNAL;
      stations.add(new Station(kind, 0, false));
      stations.add(new Station(kind, layout.closureM(), true));
    }
    if (situation.passing() == Passing.CLOSED) {
      stations.add(new Station(Station.Kind.BARRICADES, 0, false));
    }
    if (arrow) {
      layout.stretches().stream()
          .filter(s -> s.kind() == Stretch.Kind.MERGING_TAPER)
          .forEach(s -> stations.add(new Station(Station.Kind.ARROW_BOARD, s.fromM(), false)));
    }
    if (attenuator || situation.passing() == Passing.MOVING) {
      stations.add(new Station(Station.Kind.SHADOW_VEHICLE, layout.workFromM(), false));
    }
    return stations;
  }

  private Figure delay(Trace trace, Situation situation, ZoneWork work, Layout layout) {
    RoadSetting road = work.setting();
    double closure = layout.closureM();
    AlternatingTraffic flow = new AlternatingTraffic(traffic.delay(), Control.of(situation));
    return switch (situation.passing()) {
      case BY_TURNS -> byTurns(trace, flow, work, closure);
      case MERGE -> flow.slowed(trace, road, closure, road.lanesEachWay() - 1, work.workMinutes());
      case MERGE_TWICE ->
          flow.slowed(
              trace, road, closure, Math.max(1, road.lanesEachWay() - 2), work.workMinutes());
      case SHIFT, BESIDE, MOVING ->
          flow.slowed(trace, road, closure, road.lanesEachWay(), work.workMinutes());
      case CLOSED ->
          trace.add(
              "road-user delay for each hour",
              0,
              Unit.VEHICLE_HOUR,
              "not estimated: it depends on the detour",
              Figure.COMMON_PRACTICE);
    };
  }

  /** Delay, the closure the traffic allows, and what the other controls would cost. */
  private Figure byTurns(Trace trace, AlternatingTraffic flow, ZoneWork work, double closureM) {
    RoadSetting road = work.setting();
    Figure delay = flow.trace(trace, road, closureM, work.workMinutes());
    double wait = traffic.choice().longestWaitSeconds();
    trace.add(
        "longest closure for this traffic",
        flow.longestClosureM(flow.demand(road, traffic.delay().hourShare()), wait),
        Unit.METER,
        "pace / 2 x (cycle at 0.9 of capacity or longest wait, the shorter, less what stands)",
        AlternatingTraffic.SOURCE + "; wait: Iowa DOT flagger training (read)",
        in("longest wait", wait, Unit.SECOND),
        in("longest green", traffic.delay().longestGreenSeconds(), Unit.SECOND));
    for (Control control : Control.values()) {
      trace.add(
          "delay with " + control.words(),
          new AlternatingTraffic(traffic.delay(), control)
              .hourlyDelay(road, closureM, work.workMinutes()),
          Unit.VEHICLE_HOUR,
          "as the road-user delay, for each hour",
          control == Control.SIGNALS
              ? AlternatingTraffic.SIGNAL_SOURCE
              : AlternatingTraffic.SOURCE);
    }
    return delay;
  }

  private double setUp(Trace trace, int devices, int signs, int arrowBoards) {
    TrafficSettings.Effort effort = traffic.effort();
    double board = arrowBoards * effort.arrowBoardMinutes();
    return trace
        .add(
            "set up",
            effort.briefingMinutes()
                + signs * effort.minutesPerSign()
                + devices * effort.minutesPerDevice()
                + board,
            Unit.MINUTE,
            "briefing + signs x minutes + devices x minutes + arrow board",
            Figure.COMMON_PRACTICE,
            in("briefing", effort.briefingMinutes(), Unit.MINUTE),
            in("signs", signs, Unit.COUNT),
            in("placing a sign", effort.minutesPerSign(), Unit.MINUTE),
            in("devices", devices, Unit.COUNT),
            in("placing a device", effort.minutesPerDevice(), Unit.MINUTE),
            in("arrow board", board, Unit.MINUTE))
        .value();
  }

  private static List<DeviceCount> devices(
      Situation situation, Layout layout, int stands, boolean arrow, boolean attenuator) {
    List<DeviceCount> devices = new ArrayList<>();
    add(devices, "channelizing devices (cones or drums)", layout.devices());
    add(devices, "sign stands", stands);
    int arrows = boards(situation, arrow);
    String mode = situation.arrow() == Situation.Arrow.ARROW ? "arrow" : "caution";
    add(devices, "arrow board, " + mode + " mode", arrows);
    switch (situation) {
      case FLAGGERS, PILOT_CAR -> {
        add(devices, "STOP/SLOW paddles (R1-1, W20-8)", 2);
        add(devices, "two-way radios", 3);
        add(
            devices,
            "pilot car with " + Signs.FOLLOW_ME.text(),
            situation == Situation.PILOT_CAR ? 1 : 0);
      }
      case SIGNALS -> add(devices, "portable traffic signals", 2);
      case ROAD_CLOSED_DETOUR -> add(devices, "Type 3 barricades", 2);
      case SHOULDER_SHORT, MOBILE_TWO_LANE, MOBILE_SEVERAL_LANES ->
          add(devices, "sign on the vehicle for the kind of work, and rotating lights", 1);
      default -> {}
    }
    int shadows =
        situation == Situation.MOBILE_SEVERAL_LANES
            ? 2
            : attenuator || situation == Situation.MOBILE_TWO_LANE ? 1 : 0;
    add(
        devices,
        attenuator ? "shadow vehicle with truck-mounted attenuator" : "shadow vehicle",
        shadows);
    return devices;
  }

  private static void add(List<DeviceCount> devices, String device, int count) {
    if (count > 0) {
      devices.add(new DeviceCount(device, count));
    }
  }
}
