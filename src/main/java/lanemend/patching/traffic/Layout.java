package lanemend.patching.traffic;

import static lanemend.patching.Trace.in;

import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.RoadSetting;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;

/**
 * Lengths and devices of one work zone.
 *
 * @param zoneM from the first repair to the last
 * @param taperM in front of the work
 * @param devices channelizing devices
 */
record Layout(double zoneM, double taperM, double bufferM, double downstreamM, int devices) {

  /** From the start of the first taper in the lane to the end of the last. */
  double closureM() {
    return taperM + bufferM + zoneM + downstreamM;
  }

  static Layout of(
      Trace trace, Closure closure, RoadSetting setting, double zoneM, TrafficSettings traffic) {
    Figure.Input posted = in("posted speed", setting.postedKmh(), Unit.KM_PER_HOUR);
    Figure taper = taper(trace, closure, setting, traffic, posted);
    Figure buffer =
        trace.add(
            "buffer",
            Mutcd.bufferM(setting.postedKmh()),
            Unit.METER,
            "1.47 V t + 1.075 V^2 / a, t 2.5 s, a 11.2 ft/s2, V in mph, rounded up to 5 ft",
            Mutcd.BUFFER_SOURCE,
            posted);
    double tail = downstream(closure, setting, traffic);
    Figure downstream =
        trace.add(
            "downstream taper",
            tail,
            Unit.METER,
            "50 to 100 ft for each lane",
            "MUTCD 2009 section 6C.08 (read), 11th edition table 6B-3 (as quoted)");
    double taperSpacing =
        closure == Closure.ALTERNATING
            ? traffic.shortTaperSpacingM()
            : Mutcd.taperSpacingM(setting.postedKmh());
    double tangent = Mutcd.tangentSpacingM(setting.postedKmh());
    int inTaper = Mutcd.devices(taper.value(), taperSpacing);
    int along = (int) Math.ceil((buffer.value() + zoneM) / tangent - 1e-9);
    int inTail = (int) Math.ceil(tail / tailSpacing(closure, traffic, taperSpacing) - 1e-9);
    int onShoulder = shoulder(trace, closure, setting, traffic, taper, taperSpacing);
    Figure devices =
        trace.add(
            "channelizing devices",
            inTaper + along + inTail + onShoulder,
            Unit.COUNT,
            "taper / spacing + 1, and on along buffer, work, downstream and shoulder tapers",
            Mutcd.DEVICE_SOURCE,
            taper.asInput(),
            in("spacing in the taper", taperSpacing, Unit.METER),
            in("buffer and work", buffer.value() + zoneM, Unit.METER),
            in("spacing along it", tangent, Unit.METER),
            downstream.asInput(),
            in("devices in the taper", inTaper, Unit.COUNT),
            in("devices along", along, Unit.COUNT),
            in("devices downstream", inTail, Unit.COUNT),
            in("devices on the shoulder", onShoulder, Unit.COUNT));
    Layout layout = new Layout(zoneM, taper.value(), buffer.value(), tail, (int) devices.value());
    trace.add(
        "closure",
        layout.closureM(),
        Unit.METER,
        "taper + buffer + work + downstream taper",
        Trace.ARITHMETIC,
        taper.asInput(),
        buffer.asInput(),
        in("work", zoneM, Unit.METER),
        downstream.asInput());
    return layout;
  }

  private static Figure taper(
      Trace trace,
      Closure closure,
      RoadSetting setting,
      TrafficSettings traffic,
      Figure.Input posted) {
    if (closure == Closure.ALTERNATING) {
      return trace.add(
          "one-lane two-way taper",
          traffic.oneLaneTaperM(),
          Unit.METER,
          "50 to 100 ft",
          "MUTCD 2009 section 6C.08 paragraph 13 (read)");
    }
    double merging = Mutcd.mergingTaperM(setting.laneWidthM(), setting.postedKmh());
    Figure.Input width = in("lane width W", setting.laneWidthM(), Unit.METER);
    if (closure == Closure.LANE_CLOSED) {
      return trace.add(
          "merging taper",
          merging,
          Unit.METER,
          "L = W S^2 / 60 to 40 mph, W S from 45 mph, in ft and mph",
          Mutcd.TAPER_SOURCE,
          width,
          posted);
    }
    return trace.add(
        "shifting taper",
        merging / 2,
        Unit.METER,
        "L / 2, L = W S^2 / 60 to 40 mph, W S from 45 mph, in ft and mph",
        Mutcd.TAPER_SOURCE,
        width,
        posted);
  }

  /** A shift goes back by a taper of its own; elsewhere a short one lets traffic out. */
  private static double downstream(Closure closure, RoadSetting setting, TrafficSettings traffic) {
    return switch (closure) {
      case SHIFTED, ON_SHOULDER ->
          Mutcd.mergingTaperM(setting.laneWidthM(), setting.postedKmh()) / 2;
      case ALTERNATING, LANE_CLOSED, ROAD_CLOSED -> traffic.downstreamTaperM();
    };
  }

  private static double tailSpacing(Closure closure, TrafficSettings traffic, double taperSpacing) {
    return switch (closure) {
      case SHIFTED, ON_SHOULDER -> taperSpacing;
      case ALTERNATING, LANE_CLOSED, ROAD_CLOSED -> traffic.shortTaperSpacingM();
    };
  }

  /** Devices that close a wide shoulder before the lane on it is closed. */
  private static int shoulder(
      Trace trace,
      Closure closure,
      RoadSetting setting,
      TrafficSettings traffic,
      Figure taper,
      double spacing) {
    if (closure != Closure.LANE_CLOSED
        || setting.shoulderWidthM() < traffic.shoulderClosedFromM() - 1e-9) {
      return 0;
    }
    Figure shoulder =
        trace.add(
            "shoulder taper",
            Mutcd.mergingTaperM(setting.shoulderWidthM(), setting.postedKmh()) / 3,
            Unit.METER,
            "L / 3 with the shoulder's width as W",
            "MUTCD 11th edition table 6B-3 (as quoted): at least 0.33 L",
            in("shoulder width W", setting.shoulderWidthM(), Unit.METER),
            taper.asInput());
    return Mutcd.devices(shoulder.value(), spacing);
  }
}
