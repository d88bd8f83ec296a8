package lanemend.patching.traffic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.RoadSign;
import lanemend.patching.TrafficSettings.Edition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Which typical situation a zone gets, and the table of situations itself. */
class SituationTest {
  private static final double FT = Conversion.M_PER_FT;
  private static final double MPH = Conversion.KMH_PER_MPH;
  private final TrafficPlanner planner = new TrafficPlanner(PatchSettings.standard());

  /**
   * MUTCD 11th edition table 6P-1, p. 858-859 (transcribed in a public index; titles shortened
   * here): each number is the work we give it to.
   */
  @ParameterizedTest
  @CsvSource({
    "TA-3, Work on the Shoulders, SHOULDER_WORK",
    "TA-4, Short-Duration or Mobile Operation on a Shoulder, SHOULDER_SHORT",
    "TA-5, Shoulder Closure on a Freeway, SHOULDER_FREEWAY",
    "TA-6, Shoulder Work with Minor Encroachment, EDGE_OF_LANE",
    "TA-8, Roads Closed with an Off-Site Detour, ROAD_CLOSED_DETOUR",
    "TA-10, Lane Closure on a Two-Lane Road Using Flaggers, FLAGGERS",
    "TA-11, Lane Closure on a Two-Lane Road with Low Traffic Volumes, YIELDING",
    "TA-12, Lane Closure on a Two-Lane Road Using Traffic Control Signals, SIGNALS",
    "TA-17, Mobile Operations on a Two-Lane Road, MOBILE_TWO_LANE",
    "TA-18, Lane Closure on a Minor Street, MINOR_STREET",
    "TA-30, Interior Lane Closure on a Multi-Lane Street, INNER_LANE",
    "TA-33, Stationary Lane Closure on a Divided Highway, DIVIDED_ROAD",
    "TA-35, Mobile Operation on a Multi-Lane Road, MOBILE_SEVERAL_LANES",
    "TA-36, Lane Shift on a Freeway, ONTO_SHOULDER",
    "TA-37, Double Lane Closure on a Freeway, MIDDLE_LANE"
  })
  void numbersAreTheManuals(String code, String title, Situation situation) {
    assertEquals(code, situation.code(), title);
  }

  /**
   * MUTCD 11th edition tables 6G-1, p. 796, and 6H-1, p. 803-804 (transcribed in a public index):
   * the sign of each designation.
   */
  private static final Map<String, String> DESIGNATIONS =
      Map.ofEntries(
          Map.entry("R1-2", "Yield"),
          Map.entry("R1-2aP", "To Oncoming Traffic"),
          Map.entry("R10-6", "Stop Here on Red"),
          Map.entry("R11-2", "Road Closed"),
          Map.entry("W1-4", "Reverse Curve"),
          Map.entry("W3-2", "Yield Ahead"),
          Map.entry("W3-3", "Signal Ahead"),
          Map.entry("W3-4", "Be Prepared to Stop"),
          Map.entry("W4-2", "Lane Ends"),
          Map.entry("W20-1", "Road Work"),
          Map.entry("W20-2", "Detour"),
          Map.entry("W20-3", "Road Closed"),
          Map.entry("W20-4", "One Lane Road"),
          Map.entry("W20-5", "Lane Closed"),
          Map.entry("W20-5a", "Lanes Closed"),
          Map.entry("W20-7", "Flagger"),
          Map.entry("W21-1", "Workers"),
          Map.entry("W21-5", "Shoulder Work"),
          Map.entry("W21-5a", "Shoulder Closed"),
          Map.entry("W21-5b", "Shoulder Closed"),
          Map.entry("G20-2", "End Road Work"),
          Map.entry("G20-4", "Pilot Car Follow Me"));

  @ParameterizedTest
  @EnumSource(Situation.class)
  void everySignCarriesItsDesignation(Situation situation) {
    List<RoadSign> signs = new ArrayList<>(situation.ahead());
    signs.addAll(situation.others());
    signs.add(Signs.END);
    signs.add(Signs.FOLLOW_ME);
    for (RoadSign sign : signs) {
      String name = DESIGNATIONS.get(sign.code().replace("{side}", ""));
      String legend = sign.legend().toLowerCase(java.util.Locale.ROOT);
      assertTrue(name != null, sign.code() + " is not in the manual's tables");
      assertTrue(legend.contains(name.toLowerCase(java.util.Locale.ROOT)), sign.text());
    }
  }

