package lanemend.patching.traffic;

import static lanemend.patching.traffic.Signs.DETOUR;
import static lanemend.patching.traffic.Signs.FLAGGER;
import static lanemend.patching.traffic.Signs.LANE_CLOSED;
import static lanemend.patching.traffic.Signs.LANE_ENDS;
import static lanemend.patching.traffic.Signs.ONE_LANE_ROAD;
import static lanemend.patching.traffic.Signs.PREPARE_TO_STOP;
import static lanemend.patching.traffic.Signs.REVERSE_CURVE;
import static lanemend.patching.traffic.Signs.ROAD_CLOSED;
import static lanemend.patching.traffic.Signs.ROAD_CLOSED_AHEAD;
import static lanemend.patching.traffic.Signs.ROAD_WORK;
import static lanemend.patching.traffic.Signs.SHOULDER_CLOSED;
import static lanemend.patching.traffic.Signs.SHOULDER_CLOSED_AHEAD;
import static lanemend.patching.traffic.Signs.SIGNAL_AHEAD;
import static lanemend.patching.traffic.Signs.STOP_HERE_ON_RED;
import static lanemend.patching.traffic.Signs.TO_ONCOMING;
import static lanemend.patching.traffic.Signs.TWO_LANES_CLOSED;
import static lanemend.patching.traffic.Signs.WORKERS;
import static lanemend.patching.traffic.Signs.WORK_ON_SHOULDER;
import static lanemend.patching.traffic.Signs.YIELD;
import static lanemend.patching.traffic.Signs.YIELD_AHEAD;

import java.util.List;
import java.util.Locale;
import lanemend.patching.RoadSign;
import lanemend.patching.TrafficSettings.Edition;

/**
 * Typical situations of the MUTCD's Part 6 that patching needs: the table behind every
 * traffic-control plan. The number of each (TA-10 and so on) is that of the 11th edition's index of
 * typical applications, table 6P-1, p. 858-859 (as transcribed in a public index), and the same in
 * the 2009 edition's table 6H-1. Where the signs of a figure were read, and where they are from
 * memory, stands with each; an agency can put its own in their place.
 */
