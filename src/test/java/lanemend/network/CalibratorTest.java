package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.GROUND;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class CalibratorTest {
  /** Runs 5 km north. */
  private final Route road =
      assemble(line("r:1", "SR 7", 0, 0, 0, 5000)).network().routes().get("SR 7");

  private static PostSighting post(double miles, double x, double y) {
    return PostSighting.seenAt("posts:" + miles, miles, EAST + x, NORTH + y);
  }

  @Test
  void postsBesideTheRoadAreSetSquareAcross() {
    Calibration set =
        Calibrator.calibrate(road, List.of(post(3, 8, 3000), post(2, -6, 1400), post(1, 9, 0)));

    assertEquals(List.of(), set.notes());
    assertTrue(set.route().mileposts().calibrated());
    assertEquals(1400 * GROUND, set.route().mileposts().posts().get(1).alongM(), 0.01);
    assertEquals(2.5, set.route().mileposts().at(2200 * GROUND).miles(), 1e-4);
  }

  @Test
  void postsByDistanceNeedNoPoint() {
    Calibration set =
        Calibrator.calibrate(
            road,
            List.of(
                PostSighting.atDistance("p:1", 4, 100),
                PostSighting.atDistance("p:2", 5, 1700),
                PostSighting.atDistance("p:3", 9, 9000)));

    assertEquals(2, set.route().mileposts().posts().size());
    assertEquals(1, set.notes().size());
    assertEquals("p:3", set.notes().get(0).origin());
    assertTrue(set.notes().get(0).text().contains("9000.0 m along is off the route"));
  }

  @Test
  void aNumberThatFallsBackWithoutAnEquationIsRefusedNotGuessed() {
    Calibration set =
        Calibrator.calibrate(
            road,
            List.of(post(10, 0, 0), post(11, 0, 1500), post(10.6, 0, 2200), post(12, 0, 3100)));

    assertEquals(3, set.route().mileposts().posts().size());
    assertEquals("posts:10.6", set.notes().get(0).origin());
    assertTrue(set.notes().get(0).text().contains("no equation says why"));
  }

  @Test
  void anEquationLetsNumbersRepeat() {
    Calibration set =
        Calibrator.calibrate(
            road,
            List.of(
                post(10, 0, 0),
                post(11.5, 0, 2400).equation(11),
                post(12, 0, 4000),
                post(11, 0, 1600)));

    assertEquals(List.of(), set.notes());
    assertInstanceOf(
        MilepostLookup.Ambiguous.class, set.route().mileposts().find(Milepost.of(11.25)));
  }

  @Test
  void aPostOnAnotherRoadIsNamed() {
    Calibration set = Calibrator.calibrate(road, List.of(post(1, 200, 100)));

    assertEquals(
        "post 1.000 left out: it stands more than 60 m from the road", set.notes().get(0).text());
    assertFalse(set.route().mileposts().calibrated());
  }

  @Test
  void wherePostsFallTheRoadIsNumberedAgainstItsDrawing() {
    Calibration set =
        Calibrator.calibrate(road, List.of(post(9, 0, 100), post(8, 0, 1700), post(7, 0, 3300)));

    assertEquals(8.5, set.route().mileposts().at(900 * GROUND).miles(), 1e-4);
  }

  @Test
  void oddSpacingIsKeptAndSaid() {
    Calibration set = Calibrator.calibrate(road, List.of(post(1, 0, 0), post(2, 0, 900)));

    assertEquals(2, set.route().mileposts().posts().size());
    assertTrue(set.notes().get(0).text().contains("0.559 miles of road apart"));
  }

  @Test
  void theOppositeRoadwayTakesItsMainRoadwaysMileposts() {
    Network divided =
        assemble(
                oneWay(line("r:1", "US 9", 0, 0, 0, 6000)),
                oneWay(line("r:2", "US 9", -30, 6000, -30, 0)))
            .network();

    var set =
        Calibrator.calibrate(
            divided,
            Map.of(
                "US 9",
                List.of(
                    post(50, 4, 0),
                    post(51, 4, 1700),
                    post(53, 4, 4700).equation(52.5),
                    post(53, 4, 5500))));

    Route opposite = set.network().routes().get("US 9 opposite");
    assertEquals(List.of(), set.notes());
    assertTrue(opposite.mileposts().calibrated());
    // Travelling south from y = 6000, y = 850 is half-way between posts 51 and 50.
    assertEquals(50.5, opposite.mileposts().at((6000 - 850) * GROUND).miles(), 1e-3);
    // The equation is met from its other side.
    assertInstanceOf(MilepostLookup.Ambiguous.class, opposite.mileposts().find(Milepost.of(52.8)));
    assertEquals(52.75, opposite.mileposts().at((6000 - 5100) * GROUND).miles(), 2e-3);
  }
}
