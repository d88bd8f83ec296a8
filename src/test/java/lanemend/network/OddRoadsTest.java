package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.GROUND;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.heading;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;

/** Roads that a plain line with rising numbers is not: what is ambiguous is asked about. */
class OddRoadsTest {
  private static final double MILE = 1609.344;

  private static CalibrationPost post(double alongM, double back, double ahead) {
    return new CalibrationPost(alongM, back, ahead);
  }

  @Test
  void fallingNumbersThatJumpBackUpOccurTwice() {
    // Given numbers that fall from 10; at mile 4 of the road, 6.0 back = 6.5 ahead
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(post(0, 10, 10), post(4 * MILE, 6, 6.5), post(8 * MILE, 2.5, 2.5)), 8 * MILE);
    MilepostLookup.Ambiguous twice =
        assertInstanceOf(MilepostLookup.Ambiguous.class, map.find(Milepost.of(6.25)));
    // then 6.25 is at 3.75 miles of road (back) and at 4.25 (ahead)
    assertEquals(3.75 * MILE, twice.choices().get(0).alongM(), 1e-6);
    assertEquals(4.25 * MILE, twice.choices().get(1).alongM(), 1e-6);
    assertEquals("6.250 back", map.at(3.75 * MILE).text());
    assertEquals("6.250 ahead", map.at(4.25 * MILE).text());
    assertEquals("3.000", map.at(7.5 * MILE).text());
  }

  @Test
  void fallingNumbersThatJumpDownLeaveAGap() {
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(post(0, 10, 10), post(4 * MILE, 6, 5), post(8 * MILE, 1, 1)), 8 * MILE);
    String why = assertInstanceOf(MilepostLookup.Missing.class, map.find(Milepost.of(5.5))).why();
    assertEquals(
        "milepost 5.500 does not exist: the equation 6.000 back = 5.000 ahead skips it", why);
  }

  /** Any map of falling or rising numbers with an equation of either kind leads back. */
  @RepeatedTest(20)
  void everyPlaceIsFoundAgainByItsMilepost(RepetitionInfo round) {
    Random random = new Random(round.getCurrentRepetition());
    double sign = random.nextBoolean() ? 1 : -1;
    double jump = (random.nextDouble() - 0.5) * 2;
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(
                post(0, 50, 50),
                post(5_000, 50 + 3 * sign, 50 + 3 * sign + jump),
                post(12_000, 50 + 8 * sign + jump, 50 + 8 * sign + jump)),
            13_000);
    for (int i = 0; i < 500; i++) {
      double along = 13_000 * random.nextDouble();
      MilepostLookup found = map.find(map.at(along));
      assertEquals(along, assertInstanceOf(MilepostLookup.Found.class, found).alongM(), 1e-5);
    }
  }

  @Test
  void aPointOnARoadsOwnCrossingIsTwoPlacesOfItAndHeadingTells() {
    Network network =
        assemble(
                line(
                    "r:1", "SR 1", 0, 0, 1_000, 0, 1_900, 0, 1_900, 900, 1_000, 900, 1_000, 0,
                    1_000, -1_000))
            .network();
    Locator locator = new Locator(network);
    List<Candidate> both = locator.candidates(EAST + 1_001, NORTH + 1, 30, SnapHint.NONE);
    assertEquals(2, both.size());
    assertTrue(both.get(0).confidence() < 0.8, both.toString());
    SnapHint east = new SnapHint(OptionalDouble.of(90), Optional.empty(), 5);
    Candidate best = locator.candidates(EAST + 1_004, NORTH + 4, 30, east).get(0);
    assertTrue(best.confidence() > 0.8);
    // It is the place on the leg that runs east and west: 1,000 m from the western end
    double fromWest =
        Math.min(
            best.place().alongM(), network.routes().get("SR 1").lengthM() - best.place().alongM());
    assertEquals(996 * GROUND, fromWest, 10);
  }

  @Test
  void whereALoopClosesBothItsEndsAreNamed() {
    Network network =
        assemble(line("r:1", "CR 1", 0, 0, 1_000, 0, 1_000, 1_000, 0, 1_000, 0, 0)).network();
    Route loop = network.routes().get("CR 1");
    double[] ends = TestRoads.ends(loop);
    List<Candidate> at =
        new Locator(network).candidates(EAST + ends[0] + 2, NORTH + ends[1] + 2, 20, SnapHint.NONE);
    assertEquals(2, at.size(), at.toString());
    assertEquals(
        loop.lengthM(), Math.abs(at.get(0).place().alongM() - at.get(1).place().alongM()), 5);
  }

  @Test
  void aRampIsToldFromItsRoadByHeadingOrByTheRoutePatrolled() {
    // Given a one-way road north and a ramp that leaves it at a slant and comes level with it
    Network network =
        assemble(
                heading("NB", oneWay(line("r:1", "US 9", 0, 0, 0, 2_000))),
                oneWay(line("r:2", "Ramp A", 0, 500, 40, 600, 200, 640)))
            .network();
    Locator locator = new Locator(network);
    List<Candidate> near = locator.candidates(EAST + 9, NORTH + 545, 40, SnapHint.NONE);
    assertEquals(2, near.size());
    // Halfway it is neither one clearly
    assertTrue(near.get(0).confidence() < 0.8, near.toString());
    // and both are still named when the patrol says which it was on
    SnapHint onRamp = new SnapHint(OptionalDouble.of(25), Optional.of("ramp a"), 5);
    List<Candidate> told = locator.candidates(EAST + 9, NORTH + 545, 40, onRamp);
    assertEquals("Ramp A", told.get(0).place().routeId());
    assertTrue(told.get(0).confidence() > 0.8);
    assertEquals(2, told.size());
  }

  @Test
  void concurrentRoutesOnADividedRoadAreFourCandidatesAndTheWayDrivenHalvesThem() {
    Network network =
        assemble(
                heading("NB", oneWay(line("r:1", "US 9;SR 4", 14, 0, 14, 3_000))),
                heading("SB", oneWay(line("r:2", "US 9;SR 4", 0, 3_000, 0, 0))))
            .network();
    Locator locator = new Locator(network);
    assertEquals(4, locator.candidates(EAST + 7, NORTH + 1_500, 60, SnapHint.NONE).size());
    SnapHint south = new SnapHint(OptionalDouble.of(178), Optional.of("SR 4"), 5);
    List<Candidate> ranked = locator.candidates(EAST + 7, NORTH + 1_500, 60, south);
    assertEquals(
        List.of("SR 4 SB", "US 9 SB"),
        ranked.stream().limit(2).map(c -> c.place().routeId()).collect(Collectors.toList()));
    assertTrue(ranked.get(0).confidence() > 0.8);
  }
}
