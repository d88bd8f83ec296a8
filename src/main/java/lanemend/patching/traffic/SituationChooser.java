package lanemend.patching.traffic;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.RoadClass;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficSettings;

/**
 * Chooses the typical situation by the road's lanes, class, speed and traffic and by the work's
 * place, length and time. Each rule that fits says why; the first that fits and that the agency
 * allows is planned, and those that would be right on a condition nobody has on record are named
 * beside it.
 */
final class SituationChooser {
  private static final double DRIVABLE_SHOULDER_M = 10 * Conversion.M_PER_FT;
  private static final double EPS = 1e-9;

  private final TrafficSettings traffic;
  private final LengthWords lengths;

  SituationChooser(TrafficSettings traffic, UnitSystem units) {
    this.traffic = traffic;
    this.lengths = new LengthWords(units);
  }

  private record Candidate(Situation situation, Supplier<String> reason) {}

  /** What fits, best first, and what may. */
  private static final class Found {
    private final List<Candidate> fit = new ArrayList<>();
    private final List<SituationChoice.Other> may = new ArrayList<>();

    void fits(boolean so, Situation situation, Supplier<String> reason) {
      if (so) {
        fit.add(new Candidate(situation, reason));
      }
    }

    void may(boolean so, Situation situation, Supplier<String> when) {
      if (so) {
        may.add(new SituationChoice.Other(situation, when.get()));
      }
    }
  }

  SituationChoice choose(ZoneWork work) {
    Found found = new Found();
    beside(work, found);
    RoadSetting road = work.setting();
    if (road.severalLanesEachWay()) {
      severalLanes(work, found);
    } else if (road.oneDirection()) {
      singleLane(road, found);
    } else if (road.lanes() == 3) {
      found.fits(
          true,
          Situation.INTO_TURN_LANE,
          () -> "two-way road with a middle lane to shift traffic into");
      found.may(true, Situation.FLAGGERS, () -> "where the middle lane cannot be taken");
    } else {
      twoLanes(work, found);
    }
    return firstAllowed(found);
  }

  private SituationChoice firstAllowed(Found found) {
    List<SituationChoice.Other> others = new ArrayList<>();
    Candidate chosen = null;
    String passedOver = "";
    for (Candidate candidate : found.fit) {
      boolean used = traffic.agency().of(candidate.situation().key()).used();
      if (chosen == null && used) {
        chosen = candidate;
      } else if (used) {
        others.add(new SituationChoice.Other(candidate.situation(), candidate.reason().get()));
      } else if (chosen == null) {
        passedOver += "; not " + candidate.situation().code() + ", which the agency does not use";
      }
    }
    if (chosen == null) {
      chosen = found.fit.get(found.fit.size() - 1);
      passedOver = "; the agency does not use it, and no other situation fits";
    }
    for (SituationChoice.Other other : found.may) {
      if (other.situation() != chosen.situation()
          && others.stream().noneMatch(o -> o.situation() == other.situation())
          && traffic.agency().of(other.situation().key()).used()) {
        others.add(other);
      }
    }
    return new SituationChoice(
        chosen.situation(),
        chosen.reason().get() + passedOver,
        chosen.situation().source(traffic.edition()),
        others);
  }

  /** Work that leaves the lanes open. */
  private void beside(ZoneWork work, Found found) {
    RoadSetting road = work.setting();
    TrafficSettings.Choice limits = traffic.choice();
    boolean wide = road.shoulderWidthM() >= traffic.shoulderClosedFromM() - EPS;
    if (work.position() == WorkPosition.SHOULDER && (wide || !work.machines())) {
      String room =
          wide ? "all work is on a shoulder as wide as a machine" : "handwork on the shoulder";
      found.fits(
          work.workMinutes() <= limits.shortMinutes() && !work.machines(),
          Situation.SHOULDER_SHORT,
          () -> room + ", of short duration");
      boolean freeway = road.roadClass() == RoadClass.FREEWAY;
      found.fits(true, freeway ? Situation.SHOULDER_FREEWAY : Situation.SHOULDER_WORK, () -> room);
    }
    double left = road.laneWidthM() - work.intrusionM();
    boolean room =
        work.position() == WorkPosition.OUTER_LANE
            && left >= limits.leastLaneM() - EPS
            && road.postedKmh() <= limits.encroachUpToKmh() + EPS;
    found.fits(
        room && !work.machines(),
        Situation.EDGE_OF_LANE,
        () ->
            "handwork at the edge leaves "
                + shown(left)
                + " of the lane, least "
                + shown(limits.leastLaneM()));
    found.may(
        room && work.machines(),
        Situation.EDGE_OF_LANE,
        () -> "where machines keep off the lane: " + shown(left) + " of it stay open");
  }

