package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.measure.Conversion;
import lanemend.network.CalibrationPost;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.sample.Draft.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The roads and signs of an invented county, against what the county is said to be. */
class RoadsTest {
  private static final County COUNTY = Counties.STANDARD;

  private static Roadway road(String id) {
    return COUNTY.roads().stream().filter(r -> r.id().equals(id)).findFirst().orElseThrow();
  }

  @Test
  void theStandardCountyHasAboutSixHundredMiles() {
    assertEquals(600, COUNTY.roadMiles(), 20);
  }

  @ParameterizedTest
  @ValueSource(ints = {150, 300, 1_500})
  void anotherSizeHasItsMiles(int miles) {
    County c = County.invent(new SampleSize(miles, 20, 5, 0), 3);
    assertEquals(miles, c.roadMiles(), 0.05 * miles);
    assertTrue(c.history().stream().allMatch(r -> r.work().equals("resurfacing")));
  }

  @Test
  void roadsOfOneJunctionShareItsVertexExactly() {
    // Ombrel's middle: SR 31 and SR 8 cross there, with SR 117 on SR 31.
    Pt middle = COUNTY.drawn().terrain().town("Ombrel").middle();
    Set<String> there =
        COUNTY.roads().stream()
            .filter(r -> r.shape().contains(LonLat.of(middle)))
            .map(Roadway::id)
            .collect(Collectors.toSet());
    assertEquals(Set.of("SR 31", "SR 8", "SR 117"), there);
  }

  @Test
  void aFewCrossingsAreLeftWithoutAVertexAndOneRoadPassesOverTheFreeway() {
    long over =
        COUNTY.drawn().built().stream()
            .filter(b -> b.draft().kind() == Kind.COUNTY)
            .filter(b -> java.util.Arrays.stream(b.level()).anyMatch(l -> l == 1))
            .count();
    assertEquals(1, over);
    assertTrue(unsharedCrossings() >= 1, "crossings without a vertex");
  }

  private static int unsharedCrossings() {
    List<Draft> state = ofKind(Kind.STATE);
    int found = 0;
    for (Draft county : ofKind(Kind.COUNTY)) {
      Set<Pt> own = new HashSet<>(county.points());
      for (Draft s : state) {
        for (int i = 0; i + 1 < s.points().size(); i++) {
          for (int k = 0; k + 1 < county.points().size(); k++) {
            Pt a = s.points().get(i);
            Pt b = s.points().get(i + 1);
            boolean near = a.to(county.points().get(k)) < 200;
            boolean shared = own.contains(a) || own.contains(b);
            if (near
                && !shared
                && Curves.crossing(a, b, county.points().get(k), county.points().get(k + 1))
                    != null) {
              found++;
            }
          }
        }
      }
    }
    return found;
  }

  private static List<Draft> ofKind(Kind kind) {
    return COUNTY.drawn().welded().drafts().stream().filter(d -> d.kind() == kind).toList();
  }

  @Test
  void linesAreShortDrawnBothWaysAndInNoOrder() {
    List<RoadLine> main =
        COUNTY.lines().stream().filter(l -> l.route().startsWith("SR 31")).toList();
    assertTrue(main.size() > 40, main.size() + " lines of SR 31");
    Roadway road = road("SR 31");
    long forward =
        main.stream()
            .filter(
                l ->
                    road.shape().indexOf(l.shape().get(0)) < road.shape().indexOf(l.shape().get(1)))
            .count();
    assertTrue(forward > main.size() / 4 && forward < 3 * main.size() / 4, forward + " forward");
    for (RoadLine l : COUNTY.lines()) {
      assertTrue(Roadway.alongOf(l.shape())[l.shape().size() - 1] < 2_600);
    }
  }

  @Test
  void theSharedStretchIsWrittenOnceUnderBothNames() {
    double together =
        COUNTY.lines().stream()
            .filter(l -> l.route().equals("SR 31;SR 117"))
            .mapToDouble(l -> Roadway.alongOf(l.shape())[l.shape().size() - 1])
            .sum();
    Roadway sharing = road("SR 117");
    assertEquals(sharing.led().toM() - sharing.led().fromM(), together, 0.01);
    assertTrue(together > 5_000 && together < 15_000, together + " m");
  }

  @Test
  void signsStandNearlyButNeverExactlyAMileApart() {
    int signs = 0;
    for (Roadway r : COUNTY.roads()) {
      List<CalibrationPost> posts = r.mileposts().posts();
      for (int i = 2; i < posts.size() - 1; i++) {
        CalibrationPost a = posts.get(i - 1);
        CalibrationPost b = posts.get(i);
        if (a.isEquation() || b.isEquation()) {
          continue;
        }
        double mile = (b.alongM() - a.alongM()) / Conversion.M_PER_MILE;
        assertEquals(1, StrictMath.abs(b.backMiles() - a.aheadMiles()), 1e-9);
        // 6 % of spacing, and up to 9 m of moving clear of a vertex at each end.
        assertTrue(StrictMath.abs(mile - 1) < 0.072, r.id() + " " + mile);
        assertTrue(StrictMath.abs(mile - 1) > 1e-9, r.id());
        signs++;
      }
    }
    assertTrue(signs > 150, signs + " signs");
  }

  @Test
  void oneEquationRepeatsNumbersAndOneSkipsSome() {
    CalibrationPost overlap = equation("SR 31");
    double twice = (overlap.backMiles() + overlap.aheadMiles()) / 2;
    assertTrue(overlap.aheadMiles() < overlap.backMiles());
    assertTrue(
        road("SR 31").mileposts().find(Milepost.of(twice)) instanceof MilepostLookup.Ambiguous);
    CalibrationPost gap = equation("SR 8");
    double none = (gap.backMiles() + gap.aheadMiles()) / 2;
    assertTrue(gap.aheadMiles() > gap.backMiles());
    assertTrue(road("SR 8").mileposts().find(Milepost.of(none)) instanceof MilepostLookup.Missing);
  }

  private static CalibrationPost equation(String id) {
    List<CalibrationPost> found =
        road(id).mileposts().posts().stream().filter(CalibrationPost::isEquation).toList();
    assertEquals(1, found.size());
    return found.get(0);
  }

  @Test
  void someRoutesFallAndSomeHaveNoSigns() {
    Roadway falling = road("SR 117");
    assertTrue(
        falling.mileposts().at(0).miles() > falling.mileposts().at(falling.lengthM()).miles());
    long without = COUNTY.roads().stream().filter(r -> !r.mileposts().calibrated()).count();
    assertTrue(without > 10 && without < COUNTY.roads().size() - 10, without + " without signs");
  }

  @Test
  void bothRoadwaysOfTheFreewayCarryTheSameNumbersAtTheSamePlace() {
    Roadway north = road("SR 64 NB");
    Roadway south = road("SR 64 SB");
    for (double m = 100; m < north.lengthM(); m += 700) {
      double across = south.footOf(north.pointAt(m, 0));
      assertEquals(north.mileposts().at(m).miles(), south.mileposts().at(across).miles(), 0.01);
    }
  }
}
