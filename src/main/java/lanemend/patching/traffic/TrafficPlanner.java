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
import lanemend.patching.traffic.TrafficPlan.DeviceCount;
import lanemend.patching.traffic.TrafficPlan.SignPlacement;

/**
 * First traffic-control list of a work zone. A plan for review: the MUTCD, agency and permit
 * conditions rule.
 */
public final class TrafficPlanner {
  private static final double SHORT_DURATION_MINUTES = 60;

  private final TrafficSettings traffic;

  /** A planner with the traffic part of {@code settings}. */
  public TrafficPlanner(PatchSettings settings) {
    this.traffic = settings.traffic();
  }

  /**
   * Tapers, buffer, signs, devices, flaggers, minutes and road-user delay.
   *
   * @param zoneLengthM from the first repair to the last
   * @param workMinutes the closed lane stands, for the delay
   * @throws IllegalArgumentException when speed, lanes, length or minutes make no sense
   */
  public TrafficPlan plan(RoadSetting setting, double zoneLengthM, double workMinutes) {
    expect(setting.postedKmh() > 0, "posted speed", setting.postedKmh(), "km/h above 0");
    expect(setting.lanes() >= 1, "number of lanes", setting.lanes(), "1 or more");
    expect(setting.laneWidthM() > 0, "lane width", setting.laneWidthM(), "metres above 0");
    expect(setting.aadt() >= 0, "AADT", setting.aadt(), "0 or more");
    expect(zoneLengthM >= 0, "zone length", zoneLengthM, "0 m or more");
    expect(workMinutes >= 0, "minutes of work", workMinutes, "0 or more");
    Closure closure = Closure.on(setting);
    Trace trace = new Trace();
    Layout layout = Layout.of(trace, closure, setting, zoneLengthM, traffic);
    List<SignPlacement> signs =
        new SignSequence(traffic.signSpacing()).place(trace, closure, setting, layout);
    Figure delay = delay(trace, closure, setting, layout, workMinutes);
    int stands = stands(closure, setting, signs);
    List<DeviceCount> devices = devices(closure, setting, layout, stands);
    double setUp = setUp(trace, layout.devices(), stands, needsArrowBoard(setting));
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
        closure.words(),
        trace.figures(),
        devices,
        signs,
        closure == Closure.ALTERNATING ? 2 : 0,
        setUp,
        takeDown,
        delay.value(),
        cautions(closure, setting, layout, workMinutes));
  }

  /** Whether the closed lane calls for an arrow board: where traffic has to merge. */
  public static boolean needsArrowBoard(RoadSetting setting) {
    return Closure.on(setting) == Closure.LANE_CLOSED;
  }

  private Figure delay(
      Trace trace, Closure closure, RoadSetting setting, Layout layout, double workMinutes) {
    AlternatingTraffic flow = new AlternatingTraffic(traffic.delay());
    return switch (closure) {
      case ALTERNATING -> flow.trace(trace, setting, layout.closureM(), workMinutes);
      case LANE_CLOSED -> {
        int lanes = setting.oneDirection() ? setting.lanes() : setting.lanes() / 2;
        yield flow.slowed(trace, setting, layout.closureM(), lanes - 1, workMinutes);
      }
      case SHIFTED, ON_SHOULDER -> flow.slowed(trace, setting, layout.closureM(), 1, workMinutes);
      case ROAD_CLOSED ->
          trace.add(
              "road-user delay for each hour",
              0,
              Unit.VEHICLE_HOUR,
              "not estimated: it depends on the detour",
              Figure.COMMON_PRACTICE);
    };
  }

  /** On a one-way roadway of several lanes each sign stands on both sides. */
  private static int stands(Closure closure, RoadSetting setting, List<SignPlacement> signs) {
    boolean bothSides = closure == Closure.LANE_CLOSED && setting.oneDirection();
    return bothSides ? 2 * signs.size() : signs.size();
  }

  private double setUp(Trace trace, int devices, int signs, boolean arrowBoard) {
    TrafficSettings.Effort effort = traffic.effort();
    double board = arrowBoard ? effort.arrowBoardMinutes() : 0;
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

  private List<DeviceCount> devices(
      Closure closure, RoadSetting setting, Layout layout, int signs) {
    List<DeviceCount> devices = new ArrayList<>();
    devices.add(new DeviceCount("channelizing devices (cones or drums)", layout.devices()));
    devices.add(new DeviceCount("signs on stands", signs));
    switch (closure) {
      case ALTERNATING -> {
        devices.add(new DeviceCount("STOP/SLOW paddles", 2));
        devices.add(new DeviceCount("two-way radios", 3));
        if (needsPilotCar(layout)) {
          devices.add(new DeviceCount("pilot car with PILOT CAR FOLLOW ME sign", 1));
        }
      }
      case LANE_CLOSED -> devices.add(new DeviceCount("arrow board", 1));
      case ROAD_CLOSED -> devices.add(new DeviceCount("Type 3 barricades", 2));
      case SHIFTED, ON_SHOULDER -> {}
    }
    if (setting.roadClass() == RoadClass.FREEWAY) {
      devices.add(new DeviceCount("shadow vehicle with truck-mounted attenuator", 1));
    }
    return devices;
  }

  private boolean needsPilotCar(Layout layout) {
    return layout.closureM() > traffic.pilotCarFromM();
  }

  private List<String> cautions(
      Closure closure, RoadSetting setting, Layout layout, double workMinutes) {
    List<String> cautions = new ArrayList<>();
    cautions.add("Plan for review: the MUTCD, agency and permit conditions rule.");
    switch (closure) {
      case ALTERNATING -> {
        if (needsPilotCar(layout)) {
          cautions.add(
              "The closure is longer than a quarter mile: some agencies ask for a pilot car (Iowa"
                  + " DOT Design Manual 9C-3); shorten it or use one.");
        }
        double vehicles = setting.aadt() * traffic.delay().hourShare();
        if (vehicles > traffic.mostOneLaneVehiclesPerHour()) {
          cautions.add(
              Math.round(vehicles)
                  + " vehicles an hour is more than one alternating lane should carry: work outside"
                  + " the peak, or widen past the work.");
        }
        cautions.add(
            "Flaggers are certified, see each other or have radios, and stand where drivers see"
                + " them with a way out behind.");
      }
      case SHIFTED ->
          cautions.add("The middle lane is assumed to be a turn lane: look before you shift.");
      case ON_SHOULDER ->
          cautions.add("See first that the shoulder carries the traffic and no ditch is near.");
      case ROAD_CLOSED ->
          cautions.add(
              "Nothing is left to drive on: the agency has to approve a detour and tell emergency"
                  + " services; its delay is not in the cost.");
      case LANE_CLOSED -> {
        cautions.add("Close the lane the repair lies in: LEFT or RIGHT on signs and arrow.");
        if (setting.oneDirection()) {
          cautions.add("Put each advance sign on both sides of the roadway.");
        }
      }
    }
    if (workMinutes <= SHORT_DURATION_MINUTES) {
      cautions.add(
          "An hour or less is short duration: the agency may allow fewer devices; speed and sight"
              + " distance decide.");
    }
    cautions.add(
        "Check sight distance, side roads, driveways and walkers on the spot; add signs for each"
            + " road that joins inside the zone.");
    return cautions;
  }

  private static void expect(boolean holds, String what, double found, String expected) {
    if (!holds) {
      throw new IllegalArgumentException(what + " is " + found + "; " + expected + " is expected");
    }
  }
}