  private void severalLanes(ZoneWork work, Found found) {
    RoadSetting road = work.setting();
    TrafficSettings.Choice limits = traffic.choice();
    boolean brief = work.longestSpotMinutes() <= limits.mobileUpToMinutes() && !work.machines();
    found.fits(
        brief && limits.shadowVehicles() > 0,
        Situation.MOBILE_SEVERAL_LANES,
        () -> "handwork of " + upTo(limits.mobileUpToMinutes()) + " at each place");
    found.may(
        brief && limits.shadowVehicles() == 0,
        Situation.MOBILE_SEVERAL_LANES,
        () -> "where two shadow vehicles with arrow boards can be sent");
    Situation closed =
        work.position() == WorkPosition.MIDDLE_LANE
            ? Situation.MIDDLE_LANE
            : road.oneDirection()
                ? Situation.DIVIDED_ROAD
                : work.position() == WorkPosition.INNER_LANE
                    ? Situation.INNER_LANE
                    : Situation.OUTER_LANE;
    found.fits(
        true,
        closed,
        () ->
            road.lanesEachWay()
                + (road.oneDirection() ? " lanes one way" : " lanes each way")
                + ", work in "
                + work.position().words());
  }

  private void singleLane(RoadSetting road, Found found) {
    boolean drivable = road.shoulderWidthM() >= DRIVABLE_SHOULDER_M - EPS;
    found.fits(
        true,
        drivable ? Situation.ONTO_SHOULDER : Situation.ROAD_CLOSED_DETOUR,
        () ->
            "one lane one way, shoulder of "
                + shown(road.shoulderWidthM())
                + ", least to drive on "
                + shown(DRIVABLE_SHOULDER_M));
  }

  private void twoLanes(ZoneWork work, Found found) {
    RoadSetting road = work.setting();
    TrafficSettings.Choice limits = traffic.choice();
    boolean quiet = road.aadt() <= limits.lowVolumeAadt();
    boolean brief = work.longestSpotMinutes() <= limits.mobileUpToMinutes() && !work.machines();
    found.fits(
        brief && quiet,
        Situation.MOBILE_TWO_LANE,
        () ->
            "handwork of " + upTo(limits.mobileUpToMinutes()) + " at each place, " + volume(road));
    found.fits(
        quiet && road.urban() && road.postedKmh() <= limits.lowSpeedKmh() + EPS,
        Situation.MINOR_STREET,
        () -> "slow urban street, " + volume(road));
    found.fits(
        limits.signalsFromMinutes() > 0 && work.workMinutes() >= limits.signalsFromMinutes(),
        Situation.SIGNALS,
        () ->
            "two lanes, work of "
                + Math.round(work.workMinutes())
                + " min, signals from "
                + Math.round(limits.signalsFromMinutes())
                + " min");
    found.fits(
        road.aadt() <= limits.yieldUpToAadt(),
        Situation.YIELDING,
        () -> "two lanes, " + volume(road) + ", few enough to yield to each other");
    double closure = Layout.closureByTurnsM(work, traffic);
    boolean far = closure > traffic.pilotCarFromM();
    found.fits(
        true,
        far ? Situation.PILOT_CAR : Situation.FLAGGERS,
        () ->
            "two lanes, closure of "
                + shown(closure)
                + ", flaggers alone to "
                + shown(traffic.pilotCarFromM()));
    found.may(
        quiet && limits.yieldUpToAadt() < road.aadt(),
        Situation.YIELDING,
        () -> "where drivers of both directions see across the work and gaps are enough");
    found.may(
        limits.signalsFromMinutes() <= 0,
        Situation.SIGNALS,
        () -> "where portable signals are at hand and the work stays long");
    found.may(!far, Situation.PILOT_CAR, () -> "where the way past the work is hard to follow");
  }

  private static String volume(RoadSetting road) {
    return Math.round(road.aadt()) + " vehicles a day";
  }

  private String upTo(double minutes) {
    return Math.round(minutes) + " min or less";
  }

  private String shown(double metres) {
    return lengths.text(metres);
  }
}