public enum Situation {
  /** Signs from memory; shoulder taper, table 6B-3. */
  SHOULDER_WORK(
      3,
      "work on the shoulder",
      Passing.BESIDE,
      Arrow.NONE,
      List.of(WORK_ON_SHOULDER, ROAD_WORK),
      List.of(ROAD_WORK),
      "figure from memory"),
  /** Figure read in words: one sign ahead, a sign and lights on the vehicle. */
  SHOULDER_SHORT(
      4,
      "short work on the shoulder, nothing set on the road",
      Passing.MOVING,
      Arrow.CAUTION,
      List.of(ROAD_WORK),
      List.of(),
      "2003 figure read in words"),
  /** Signs of figure 6P-5 as listed in a public index. */
  SHOULDER_FREEWAY(
      5,
      "shoulder closed on a freeway",
      Passing.BESIDE,
      Arrow.NONE,
      List.of(SHOULDER_CLOSED, SHOULDER_CLOSED_AHEAD, ROAD_WORK),
      List.of(),
      "notes read, signs as quoted"),
  /** Notes read; signs of figure 6P-6 as listed in a public index. */
  EDGE_OF_LANE(
      6,
      "work at the edge of a lane, traffic keeps the lane",
      Passing.BESIDE,
      Arrow.NONE,
      List.of(ROAD_WORK),
      List.of(ROAD_WORK),
      "notes read, signs as quoted"),
  /** Signs from memory; the detour itself is the agency's to plan. */
  ROAD_CLOSED_DETOUR(
      8,
      "the only lane closed, traffic on a detour",
      Passing.CLOSED,
      Arrow.NONE,
      List.of(ROAD_CLOSED, ROAD_CLOSED_AHEAD, DETOUR, ROAD_WORK),
      List.of(ROAD_CLOSED, ROAD_CLOSED_AHEAD, DETOUR, ROAD_WORK),
      "figure from memory"),
  /** Signs of figure 6P-10 as quoted; BE PREPARED TO STOP is the manual's option. */
  FLAGGERS(
      10,
      "one lane closed on a two-lane road, flaggers at both ends",
      Passing.BY_TURNS,
      Arrow.NONE,
      List.of(FLAGGER, PREPARE_TO_STOP, ONE_LANE_ROAD, ROAD_WORK),
      List.of(FLAGGER, PREPARE_TO_STOP, ONE_LANE_ROAD, ROAD_WORK),
      "signs as quoted"),
  /** As flaggers, who stay at both ends (FHWA interpretation 6(09)-5, read). */
  PILOT_CAR(
      10,
      "one lane closed on a two-lane road, flaggers and a pilot car",
      Passing.BY_TURNS,
      Arrow.NONE,
      List.of(FLAGGER, PREPARE_TO_STOP, ONE_LANE_ROAD, ROAD_WORK),
      List.of(FLAGGER, PREPARE_TO_STOP, ONE_LANE_ROAD, ROAD_WORK),
      "signs as quoted; section 6C.13 of 2009 as FHWA interpretation 6(09)-5 states it (read)"),
  /** Notes read: gaps enough, and drivers see across the work. Signs from memory. */
  YIELDING(
      11,
      "one lane closed on a two-lane road, drivers yield to each other",
      Passing.BY_TURNS,
      Arrow.NONE,
      List.of(YIELD, TO_ONCOMING, YIELD_AHEAD, ONE_LANE_ROAD, ROAD_WORK),
      List.of(ONE_LANE_ROAD, ROAD_WORK),
      "notes read, signs from memory"),
  /** Notes read; ROAD WORK and ONE LANE ROAD read there, the others from memory. */
  SIGNALS(
      12,
      "one lane closed on a two-lane road, temporary signals",
      Passing.BY_TURNS,
      Arrow.NONE,
      List.of(STOP_HERE_ON_RED, SIGNAL_AHEAD, ONE_LANE_ROAD, ROAD_WORK),
      List.of(STOP_HERE_ON_RED, SIGNAL_AHEAD, ONE_LANE_ROAD, ROAD_WORK),
      "notes read, two signs from memory"),
  /** Figure and notes read: signs are on the vehicles. */
  MOBILE_TWO_LANE(
      17,
      "mobile operation on a two-lane road",
      Passing.MOVING,
      Arrow.CAUTION,
      List.of(),
      List.of(),
      "figure read in words, notes read"),
  /** Figure read in words: one sign each way, a taper of at most 100 ft. */
  MINOR_STREET(
      18,
      "one lane closed on a minor street, drivers let each other through",
      Passing.BY_TURNS,
      Arrow.NONE,
      List.of(WORKERS),
      List.of(WORKERS),
      "2003 figure read in words"),
  /** Notes read; signs of figure 6P-30 as quoted, for each direction. */
  INNER_LANE(
      30,
      "the inner lane closed on a road of several lanes, undivided",
      Passing.MERGE,
      Arrow.ARROW,
      List.of(LANE_ENDS, LANE_CLOSED, ROAD_WORK),
      List.of(ROAD_WORK),
      "notes read, signs as quoted"),
  /** Section 6N.11 asks for a merging taper (as quoted); the signs are those of TA-33. */
  OUTER_LANE(
      33,
      "the outer lane closed on a road of several lanes, undivided",
      Passing.MERGE,
      Arrow.ARROW,
      List.of(LANE_ENDS, LANE_CLOSED, ROAD_WORK),
      List.of(ROAD_WORK),
      "signs as quoted, put on one side of an undivided road (common practice)"),
  /** Figure 6P-33, p. 925, as quoted: every sign at both edges. */
  DIVIDED_ROAD(
      33,
      "one lane closed on a one-way roadway of several lanes, traffic merges",
      Passing.MERGE,
      Arrow.ARROW,
      List.of(LANE_ENDS, LANE_CLOSED, ROAD_WORK),
      List.of(),
      "signs as quoted"),
  /** Notes read: shadow vehicles with arrow boards. */
  MOBILE_SEVERAL_LANES(
      35,
      "mobile operation on a road of several lanes",
      Passing.MOVING,
      Arrow.ARROW,
      List.of(),
      List.of(),
      "notes read"),
  /** Notes read for a freeway; 10 ft of shoulder to drive on. */
  ONTO_SHOULDER(
      36,
      "the only lane closed, traffic shifted onto the shoulder",
      Passing.SHIFT,
      Arrow.NONE,
      List.of(REVERSE_CURVE, ROAD_WORK),
      List.of(),
      "notes read, signs from memory"),
  /** A lane between others is closed with the lane outside of it. From memory. */
  MIDDLE_LANE(
      37,
      "a middle lane closed with the lane outside of it, traffic merges twice",
      Passing.MERGE_TWICE,
      Arrow.ARROW,
      List.of(LANE_ENDS, TWO_LANES_CLOSED, ROAD_WORK),
      List.of(ROAD_WORK),
      "notes read, signs and the length between the tapers from memory"),
  /** No typical application has a middle turn lane to shift into: shifting tapers, table 6B-3. */
  INTO_TURN_LANE(
      0,
      "one lane closed, traffic shifted into the middle lane",
      Passing.SHIFT,
      Arrow.NONE,
      List.of(REVERSE_CURVE, ROAD_WORK),
      List.of(REVERSE_CURVE, ROAD_WORK),
      "no typical application of its own; common practice");

