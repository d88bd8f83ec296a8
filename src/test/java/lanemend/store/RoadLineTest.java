package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import lanemend.network.CenterlinePart;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.linearref.LengthIndexedLine;

class RoadLineTest {

  @Test
  void placesAndStretchesAgreeWithJtsLengthIndexedLine() {
    // Along is planar length here, so that JTS (1.20) can be asked the same question.
    Random random = new Random(3);
    for (int round = 0; round < 200; round++) {
      int n = 2 + random.nextInt(30);
      double[] x = new double[n];
      double[] y = new double[n];
      double[] along = new double[n];
      Coordinate[] vertices = new Coordinate[n];
      for (int i = 0; i < n; i++) {
        x[i] = i == 0 ? 0 : x[i - 1] + random.nextDouble() * 20 + 0.01;
        y[i] = random.nextDouble() * 15;
        along[i] = i == 0 ? 0 : along[i - 1] + Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
        vertices[i] = new Coordinate(x[i], y[i]);
      }
      LineString line = new GeometryFactory().createLineString(vertices);
      LengthIndexedLine oracle = new LengthIndexedLine(line);
      RoadLine road = new RoadLine(List.of(new CenterlinePart(x, y, along)));
      double a = random.nextDouble() * road.toAlong();
      double b = Math.min(road.toAlong(), a + 2.5 + random.nextDouble() * 100);
      Coordinate wanted = oracle.extractPoint(a);
      assertArrayEquals(new double[] {wanted.x, wanted.y}, road.at(a), 1e-9);
      if (b - a >= RoadLine.SHORTEST_M) {
        List<CenterlinePart> cut = road.cut(a, b);
        assertEquals(1, cut.size());
        Geometry stretch = oracle.extractLine(a, b);
        assertEquals(stretch.getLength(), planarLength(cut.get(0)), 1e-9);
        assertEquals(stretch.getCoordinates().length, cut.get(0).size());
        assertEquals(a, cut.get(0).fromAlong());
        assertEquals(b, cut.get(0).toAlong());
      }
    }
  }

  private static double planarLength(CenterlinePart p) {
    double length = 0;
    for (int i = 1; i < p.size(); i++) {
      length += Math.hypot(p.x(i) - p.x(i - 1), p.y(i) - p.y(i - 1));
    }
    return length;
  }

  @Test
  void aGapSplitsAStretchAndHoldsNoLine() {
    RoadLine road =
        new RoadLine(
            List.of(
                straight(0, 100), // a 20 m gap follows
                straight(120, 200)));
    assertEquals(2, road.cut(90, 130).size());
    assertEquals(List.of(), road.cut(105, 115));
    assertArrayEquals(new double[] {110, 0}, road.at(110), 1e-9);
  }

  @Test
  void aSpotIsDrawnTwoMetresLong() {
    List<CenterlinePart> cut = new RoadLine(List.of(straight(0, 100))).cut(50, 50);
    assertEquals(49, cut.get(0).fromAlong());
    assertEquals(51, cut.get(0).toAlong());
    // At the road's end there is only half of it.
    List<CenterlinePart> end = new RoadLine(List.of(straight(0, 100))).cut(100, 100);
    assertEquals(99, end.get(0).fromAlong());
    assertTrue(end.get(0).toAlong() == 100);
  }

  private static CenterlinePart straight(double from, double to) {
    return new CenterlinePart(
        new double[] {from, to}, new double[] {0, 0}, new double[] {from, to});
  }
}