  @ParameterizedTest
  @CsvSource({
    // two-lane roads
    "COLLECTOR, 55, 2, false, false, 2000, OUTER_LANE, 120, FLAGGERS",
    "COLLECTOR, 55, 2, false, false, 300, OUTER_LANE, 120, FLAGGERS",
    "COLLECTOR, 55, 2, false, false, 300, OUTER_LANE, 12, MOBILE_TWO_LANE",
    "COLLECTOR, 55, 2, false, false, 2000, OUTER_LANE, 12, FLAGGERS",
    "LOCAL, 25, 2, false, true, 350, OUTER_LANE, 120, MINOR_STREET",
    "LOCAL, 35, 2, false, true, 350, OUTER_LANE, 120, FLAGGERS",
    "COLLECTOR, 45, 3, false, true, 5000, OUTER_LANE, 120, INTO_TURN_LANE",
    // several lanes
    "ARTERIAL, 45, 4, false, true, 9000, OUTER_LANE, 120, OUTER_LANE",
    "ARTERIAL, 45, 4, false, true, 9000, INNER_LANE, 120, INNER_LANE",
    "ARTERIAL, 45, 6, false, true, 9000, MIDDLE_LANE, 120, MIDDLE_LANE",
    "ARTERIAL, 55, 2, true, false, 9000, OUTER_LANE, 120, DIVIDED_ROAD",
    "ARTERIAL, 55, 2, true, false, 9000, INNER_LANE, 120, DIVIDED_ROAD",
    "FREEWAY, 70, 3, true, false, 30000, MIDDLE_LANE, 120, MIDDLE_LANE",
    // a single lane one way: a ramp, or one roadway of a narrow divided road
    "ARTERIAL, 45, 1, true, false, 900, OUTER_LANE, 120, ONTO_SHOULDER",
    // shoulders of 10 ft
    "COLLECTOR, 55, 2, false, false, 2000, SHOULDER, 120, SHOULDER_WORK",
    "COLLECTOR, 55, 2, false, false, 2000, SHOULDER, 45, SHOULDER_SHORT",
    "FREEWAY, 70, 2, true, false, 12000, SHOULDER, 120, SHOULDER_FREEWAY"
  })
  void isChosenByRoadAndWork(
      RoadClass roadClass,
      double mph,
      int lanes,
      boolean oneDirection,
      boolean urban,
      double aadt,
      WorkPosition position,
      double minutes,
      Situation wanted) {
    RoadSetting road =
        new RoadSetting(
            roadClass, mph * MPH, lanes, 12 * FT, 10 * FT, oneDirection, urban, aadt, 0.08);
    // The short ones are done by hand.
    boolean machines = minutes > 60;
    ZoneWork work = new ZoneWork(road, 30, minutes, position, false, minutes, machines, Double.NaN);

    SituationChoice choice = planner.plan(work).choice();

    assertEquals(wanted, choice.situation(), choice.reason());
    assertTrue(!choice.reason().isBlank());
    assertTrue(choice.source().contains("MUTCD 11th edition"), choice.source());
  }

  /** A shoulder narrower than the machine: the lane beside it is closed. */
  @Test
  void closesTheLaneWhereTheShoulderIsTooNarrowForTheMachine() {
    RoadSetting narrow =
        new RoadSetting(RoadClass.COLLECTOR, 55 * MPH, 2, 12 * FT, 4 * FT, false, false, 900, 0.1);

    assertEquals(
        Situation.FLAGGERS,
        planner
            .plan(new ZoneWork(narrow, 30, 90, WorkPosition.SHOULDER, false, 90, true, Double.NaN))
            .choice()
            .situation());
  }

  /** TA-6 notes 1 and 2 (read): at least 10 ft of lane left, on a road of low speed. */
  @ParameterizedTest
  @CsvSource({
    "35, 2, false, EDGE_OF_LANE",
    "35, 2.5, false, FLAGGERS",
    "55, 2, false, FLAGGERS",
    "35, 2, true, FLAGGERS"
  })
  void leavesTenFeetBesideWorkAtTheEdge(
      double mph, double reachFt, boolean machines, Situation wanted) {
    RoadSetting road =
        new RoadSetting(RoadClass.LOCAL, mph * MPH, 2, 12 * FT, 2 * FT, false, false, 900, 0.02);
    ZoneWork work =
        new ZoneWork(road, 20, 60, WorkPosition.OUTER_LANE, false, 40, machines, reachFt * FT);

    assertEquals(wanted, planner.plan(work).choice().situation());
  }

  @Test
  void namesWhatElseMayApply() {
    RoadSetting quiet =
        new RoadSetting(RoadClass.LOCAL, 45 * MPH, 2, 11 * FT, 2 * FT, false, false, 250, 0.02);
    Map<Situation, String> others = new HashMap<>();
    planner
        .plan(ZoneWork.inLane(quiet, 30, 120))
        .choice()
        .others()
        .forEach(o -> others.put(o.situation(), o.when()));

    // TA-11 notes (read): gaps enough, and drivers see through and beyond the work.
    assertTrue(others.get(Situation.YIELDING).contains("see across the work"));
    assertTrue(others.containsKey(Situation.SIGNALS));
    assertTrue(others.containsKey(Situation.PILOT_CAR));
  }

  @Test
  void namesTheFigureInTheEditionInForce() {
    assertTrue(
        Situation.FLAGGERS.source(Edition.MUTCD_11).startsWith("MUTCD 11th edition figure 6P-10"));
    assertTrue(
        Situation.FLAGGERS
            .source(Edition.MUTCD_2009)
            .startsWith("MUTCD 2009 edition figure 6H-10"));
  }