  /** What an arrow board shows. */
  public enum Arrow {
    NONE,
    /** Four corners or a bar: no direction is meant. */
    CAUTION,
    ARROW
  }

  private final int number;
  private final String words;
  private final Passing passing;
  private final Arrow arrow;

  // Both come from List.of and cannot change; the checker sees only their type.
  @SuppressWarnings("ImmutableEnumChecker")
  private final List<RoadSign> ahead;

  @SuppressWarnings("ImmutableEnumChecker")
  private final List<RoadSign> others;

  private final String seen;

  Situation(
      int number,
      String words,
      Passing passing,
      Arrow arrow,
      List<RoadSign> ahead,
      List<RoadSign> others,
      String seen) {
    this.number = number;
    this.words = words;
    this.passing = passing;
    this.arrow = arrow;
    this.ahead = ahead;
    this.others = others;
    this.seen = seen;
  }

  /** Number in the manual, {@code TA-10}; a dash where the manual has none. */
  public String code() {
    return number == 0 ? "-" : "TA-" + number;
  }

  public String words() {
    return words;
  }

  /** Edition, figure and how much of it was read. */
  public String source(Edition edition) {
    return number == 0
        ? edition.words() + ": " + seen
        : edition.words()
            + " figure "
            + edition.figures()
            + "-"
            + number
            + " (TA-"
            + number
            + "; "
            + seen
            + ")";
  }

  /** By which an agency names it: {@code flaggers}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** True where both directions take turns in one lane. */
  public boolean byTurns() {
    return passing == Passing.BY_TURNS;
  }

  /** True where nothing stands on the road and the vehicles move with the work. */
  public boolean moving() {
    return passing == Passing.MOVING;
  }

  Passing passing() {
    return passing;
  }

  Arrow arrow() {
    return arrow;
  }

  /** Signs for the traffic of the closed lane, nearest to the work first. */
  List<RoadSign> ahead() {
    return ahead;
  }

  /** Signs for the other direction of a two-way road, nearest to the work first. */
  List<RoadSign> others() {
    return others;
  }

  /** True where both directions are held at the ends of the closure, by people or signals. */
  boolean holdsBothWays() {
    return flagged() || this == SIGNALS;
  }

  /** True where flaggers hold the traffic. */
  boolean flagged() {
    return this == FLAGGERS || this == PILOT_CAR;
  }
}
