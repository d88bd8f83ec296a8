package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.algorithm.Distance;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.index.strtree.STRtree;
import org.locationtech.jts.linearref.LengthIndexedLine;

/** The packed searches against JTS's linear referencing and its STR-tree. */
class LineSearchTest {

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 9, 10, 64, 65, 66, 1000, 5000})
  void theNearestPlaceOfARouteIsTheOneJtsFinds(int vertices) {
    Random random = new Random(vertices);
    CenterlinePart line = winding(random, vertices);
    Locator locator = locator(line);
    LengthIndexedLine jts = new LengthIndexedLine(lineString(line));
    for (int i = 0; i < 300; i++) {
      int near = random.nextInt(vertices);
      double reach = i % 3 == 0 ? 5000 : 60;
      double x = line.x(near) + (random.nextDouble() - 0.5) * reach;
      double y = line.y(near) + (random.nextDouble() - 0.5) * reach;
      RoadPoint ours = locator.nearestOn("SR 1", x, y).orElseThrow();
      // Along grows as the line does, so that the two lengths are one.
      Coordinate theirs = jts.extractPoint(jts.project(new Coordinate(x, y)));
      double distance = theirs.distance(new Coordinate(x, y));
      assertEquals(distance, Math.abs(ours.offsetM()), 1e-6);
      RoadPoint at = locator.pointAt("SR 1", ours.alongM(), 0).orElseThrow();
      assertEquals(distance, Math.hypot(at.x() - x, at.y() - y), 1e-6);
    }
  }

  @Test
  void aRoadOnTheLeftHasANegativeOffset() {
    Locator locator =
        locator(
            new CenterlinePart(new double[] {0, 100}, new double[] {0, 0}, new double[] {0, 100}));
    RoadPoint left = locator.nearestOn("SR 1", 30, 4).orElseThrow();
    assertEquals(-4, left.offsetM(), 1e-12);
    assertEquals(30, left.alongM(), 1e-12);
    assertEquals(4, locator.nearestOn("SR 1", 30, -4).orElseThrow().offsetM(), 1e-12);
    assertTrue(locator.nearestOn("SR 2", 30, -4).isEmpty());
  }

  @Test
  void theNearestSegmentIsFoundAsByLookingAtAll() {
    Random random = new Random(5);
    List<CenterlinePart> lines = new ArrayList<>();
    for (int i = 0; i < 80; i++) {
      lines.add(winding(random, 2 + random.nextInt(60)));
    }
    SegmentIndex index = new SegmentIndex(lines);
    for (int i = 0; i < 400; i++) {
      double x = 500_000 + (random.nextDouble() - 0.5) * 8000;
      double y = 4_600_000 + (random.nextDouble() - 0.5) * 8000;
      double radius = 10 + random.nextDouble() * 3000;
      List<SegmentIndex.Foot> all = index.near(x, y, radius);
      SegmentIndex.Foot best = null;
      for (SegmentIndex.Foot f : all) {
        assertTrue(f.distance() <= radius);
        boolean nearer =
            best == null
                || f.distance() < best.distance()
                || (f.distance() == best.distance()
                    && (f.line() < best.line()
                        || (f.line() == best.line() && f.segment() < best.segment())));
        best = nearer ? f : best;
      }
      assertEquals(best, index.nearest(x, y, radius));
      assertEquals(within(lines, x, y, radius), all.size());
    }
  }

  private static int within(List<CenterlinePart> lines, double x, double y, double radius) {
    int within = 0;
    for (CenterlinePart line : lines) {
      for (int i = 0; i + 1 < line.size(); i++) {
        Coordinate a = new Coordinate(line.x(i), line.y(i));
        Coordinate b = new Coordinate(line.x(i + 1), line.y(i + 1));
        double away = Distance.pointToSegment(new Coordinate(x, y), a, b);
        within += away <= radius ? 1 : 0;
      }
    }
    return within;
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 15, 16, 17, 256, 257, 3000})
  void boxesAreFoundAsByJtsTree(int count) {
    Random random = new Random(count);
    double[] boxes = new double[4 * count];
    STRtree jts = new STRtree();
    for (int i = 0; i < count; i++) {
      double x = random.nextInt(1000);
      double y = random.nextInt(1000);
      boxes[4 * i] = x;
      boxes[4 * i + 1] = y;
      boxes[4 * i + 2] = x + random.nextInt(30);
      boxes[4 * i + 3] = y + random.nextInt(30);
      jts.insert(new Envelope(x, boxes[4 * i + 2], y, boxes[4 * i + 3]), i);
    }
    PackedBoxes packed = new PackedBoxes(boxes);
    for (int k = 0; k < 100; k++) {
      double x = random.nextInt(1000);
      double y = random.nextInt(1000);
      TreeSet<Integer> ours = new TreeSet<>();
      packed.meeting(x, y, x + 40, y + 40, ours::add);
      TreeSet<Integer> theirs = new TreeSet<>();
      jts.query(new Envelope(x, x + 40, y, y + 40), item -> theirs.add((Integer) item));
      assertEquals(theirs, ours);
    }
  }

  private static Locator locator(CenterlinePart line) {
    Route route =
        new Route(
            "SR 1",
            "SR 1",
            "",
            RoadClass.COLLECTOR,
            List.of(line),
            PiecewiseMileposts.uncalibrated(line.toAlong()),
            new Edition(1, LocalDate.of(2026, 1, 1), null));
    return new Locator(new Network("", Map.of("SR 1", route), List.of()));
  }

  private static LineString lineString(CenterlinePart line) {
    Coordinate[] coordinates = new Coordinate[line.size()];
    for (int i = 0; i < coordinates.length; i++) {
      coordinates[i] = new Coordinate(line.x(i), line.y(i));
    }
    return new GeometryFactory().createLineString(coordinates);
  }

  private static CenterlinePart winding(Random random, int vertices) {
    double[] x = new double[vertices];
    double[] y = new double[vertices];
    double[] along = new double[vertices];
    x[0] = 500_000 + (random.nextDouble() - 0.5) * 5000;
    y[0] = 4_600_000 + (random.nextDouble() - 0.5) * 5000;
    double heading = random.nextDouble() * 6;
    for (int i = 1; i < vertices; i++) {
      heading += (random.nextDouble() - 0.5) * 1.2;
      double step = 1 + random.nextDouble() * 40;
      x[i] = x[i - 1] + step * Math.cos(heading);
      y[i] = y[i - 1] + step * Math.sin(heading);
      along[i] = along[i - 1] + Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    }
    return new CenterlinePart(x, y, along);
  }
}