  /**
   * Given work in the inner lane of a divided road, then LEFT signs at both edges: notes for figure
   * 6P-33, note 1, p. 924, and its drawing, p. 925 (as quoted).
   */
  @Test
  void tellsTheSideOfTheClosedLane() {
    RoadSetting divided =
        new RoadSetting(RoadClass.ARTERIAL, 55 * MPH, 2, 12 * FT, 8 * FT, true, false, 9000, 0.1);
    TrafficPlan plan =
        planner.plan(
            new ZoneWork(divided, 60, 120, WorkPosition.INNER_LANE, false, 60, true, Double.NaN));

    assertEquals(
        List.of(
            "ROAD WORK AHEAD (W20-1)",
            "LEFT LANE CLOSED AHEAD (W20-5L)",
            "lane ends symbol (W4-2L)",
            "END ROAD WORK (G20-2)"),
        plan.signs().stream().map(s -> s.sign().text()).toList());
    assertTrue(plan.signs().stream().allMatch(s -> s.boards() == 2));
  }

  /**
   * Figure 6H-18 in words (2003, read): one workers sign A ahead each way, taper 100 ft at most.
   */
  @Test
  void putsOneSignEachWayOnAMinorStreet() {
    RoadSetting street =
        new RoadSetting(RoadClass.LOCAL, 25 * MPH, 2, 11 * FT, 0, false, true, 300, 0.02);
    TrafficPlan plan = planner.plan(ZoneWork.inLane(street, 20, 90));

    List<TrafficPlan.SignPlacement> ahead =
        plan.signs().stream().filter(s -> s.beforeWorkM() > 0).toList();
    assertEquals(2, ahead.size());
    ahead.forEach(
        s -> {
          assertEquals("W21-1", s.sign().code());
          assertEquals(100, s.beforeWorkM() / FT, 1e-9);
        });
    assertEquals(0, plan.flaggers());
    assertTrue(plan.figure("one-lane two-way taper").orElseThrow().value() <= 100 * FT + 1e-9);
  }

  /** Figure 6H-17 in words (2009, read): a shadow vehicle, its board in caution mode if any. */
  @Test
  void movesWithTheWorkOnAQuietRoad() {
    RoadSetting quiet =
        new RoadSetting(RoadClass.LOCAL, 45 * MPH, 2, 11 * FT, 2 * FT, false, false, 250, 0.02);
    TrafficPlan plan =
        planner.plan(
            new ZoneWork(quiet, 300, 40, WorkPosition.OUTER_LANE, false, 10, false, Double.NaN));

    assertEquals(Situation.MOBILE_TWO_LANE, plan.choice().situation());
    assertEquals(0, plan.figure("channelizing devices").orElseThrow().value());
    assertTrue(plan.devices().toString().contains("shadow vehicle"), plan.devices().toString());
    assertTrue(plan.signs().isEmpty());
  }

  /** Two lanes of a freeway closed one after the other: L, 2 L between (from memory), L. */
  @Test
  void mergesTwicePastAMiddleLane() {
    RoadSetting freeway =
        new RoadSetting(RoadClass.FREEWAY, 65 * MPH, 3, 12 * FT, 10 * FT, true, false, 30_000, 0.1);
    TrafficPlan plan =
        planner.plan(
            new ZoneWork(freeway, 60, 120, WorkPosition.MIDDLE_LANE, false, 60, true, Double.NaN));

    assertEquals(4 * 780, plan.layout().taperM() / FT, 1e-6);
    // TA-37 note 1 (read): a separate arrow board for each closed lane.
    assertEquals(
        2,
        plan.layout().stations().stream()
            .filter(s -> s.kind() == Station.Kind.ARROW_BOARD)
            .count());
  }

  /** The stretches of a layout join without a gap, from the first taper to the end of the last. */
  @ParameterizedTest
  @EnumSource(WorkPosition.class)
  void stretchesJoin(WorkPosition position) {
    for (int lanes = 1; lanes <= 6; lanes++) {
      for (boolean oneWay : new boolean[] {false, true}) {
        RoadSetting road =
            new RoadSetting(
                RoadClass.ARTERIAL, 55 * MPH, lanes, 12 * FT, 8 * FT, oneWay, false, 3000, 0.1);
        Layout layout =
            planner
                .plan(new ZoneWork(road, 40, 120, position, false, 50, true, Double.NaN))
                .layout();
        double at = layout.stretches().get(0).fromM();
        for (Stretch stretch : layout.stretches()) {
          assertEquals(at, stretch.fromM(), 1e-9);
          at = stretch.toM();
        }
        assertEquals(layout.closureM(), at, 1e-9);
        Stretch work =
            layout.stretches().stream()
                .filter(s -> s.kind() == Stretch.Kind.WORK)
                .findFirst()
                .orElseThrow();
        assertEquals(layout.workFromM(), work.fromM(), 1e-9);
        assertEquals(40, work.lengthM(), 1e-9);
      }
    }
  }
}
