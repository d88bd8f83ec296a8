package lanemend.patching.traffic;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.UnitSystem;
import lanemend.network.RoadClass;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficSettings;

/** What a plan of traffic control leaves for people to look at, and where it is near a limit. */
final class TrafficCautions {
  private static final String REVIEW =
      "Plan for review: the MUTCD, agency and permit conditions rule.";

  private final TrafficSettings traffic;
  private final LengthWords lengths;

  TrafficCautions(TrafficSettings traffic, UnitSystem units) {
    this.traffic = traffic;
    this.lengths = new LengthWords(units);
  }

  List<String> of(SituationChoice choice, ZoneWork work, Layout layout) {
    double closureM = layout.closureM();
    Situation situation = choice.situation();
    List<String> cautions = new ArrayList<>();
    cautions.add(REVIEW);
    String note = traffic.agency().of(situation.key()).note();
    if (!note.isBlank()) {
      cautions.add("Agency: " + note);
    }
    switch (situation.passing()) {
      case BY_TURNS -> byTurns(situation, work, closureM, cautions);
      case MERGE, MERGE_TWICE -> merge(situation, work, cautions);
      case SHIFT -> shift(situation, cautions);
      case CLOSED ->
          cautions.add(
              "Nothing is left to drive on: the agency has to approve a detour and tell emergency"
                  + " services; its delay is not in the cost.");
      case BESIDE ->
          cautions.add(
              "Nobody and nothing steps past the channelizing devices into the open lane; if it"
                  + " must, close the lane.");
      case MOVING ->
          cautions.add(
              "Vehicles show high-intensity rotating, flashing or strobe lights; pull over where it"
                  + " is safe so that traffic can pass; work off the peak.");
    }
    if (layout.turnedOver()) {
      turnedOver(situation, cautions);
    }
    if (work.severalLanes()) {
      cautions.add(
          "Repairs lie in more than one lane: close one at a time and set the zone up anew for the"
              + " next.");
    }
    if (work.setting().roadClass() == RoadClass.FREEWAY) {
      cautions.add(
          "Near a ramp the manual has situations of its own (TA-42 to TA-44): ramps are not in the"
              + " road data.");
    }
    if (work.workMinutes() <= traffic.choice().shortMinutes()) {
      cautions.add(
          "An hour or less is short duration: the agency may allow fewer devices; speed and sight"
              + " distance decide.");
    }
    cautions.add(
        "Check sight distance, side roads, driveways and walkers on the spot; add signs for each"
            + " road that joins inside the zone.");
    return cautions;
  }

  /** One lane is closed after the other within the same signs. */
  private static void turnedOver(Situation situation, List<String> cautions) {
    cautions.add(
        "Turning the closure over: all traffic is held at both ends, and the closure is seen to be"
            + " empty, before the first device is moved; it stays held until the last one stands"
            + " and crew and machines are in the lane newly closed. "
            + (situation.flagged()
                ? "The flaggers stay in touch all the while, and neither lets traffic go before"
                    + " both have the word."
                : "The signals show red both ways all the while, by whom the agency authorises.")
            + " Each lane closed has its taper and buffer towards its own traffic. Nobody"
            + " works in a lane that traffic uses. The agency, its permits and local"
            + " rules decide whether a closure may be turned over at all: where they do not allow"
            + " it, or it would hold traffic too long, take the zone down and set it up anew for"
            + " the other side.");
    cautions.add(
        "Before the closure is turned over the first side must bear traffic: mix rolled and cool"
            + " enough, no open cut, edge or loose stone left, tack broken, lane swept.");
  }

  private void byTurns(Situation situation, ZoneWork work, double closureM, List<String> cautions) {
    RoadSetting road = work.setting();
    switch (situation) {
      case PILOT_CAR ->
          cautions.add(
              "The closure is longer than flaggers hold alone here: some agencies ask for a pilot"
                  + " car over a quarter mile (Iowa DOT Design Manual 9C-3); shorten it or use one,"
                  + " with a flagger at each end.");
      case SIGNALS ->
          cautions.add(
              "Signal timing is set by whom the agency authorises; the red must clear the closure,"
                  + " and both ends never show green (TA-12).");
      case YIELDING, MINOR_STREET ->
          cautions.add(
              "Drivers control themselves only where both see across the work and gaps are enough:"
                  + " stand ready to flag.");
      default -> {}
    }
    double vehicles = road.aadt() * traffic.delay().hourShare();
    if (vehicles > traffic.mostOneLaneVehiclesPerHour()) {
      cautions.add(
          Math.round(vehicles)
              + " vehicles an hour is more than one alternating lane should carry: work outside"
              + " the peak, or widen past the work.");
    }
    AlternatingTraffic flow =
        new AlternatingTraffic(traffic.delay(), AlternatingTraffic.Control.of(situation));
    double longest = longestM(flow, road, traffic.delay().hourShare());
    if (closureM > longest) {
      cautions.add(
          longest <= 0
              ? "No closure is short enough for one lane to carry this traffic by turns: work off"
                  + " the peak or at night."
              : "One lane carries this traffic by turns over a closure of "
                  + lengths.text(longest)
                  + " at most: shorten the zone or work off the peak.");
    }
    hoursToAvoid(road, flow, closureM, cautions);
    if (situation.flagged()) {
      cautions.add(
          "Flaggers are certified, see each other or have radios, and stand where drivers see"
              + " them with a way out behind.");
    }
  }

  /** Hours in which, by the agency's counts, one lane does not carry the traffic by turns. */
  private void hoursToAvoid(
      RoadSetting road, AlternatingTraffic flow, double closureM, List<String> cautions) {
    List<Double> shares = traffic.agency().hourShares();
    List<String> hours = new ArrayList<>();
    for (int h = 0; h < shares.size(); h++) {
      if (road.aadt() * shares.get(h) > traffic.mostOneLaneVehiclesPerHour()
          || closureM > longestM(flow, road, shares.get(h))) {
        hours.add(h + ":00");
      }
    }
    if (!hours.isEmpty()) {
      cautions.add(
          "By the agency's hourly counts one lane does not carry the traffic by turns in the hours"
              + " from "
              + String.join(", ", hours)
              + ": keep them open.");
    }
  }

  private static void merge(Situation situation, ZoneWork work, List<String> cautions) {
    cautions.add(
        "Signs and arrow are for the "
            + (work.onTheRight() ? "right" : "left")
            + " lane, as the repairs lie: look that it is so before you set up.");
    if (work.setting().oneDirection()) {
      cautions.add("Put each advance sign on both sides of the roadway.");
    }
    if (situation == Situation.INNER_LANE) {
      cautions.add(
          "Beside oncoming traffic: close its inner lane as well where the work or machines reach"
              + " the centreline (TA-30).");
    }
  }

  private static void shift(Situation situation, List<String> cautions) {
    cautions.add(
        situation == Situation.INTO_TURN_LANE
            ? "The middle lane is assumed to be a turn lane: look before you shift."
            : "See first that the shoulder carries the traffic and no ditch is near.");
  }

  private double longestM(AlternatingTraffic flow, RoadSetting road, double hourShare) {
    return flow.longestClosureM(
        flow.demand(road, hourShare), traffic.choice().longestWaitSeconds());
  }
}
