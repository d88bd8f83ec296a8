package lanemend.network;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Invented roads for tests, drawn in metres from a corner of a UTM zone. */
final class TestRoads {
  static final ProjectedCrs CRS = ProjectedCrs.utmFor(-93, 45);
  static final double EAST = 500_000;
  static final double NORTH = 4_983_000;

  /** UTM scale on the central meridian: the ground is longer than the drawing by 1 / 0.9996. */
  static final double GROUND = 1 / 0.9996;

  private TestRoads() {}

  /** A two-way line through x, y pairs in metres from the corner. */
  static SourceLine line(String origin, String route, double... xy) {
    return new SourceLine(
        origin,
        route.isEmpty() ? List.of() : List.of(route.split(";")),
        "",
        RoadClass.COLLECTOR,
        degrees(xy, 0),
        degrees(xy, 1),
        false,
        0,
        Map.of());
  }

  private static double[] degrees(double[] xy, int which) {
    double[] all = new double[xy.length / 2];
    for (int i = 0; i < all.length; i++) {
      all[i] = CRS.unproject(EAST + xy[2 * i], NORTH + xy[2 * i + 1])[which];
    }
    return all;
  }

  static SourceLine oneWay(SourceLine l) {
    return new SourceLine(
        l.origin(),
        l.routeNames(),
        l.direction(),
        l.roadClass(),
        l.longitude(),
        l.latitude(),
        true,
        l.level(),
        l.attributes());
  }

  static SourceLine atLevel(int level, SourceLine l) {
    return new SourceLine(
        l.origin(),
        l.routeNames(),
        l.direction(),
        l.roadClass(),
        l.longitude(),
        l.latitude(),
        l.oneWay(),
        level,
        l.attributes());
  }

  static SourceLine heading(String direction, SourceLine l) {
    return new SourceLine(
        l.origin(),
        l.routeNames(),
        direction,
        l.roadClass(),
        l.longitude(),
        l.latitude(),
        l.oneWay(),
        l.level(),
        l.attributes());
  }

  static Assembly assemble(SourceLine... lines) {
    return RouteAssembler.assemble(List.of(lines), CRS);
  }

  static List<SourceLine> shuffled(List<SourceLine> lines, long seed) {
    List<SourceLine> copy = new ArrayList<>(lines);
    Collections.shuffle(copy, new Random(seed));
    return copy;
  }

  /** Where the route's centreline is at its first and last vertex, in metres from the corner. */
  static double[] ends(Route route) {
    CenterlinePart first = route.parts().get(0);
    CenterlinePart last = route.parts().get(route.parts().size() - 1);
    return new double[] {
      first.x(0) - EAST,
      first.y(0) - NORTH,
      last.x(last.size() - 1) - EAST,
      last.y(last.size() - 1) - NORTH
    };
  }

  /** Everything about an assembly, to compare two. */
  static String describe(Assembly assembly) {
    StringBuilder all = new StringBuilder();
    for (Route route : assembly.network().routes().values()) {
      all.append(route.id()).append(' ').append(route.mileposts().posts()).append('\n');
      for (CenterlinePart part : route.parts()) {
        for (int i = 0; i < part.size(); i++) {
          all.append(part.x(i)).append(',').append(part.y(i)).append('@').append(part.along(i));
          all.append(' ');
        }
        all.append('\n');
      }
    }
    for (Connector connector : assembly.network().connectors()) {
      all.append(connector.id()).append(' ').append(connector.line().x(0)).append('\n');
    }
    return all.append(assembly.runs())
        .append(assembly.connectorRuns().size())
        .append(assembly.notes())
        .toString();
  }

  /** One speed for all, one-way and level as the source lines said. */
  static TravelRules rules(Assembly assembly, double speedKmh) {
    return new LineRules(assembly, speedKmh);
  }
}
