package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PiecewiseMilepostsTest {
  private static final double MILE = PiecewiseMileposts.METRES_PER_MILE;

  private static double found(MilepostMap map, Milepost milepost) {
    return assertInstanceOf(MilepostLookup.Found.class, map.find(milepost)).alongM();
  }

  @Test
  void withoutPostsTheMilepostIsTheDistance() {
    MilepostMap map = PiecewiseMileposts.uncalibrated(5 * MILE);

    assertEquals(2.5, map.at(2.5 * MILE).miles(), 1e-12);
    assertEquals(MILE, found(map, Milepost.of(1)), 1e-9);
    assertFalse(map.calibrated());
  }

  @Test
  void betweenPostsMilesStretchToFitTheRoad() {
    // Posts 10 and 11 stand 1,700 m apart: the post mile is longer than a mile.
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(CalibrationPost.at(500, 10), CalibrationPost.at(2200, 11)), 4000);

    assertEquals(10.5, map.at(1350).miles(), 1e-12);
    assertEquals(500 + 0.25 * 1700, found(map, Milepost.of(10.25)), 1e-9);
    // Beyond the posts a mile is a mile.
    assertEquals(10 - 500 / MILE, map.at(0).miles(), 1e-12);
    assertEquals(11 + 1800 / MILE, map.at(4000).miles(), 1e-12);
  }

  @Test
  void anEquationThatJumpsBackMakesNumbersOccurTwice() {
    // 11.5 back = 11.0 ahead at 2,000 m: mileposts 11.0 to 11.5 lie before and after it.
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(
                CalibrationPost.at(0, 10.25),
                new CalibrationPost(2000, 11.5, 11.0),
                CalibrationPost.at(4000, 12.25)),
            4000);

    var ambiguous = assertInstanceOf(MilepostLookup.Ambiguous.class, map.find(Milepost.of(11.25)));

    assertEquals(2, ambiguous.choices().size());
    assertEquals("11.250 back", ambiguous.choices().get(0).milepost().text());
    assertEquals(1600, ambiguous.choices().get(0).alongM(), 1e-9);
    assertEquals(2400, ambiguous.choices().get(1).alongM(), 1e-9);
    assertEquals(1600, found(map, new Milepost(11.25, EquationSide.BACK)), 1e-9);
    assertEquals(2400, found(map, new Milepost(11.25, EquationSide.AHEAD)), 1e-9);
    assertEquals(EquationSide.BACK, map.at(1600).equationSide());
    assertEquals(EquationSide.AHEAD, map.at(2400).equationSide());
    assertEquals(EquationSide.ONLY, map.at(1000).equationSide());
    assertEquals(EquationSide.ONLY, map.at(3500).equationSide());
  }

  @Test
  void anEquationThatJumpsForwardLeavesNumbersOut() {
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(
                CalibrationPost.at(0, 20),
                new CalibrationPost(1600, 21, 23),
                CalibrationPost.at(3200, 24)),
            3200);

    var missing = assertInstanceOf(MilepostLookup.Missing.class, map.find(Milepost.of(22.4)));

    assertEquals(
        "milepost 22.400 does not exist: the equation 21.000 back = 23.000 ahead skips it",
        missing.why());
    assertEquals(1600, found(map, Milepost.of(23)), 1e-9);
    assertEquals(1600, found(map, Milepost.of(21)), 1e-9);
  }

  @Test
  void numbersOffTheEndsAreMissingButHalfAWrittenDigitIsNot() {
    MilepostMap map = PiecewiseMileposts.uncalibrated(1.99964 * MILE);

    assertEquals(1.99964 * MILE, found(map, Milepost.of(2.000)), 1e-9);
    var missing = assertInstanceOf(MilepostLookup.Missing.class, map.find(Milepost.of(2.01)));
    assertEquals(
        "milepost 2.010 is off the road, whose mileposts run from 0.000 to 2.000", missing.why());
    assertInstanceOf(MilepostLookup.Missing.class, map.find(Milepost.of(Double.NaN)));
  }

  @Test
  void milepostsMayFall() {
    MilepostMap map =
        PiecewiseMileposts.of(
            List.of(
                CalibrationPost.at(0, 30),
                new CalibrationPost(1600, 29, 29.4),
                CalibrationPost.at(3200, 28.4)),
            4000);

    assertEquals(29.5, map.at(800).miles(), 1e-12);
    assertEquals(28.4 - 800 / MILE, map.at(4000).miles(), 1e-12);
    assertInstanceOf(MilepostLookup.Ambiguous.class, map.find(Milepost.of(29.2)));
    assertEquals(1600 + 0.2 * 1600, found(map, new Milepost(29.2, EquationSide.AHEAD)), 1e-9);
  }

  @Test
  void postsThatContradictEachOtherAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () ->
            PiecewiseMileposts.of(
                List.of(
                    CalibrationPost.at(0, 1),
                    CalibrationPost.at(900, 2),
                    CalibrationPost.at(1800, 1.5)),
                2000));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            PiecewiseMileposts.of(
                List.of(
                    CalibrationPost.at(0, 1),
                    new CalibrationPost(1000, 2, 1.2),
                    new CalibrationPost(2000, 2.2, 1.4)),
                4000),
        "1.4 to 2.0 would occur at three places");
  }

  @Test
  void hundredThousandRandomPlacesComeBack() {
    Random random = new Random(20261125);
    double worst = 0;
    int ambiguous = 0;
    for (int road = 0; road < 100; road++) {
      double length = 2_000 + 60_000 * random.nextDouble();
      MilepostMap map = randomMap(random, length);
      for (int i = 0; i < 1_000; i++) {
        double along = placeToTry(random, map, length, i);
        Milepost milepost = map.at(along);
        if (map.find(Milepost.of(milepost.miles())) instanceof MilepostLookup.Ambiguous) {
          ambiguous++;
          assertTrue(milepost.equationSide() != EquationSide.ONLY, "the side must be named");
        }
        worst = Math.max(worst, Math.abs(found(map, milepost) - along));
      }
    }
    System.out.println("worst milepost round trip: " + worst + " m, ambiguous " + ambiguous);
    assertTrue(worst < 1e-6, "found " + worst);
    assertTrue(ambiguous > 1_000, "the roads must hold overlaps, found " + ambiguous);
  }

  /** Posts each place too: breakpoints are where rounding would show. */
  private static double placeToTry(Random random, MilepostMap map, double length, int i) {
    if (i < map.posts().size()) {
      return map.posts().get(i).alongM();
    }
    return length * random.nextDouble();
  }

  private static MilepostMap randomMap(Random random, double length) {
    int sign = random.nextBoolean() ? 1 : -1;
    List<CalibrationPost> posts = new ArrayList<>();
    double along = 300 * random.nextDouble();
    double miles = 200 + 100 * random.nextDouble();
    boolean overlapped = false;
    while (along < length) {
      double ahead = miles;
      double dice = random.nextDouble();
      if (dice < 0.1) {
        ahead = miles + sign * 2 * random.nextDouble();
      } else if (dice < 0.3 && !overlapped && posts.size() > 2) {
        ahead = miles - sign * 0.9 * random.nextDouble();
        overlapped = true;
      }
      posts.add(new CalibrationPost(along, miles, ahead));
      double step = 800 + 1_600 * random.nextDouble();
      along += step;
      miles = ahead + sign * step / MILE * (0.9 + 0.2 * random.nextDouble());
    }
    return PiecewiseMileposts.of(posts, length);
  }
}
