package lanemend.patching.traffic;

import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.RoadSetting;
import lanemend.patching.Trace;
import lanemend.patching.TrafficSettings;

/**
 * Lengths of one work zone and what stands along it.
 *
 * @param zoneM from the first repair to the last
 * @param taperM in front of the work, all tapers of the closed lanes
 * @param devices channelizing devices
 * @param stretches in order along the zone
 * @param turnedOver true where the closure is turned over to the other lane within the same signs
 *     and flaggers, who stand clear of the tapers and buffers of both
 */
public record Layout(
    double zoneM,
    double taperM,
    double bufferM,
    double downstreamM,
    int devices,
    List<Stretch> stretches,
    List<Station> stations,
    boolean turnedOver) {

  public Layout {
    stretches = List.copyOf(stretches);
    stations = List.copyOf(stations);
  }

  /**
   * From the start of the first taper in the lane to the end of the last; where the closure is
   * turned over, of the tapers of both lanes, so that nothing but devices has to move.
   */
  public double closureM() {
    return taperM + bufferM + zoneM + (turnedOver ? taperM + bufferM : downstreamM);
  }

  /** Where the first repair begins. */
  public double workFromM() {
    return taperM + bufferM;
  }

  /** Length of a closure whose open lane serves both directions by turns. */
  static double closureByTurnsM(ZoneWork work, TrafficSettings traffic) {
    double before = traffic.oneLaneTaperM() + Mutcd.bufferM(work.setting().postedKmh());
    return before + work.lengthM() + (work.bothSides() ? before : traffic.downstreamTaperM());
  }

  static Layout of(
      Trace trace,
      Situation situation,
      ZoneWork work,
      TrafficSettings traffic,
      boolean turnedOver) {
    return new Maker(trace, situation, work, traffic, turnedOver).make();
  }

  /** Works a layout out, figure by figure. */
  private static final class Maker {
    private final Trace trace;
    private final Situation situation;
    private final Passing passing;
    private final RoadSetting road;
    private final double zoneM;
    private final TrafficSettings traffic;
    private final Figure.Input posted;
    private final double taperSpacing;
    private final double tangent;
    private final boolean turnedOver;
    private final List<Stretch> stretches = new ArrayList<>();

    Maker(
        Trace trace,
        Situation situation,
        ZoneWork work,
        TrafficSettings traffic,
        boolean turnedOver) {
      this.turnedOver = turnedOver;
      this.trace = trace;
      this.situation = situation;
      this.passing = situation.passing();
      this.road = work.setting();
      this.zoneM = work.lengthM();
      this.traffic = traffic;
      this.posted = in("posted speed", road.postedKmh(), Unit.KM_PER_HOUR);
      this.taperSpacing =
          passing == Passing.BY_TURNS
              ? traffic.shortTaperSpacingM()
              : Mutcd.taperSpacingM(road.postedKmh());
      this.tangent = Mutcd.tangentSpacingM(road.postedKmh());
    }

    Layout make() {
      if (passing == Passing.MOVING) {
        return moving();
      }
      Optional<Figure> taper = taper();
      double taperM = taper.map(Figure::value).orElse(0.0);
      Figure buffer =
          trace.add(
              "buffer",
              Mutcd.bufferM(road.postedKmh()),
              Unit.METER,
              "1.47 V t + 1.075 V^2 / a, t 2.5 s, a 11.2 ft/s2, V in mph, rounded up to 5 ft",
              Mutcd.BUFFER_SOURCE,
              posted);
      Figure downstream = downstream();
      double tailSpacing = passing == Passing.SHIFT ? taperSpacing : traffic.shortTaperSpacingM();
      int inTaper = taper.isPresent() ? Mutcd.devices(taperM, taperSpacing) : 0;
      int along = (int) Math.ceil((buffer.value() + zoneM) / tangent - 1e-9);
      int inTail = (int) Math.ceil(downstream.value() / tailSpacing - 1e-9);
      int onShoulder = shoulder();
      double work = taperM + buffer.value();
      stretch(Stretch.Kind.BUFFER, taperM, work, tangent);
      stretch(Stretch.Kind.WORK, work, work + zoneM, tangent);
      double end = work + zoneM + downstream.value();
      stretch(
          passing == Passing.SHIFT ? Stretch.Kind.SHIFTING_TAPER : Stretch.Kind.DOWNSTREAM_TAPER,
          work + zoneM,
          end,
          tailSpacing);
      Figure devices =
          trace.add(
              "channelizing devices",
              inTaper + along + inTail + onShoulder,
              Unit.COUNT,
              "taper / spacing + 1, and on along buffer, work, downstream and shoulder tapers",
              Mutcd.DEVICE_SOURCE,
              in("tapers in front", taperM, Unit.METER),
              in("spacing in the taper", taperSpacing, Unit.METER),
              in("buffer and work", buffer.value() + zoneM, Unit.METER),
              in("spacing along it", tangent, Unit.METER),
              downstream.asInput(),
              in("devices in the taper", inTaper, Unit.COUNT),
              in("devices along", along, Unit.COUNT),
              in("devices downstream", inTail, Unit.COUNT),
              in("devices on the shoulder", onShoulder, Unit.COUNT));
      if (turnedOver) {
        closureOfBoth(taperM, buffer.value());
      } else {
        closure(end, taperM, buffer.value(), downstream.value());
      }
      return new Layout(
          zoneM,
          taperM,
          buffer.value(),
          downstream.value(),
          (int) devices.value(),
          stretches,
          List.of(),
          turnedOver);
    }

    /** Nothing stands on the road; the vehicles take the work's own length. */
    private Layout moving() {
      stretch(Stretch.Kind.WORK, 0, zoneM, 0);
      trace.add("channelizing devices", 0, Unit.COUNT, "none: vehicles move with the work", seen());
      closure(zoneM, 0, 0, 0);
      return new Layout(zoneM, 0, 0, 0, 0, stretches, List.of(), false);
    }

    private String seen() {
      return situation.source(traffic.edition());
    }

    private void closure(double whole, double taperM, double bufferM, double tailM) {
      trace.add(
          "closure",
          whole,
          Unit.METER,
          "taper + buffer + work + downstream taper",
          Trace.ARITHMETIC,
          in("taper", taperM, Unit.METER),
          in("buffer", bufferM, Unit.METER),
          in("work", zoneM, Unit.METER),
          in("downstream taper", tailM, Unit.METER));
    }

    private void closureOfBoth(double taperM, double bufferM) {
      trace.add(
          "closure",
          2 * (taperM + bufferM) + zoneM,
          Unit.METER,
          "2 x (taper + buffer) + work: signs and flaggers stand clear of the closures of both"
              + " lanes",
          Trace.ARITHMETIC,
          in("taper", taperM, Unit.METER),
          in("buffer", bufferM, Unit.METER),
          in("work", zoneM, Unit.METER));
    }

    private void stretch(Stretch.Kind kind, double from, double to, double spacing) {
      if (to > from) {
        stretches.add(new Stretch(kind, from, to, spacing));
      }
    }

    private Optional<Figure> taper() {
      if (passing == Passing.BESIDE) {
        return Optional.empty();
      }
      if (passing == Passing.BY_TURNS) {
        stretch(Stretch.Kind.ONE_LANE_TAPER, 0, traffic.oneLaneTaperM(), taperSpacing);
        return Optional.of(
            trace.add(
                "one-lane two-way taper",
                traffic.oneLaneTaperM(),
                Unit.METER,
                "50 to 100 ft",
                Mutcd.CRITERIA_SOURCE));
      }
      Figure.Input width = in("lane width W", road.laneWidthM(), Unit.METER);
      double merging = Mutcd.mergingTaperM(road.laneWidthM(), road.postedKmh());
      if (passing == Passing.MERGE) {
        stretch(Stretch.Kind.MERGING_TAPER, 0, merging, taperSpacing);
        return Optional.of(
            trace.add(
                "merging taper",
                merging,
                Unit.METER,
                "L = W S^2 / 60 to 40 mph, W S from 45 mph, in ft and mph",
                Mutcd.TAPER_SOURCE,
                width,
                posted));
      }
      if (passing == Passing.MERGE_TWICE) {
        stretch(Stretch.Kind.MERGING_TAPER, 0, merging, taperSpacing);
        stretch(Stretch.Kind.TANGENT, merging, 3 * merging, tangent);
        stretch(Stretch.Kind.MERGING_TAPER, 3 * merging, 4 * merging, taperSpacing);
        return Optional.of(
            trace.add(
                "two merging tapers",
                4 * merging,
                Unit.METER,
                "L + 2 L between them + L",
                Mutcd.TAPER_SOURCE + "; 2 L between tapers from memory",
                width,
                posted));
      }
      stretch(Stretch.Kind.SHIFTING_TAPER, 0, merging / 2, taperSpacing);
      return Optional.of(
          trace.add(
              "shifting taper",
              merging / 2,
              Unit.METER,
              "L / 2, L = W S^2 / 60 to 40 mph, W S from 45 mph, in ft and mph",
              Mutcd.CRITERIA_SOURCE,
              width,
              posted));
    }

    /** A shift goes back by a taper of its own; elsewhere a short one lets traffic out. */
    private Figure downstream() {
      if (passing == Passing.SHIFT) {
        return trace.add(
            "taper back",
            Mutcd.mergingTaperM(road.laneWidthM(), road.postedKmh()) / 2,
            Unit.METER,
            "L / 2 as in front",
            Mutcd.CRITERIA_SOURCE,
            posted);
      }
      return trace.add(
          "downstream taper",
          traffic.downstreamTaperM(),
          Unit.METER,
          "50 to 100 ft",
          Mutcd.CRITERIA_SOURCE);
    }

    /** Devices that close a shoulder: a wide one ahead of its lane, or the one worked on. */
    private int shoulder() {
      boolean aheadOfLane =
          (passing == Passing.MERGE || passing == Passing.MERGE_TWICE)
              && road.shoulderWidthM() >= traffic.shoulderClosedFromM() - 1e-9;
      if ((!aheadOfLane && passing != Passing.BESIDE) || road.shoulderWidthM() <= 0) {
        return 0;
      }
      Figure shoulder =
          trace.add(
              "shoulder taper",
              Mutcd.mergingTaperM(road.shoulderWidthM(), road.postedKmh()) / 3,
              Unit.METER,
              "L / 3 with the shoulder's width as W",
              Mutcd.CRITERIA_SOURCE,
              in("shoulder width W", road.shoulderWidthM(), Unit.METER),
              posted);
      stretches.add(
          0, new Stretch(Stretch.Kind.SHOULDER_TAPER, -shoulder.value(), 0, taperSpacing));
      return Mutcd.devices(shoulder.value(), taperSpacing);
    }
  }

  /** The same with people, boards and vehicles at their places. */
  Layout with(List<Station> standing) {
    return new Layout(
        zoneM, taperM, bufferM, downstreamM, devices, stretches, standing, turnedOver);
  }
}
