package lanemend.network.edit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.MilepostMap;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.PostSighting;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.linearref.LengthIndexedLine;

/** What each edit makes of a road; lengths are checked by hand and by JTS's linear referencing. */
class RoadEditorTest {
  private static final ProjectedCrs CRS = ProjectedCrs.utmFor(-93, 45);
  private static final double EAST = 500_000;
  private static final double NORTH = 4_983_000;

  /** On the central meridian the ground is longer than the drawing by 1 / 0.9996 (UTM's scale). */
  private static final double GROUND = 1 / 0.9996;

  private static final LocalDate ON = LocalDate.of(2026, 6, 1);

  /** Straight lines between x, y pairs in metres from a corner. */
  private static List<CenterlinePart> line(double... xy) {
    int n = xy.length / 2;
    double[] x = new double[n];
    double[] y = new double[n];
    double[] along = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = EAST + xy[2 * i];
      y[i] = NORTH + xy[2 * i + 1];
      along[i] = i == 0 ? 0 : along[i - 1] + CRS.groundM(x[i - 1], y[i - 1], x[i], y[i]);
    }
    return List.of(new CenterlinePart(x, y, along));
  }

  private static Route route(String name, List<CenterlinePart> parts, CalibrationPost... posts) {
    double length = parts.get(parts.size() - 1).toAlong();
    MilepostMap map =
        posts.length == 0
            ? PiecewiseMileposts.uncalibrated(length)
            : PiecewiseMileposts.of(List.of(posts), length);
    Edition first = new Edition(1, LocalDate.EPOCH, null);
    return new Route(name, name, "", RoadClass.COLLECTOR, parts, map, first);
  }

  private static RoadEditor editor(Route... routes) {
    Map<String, Route> all = new LinkedHashMap<>();
    Map<String, Integer> last = new LinkedHashMap<>();
    for (Route r : routes) {
      all.put(r.id(), r);
      last.put(r.id(), r.edition().number());
    }
    return new RoadEditor(new Network(CRS.wkt(), all, List.of()), last, CRS, ON);
  }

  private static double miles(Route r, double along) {
    return r.mileposts().at(along).miles();
  }

  @Test
  void aStretchGivenUpLeavesAGapAndEveryOtherMetreItsNumber() {
    // Given 10 km north with posts 20 at its start and 26 at its end
    Route sr =
        route(
            "SR 1",
            line(0, 0, 0, 10_000),
            CalibrationPost.at(0, 20),
            CalibrationPost.at(10_000 * GROUND, 26));
    // when 4 to 5 km are given up
    RoadEdit edit = editor(sr).retire("SR 1", 4_000, 5_000);
    Route now = edit.after("SR 1").orElseThrow();
    // then two parts remain with the gap counted straight, and each metre has its number
    assertEquals(2, now.parts().size());
    assertEquals(sr.lengthM(), now.lengthM(), 1e-6);
    assertEquals(miles(sr, 3_000), miles(now, 3_000), 1e-9);
    assertEquals(miles(sr, 7_000), miles(now, 7_000), 1e-9);
    assertTrue(edit.images("SR 1", 4_200, 4_800).isEmpty());
    // and what lay across its start is what is left of it
    Image left = edit.images("SR 1", 3_900, 4_100).get(0);
    assertEquals(100, left.beforeM(), 1e-9);
    assertEquals(2, now.edition().number());
    assertEquals(ON, now.edition().validFrom());
  }

  @Test
  void aShorterRoadInPlaceOfABendKeepsTheNumbersBeforeAndBehindIt() {
    // Given a road with a bend to the east between 2 and 4 km north: its two sides are
    // hypot(1000, 1000) long each
    Route sr =
        route(
            "SR 1",
            line(0, 0, 0, 2_000, 1_000, 3_000, 0, 4_000, 0, 6_000),
            CalibrationPost.at(0, 5),
            CalibrationPost.at(6_828.427 * GROUND, 10));
    // when the bend is cut off
    RoadEdit edit =
        editor(sr)
            .realign(
                "SR 1",
                line(0, 2_000, 0, 4_000),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false,
                true);
    Route now = edit.after("SR 1").orElseThrow();
    // then the road is shorter by the difference
    double saved = (2 * Math.hypot(1_000, 1_000) - 2_000) * GROUND;
    assertEquals(sr.lengthM() - saved, now.lengthM(), 0.01);
    // and the ground at 5 km north has the number it had
    double before = (3_000 + 2 * Math.hypot(1_000, 1_000)) * GROUND;
    Image image = edit.images("SR 1", before, before).get(0);
    assertEquals(before - saved, image.fromM(), 0.01);
    assertEquals(miles(sr, before), miles(now, image.fromM()), 1e-9);
    // and JTS finds the same place at that length of the new line
    Coordinate there = at(now, image.fromM());
    assertEquals(NORTH + 5_000, there.y, 0.01);
  }

  /** The place by JTS's linear referencing over the drawing. */
  private static Coordinate at(Route r, double along) {
    CenterlinePart p = r.parts().get(0);
    Coordinate[] all = new Coordinate[p.size()];
    for (int i = 0; i < all.length; i++) {
      all[i] = new Coordinate(p.x(i), p.y(i));
    }
    LengthIndexedLine line = new LengthIndexedLine(new GeometryFactory().createLineString(all));
    double scale = line.getEndIndex() / p.toAlong();
    return line.extractPoint(along * scale);
  }

  @Test
  void aLineDrawnAnewCarriesPlacesSquareAcross() {
    // Given a road and a survey of it 3 m to the east whose last kilometre has a true bend more
    Route sr = route("SR 1", line(0, 0, 0, 6_000));
    RoadEdit edit =
        editor(sr)
            .realign(
                "SR 1",
                line(3, 6_000, 40, 5_500, 3, 5_000, 3, 0),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                true,
                false);
    Route now = edit.after("SR 1").orElseThrow();
    // then it runs as before although it was drawn from the other end
    assertEquals(NORTH, now.parts().get(0).y(0), 1e-6);
    // and a place at 2 km is still beside itself; by proportion it would be off by 0.9 m
    double place = 2_000 * GROUND;
    Image image = edit.images("SR 1", place, place).get(0);
    assertEquals(place, image.fromM(), 0.02);
    assertEquals(Ground.REDRAWN, image.ground());
  }

  @Test
  void splitAndMergeAreEachOthersReverse() {
    // Given a road with an equation: 12.5 back is 12.0 ahead
    Route sr =
        route(
            "SR 1",
            line(0, 0, 0, 8_000),
            CalibrationPost.at(0, 10),
            new CalibrationPost(4_000, 12.5, 12.0),
            CalibrationPost.at(8_000, 14.4));
    RoadEdit split = editor(sr).split("SR 1", 3_000, "SR 1", "SR 2");
    Route one = split.after("SR 1").orElseThrow();
    Route other = split.after("SR 2").orElseThrow();
    assertEquals(3_000, one.lengthM(), 1e-6);
    assertEquals(miles(sr, 3_500), miles(other, 500), 1e-9);
    assertEquals(1, other.edition().number());
    // when the two are merged again
    RoadEdit merge = editor(one, other).merge("SR 1", "SR 2", "SR 1", false);
    Route whole = merge.after("SR 1").orElseThrow();
    // then length, line and numbers are as before
    assertEquals(sr.lengthM(), whole.lengthM(), 1e-6);
    for (double along = 0; along < 8_000; along += 250) {
      assertEquals(miles(sr, along), miles(whole, along), 1e-9);
    }
  }

  @Test
  void aRoadThatRunsAgainstTheOtherIsTurnedRound() {
    // Given two roads that meet at their ends, one drawn south to north, the other north to south
    Route one = route("A", line(0, 0, 0, 1_000));
    Route other = route("B", line(0, 3_000, 0, 1_000));
    // when they are merged
    RoadEdit edit = editor(one, other).merge("A", "B", "A", true);
    // then a place 100 m from B's start lies 100 m from the end of the whole, with sides changed
    Route whole = edit.after("A").orElseThrow();
    Image image = edit.images("B", 100, 110).get(0);
    assertEquals(3_000 * GROUND, whole.lengthM(), 0.01);
    assertEquals(whole.lengthM() - 110, image.fromM(), 0.01);
    assertTrue(image.turned());
  }

  @Test
  void theOldEquationIsKeptWhereNumbersWouldTurnRound() {
    // Given numbers that fall back by 5 miles at an equation in the middle
    Route sr =
        route(
            "SR 1",
            line(0, 0, 0, 8_000),
            CalibrationPost.at(0, 10),
            new CalibrationPost(4_000, 12.5, 7.5),
            CalibrationPost.at(8_000, 10));
    // when the road around the equation is given up
    Route now = editor(sr).retire("SR 1", 3_900, 4_100).after("SR 1").orElseThrow();
    // then before and behind the gap all is as it was
    assertEquals(miles(sr, 3_800), miles(now, 3_800), 1e-9);
    assertEquals(miles(sr, 6_000), miles(now, 6_000), 1e-9);
  }

  @Test
  void editsThatCannotBeMadeSayWhy() {
    Route one = route("A", line(0, 0, 0, 1_000));
    Route far = route("B", line(0, 9_000, 0, 10_000));
    RoadEditor editor = editor(one, far);
    assertTrue(why(() -> editor.merge("A", "B", "A", false)).contains("m apart"));
    assertTrue(why(() -> editor.split("A", 0.2, "A", "C")).contains("cannot be split at its end"));
    assertTrue(why(() -> editor.split("A", 500, "A", "B")).contains("there is a road 'B'"));
    assertTrue(why(() -> editor.rename("A", "A")).contains("expected another one"));
    assertTrue(why(() -> editor.retire("C")).contains("there is no route 'C'"));
    assertTrue(why(() -> editor.retire("A", -50, 100)).contains("off A"));
    RoadEditor early =
        new RoadEditor(
            new Network(
                CRS.wkt(), Map.of("A", one.withEdition(new Edition(2, ON, null))), List.of()),
            Map.of("A", 2),
            CRS,
            ON.minusDays(1));
    assertTrue(why(() -> early.retire("A")).contains("only since 2026-06-01"));
  }

  private static String why(Runnable edit) {
    return assertThrows(IllegalArgumentException.class, edit::run).getMessage();
  }

  @Test
  void newPostsMakeAnEditionOnlyOfTheRoutesTheyChange() {
    Route one = route("A", line(0, 0, 0, 4_000));
    Route other = route("B", line(500, 0, 500, 4_000));
    RoadEdit edit =
        editor(one, other)
            .recalibrate(
                Map.of(
                    "A",
                    List.of(
                        PostSighting.atDistance("p", 3, 0),
                        PostSighting.atDistance("p", 5, 3_000))),
                false,
                true);
    assertEquals(List.of("A"), edit.after().stream().map(Route::id).toList());
    assertEquals(4, miles(edit.after().get(0), 1_500), 1e-12);
  }
}
