package lanemend.store;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import lanemend.network.CenterlinePart;
import lanemend.network.Network;
import lanemend.network.PostSighting;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.edit.RoadEdit;
import lanemend.network.edit.RoadEditor;

/** Edits of roads made up by a seed. */
final class RandomEdits {
  private final Random random;
  private int names;

  RandomEdits(long seed) {
    this.random = new Random(seed);
  }

  /** An edit that can be made; what cannot is tried again as another one. */
  RoadEdit next(Snapshot store, LocalDate on) {
    ProjectedCrs crs = Invented.Utm15.CRS;
    Network network = store.network();
    RoadEditor editor = new RoadEditor(network, store.lastEditions(), crs, on);
    for (int tries = 0; tries < 200; tries++) {
      try {
        return any(editor, network, crs);
      } catch (IllegalArgumentException refused) {
        names++;
      }
    }
    throw new IllegalStateException("200 edits in a row were refused");
  }

  private RoadEdit any(RoadEditor editor, Network network, ProjectedCrs crs) {
    List<Route> routes = List.copyOf(network.routes().values());
    Route r = routes.get(random.nextInt(routes.size()));
    double a = random.nextDouble() * r.lengthM();
    double b = random.nextDouble() * r.lengthM();
    double from = Math.min(a, b);
    double to = Math.max(a, b);
    return switch (random.nextInt(9)) {
      case 0 ->
          editor.realign(
              r.id(), shaken(r, crs), OptionalDouble.empty(), OptionalDouble.empty(), true, false);
      case 1 -> realigned(editor, r, from, to, crs, random.nextBoolean());
      case 2 -> editor.recalibrate(posts(r), random.nextBoolean(), random.nextBoolean());
      case 3, 4 -> editor.split(r.id(), a, r.name(), "New " + names++);
      case 5, 6 -> merged(editor, routes);
      case 7 -> editor.rename(r.id(), "Renamed " + names++);
      default ->
          random.nextInt(4) == 0 && routes.size() > 2
              ? editor.retire(r.id())
              : editor.retire(r.id(), from, to);
    };
  }

  private RoadEdit merged(RoadEditor editor, List<Route> routes) {
    for (Route one : routes) {
      for (Route other : routes) {
        try {
          return editor.merge(one.id(), other.id(), one.name(), random.nextBoolean());
        } catch (IllegalArgumentException refused) {
          names++;
        }
      }
    }
    throw new IllegalArgumentException("no two roads meet");
  }

  /** The same line surveyed with errors of a few metres, sometimes from the other end. */
  private List<CenterlinePart> shaken(Route r, ProjectedCrs crs) {
    List<CenterlinePart> parts = new ArrayList<>();
    boolean turned = random.nextBoolean();
    double along = 0;
    for (int k = 0; k < r.parts().size(); k++) {
      CenterlinePart p = r.parts().get(turned ? r.parts().size() - 1 - k : k);
      List<double[]> vertices = new ArrayList<>();
      for (int i = 0; i < p.size(); i++) {
        int v = turned ? p.size() - 1 - i : i;
        vertices.add(
            new double[] {p.x(v) + random.nextGaussian() * 2, p.y(v) + random.nextGaussian() * 2});
      }
      CenterlinePart part = part(vertices, along, crs);
      parts.add(part);
      along = part.toAlong() + 40;
    }
    return parts;
  }

  private RoadEdit realigned(
      RoadEditor editor, Route r, double from, double to, ProjectedCrs crs, boolean rebuilt) {
    RoadLine line = new RoadLine(r.parts());
    double[] start = line.at(from);
    double[] end = line.at(to);
    double away = rebuilt ? 150 : 20;
    List<double[]> vertices =
        List.of(
            start,
            new double[] {
              (start[0] + end[0]) / 2 + random.nextGaussian() * away,
              (start[1] + end[1]) / 2 + random.nextGaussian() * away
            },
            end);
    return editor.realign(
        r.id(),
        List.of(part(vertices, 0, crs)),
        OptionalDouble.of(from),
        OptionalDouble.of(to),
        false,
        rebuilt);
  }

  private static CenterlinePart part(List<double[]> vertices, double fromAlong, ProjectedCrs crs) {
    double[] x = new double[vertices.size()];
    double[] y = new double[vertices.size()];
    double[] along = new double[vertices.size()];
    along[0] = fromAlong;
    for (int i = 0; i < x.length; i++) {
      x[i] = vertices.get(i)[0];
      y[i] = vertices.get(i)[1];
      if (i > 0) {
        along[i] = along[i - 1] + crs.groundM(x[i - 1], y[i - 1], x[i], y[i]);
      }
    }
    return new CenterlinePart(x, y, along);
  }

  private Map<String, List<PostSighting>> posts(Route r) {
    List<PostSighting> posts = new ArrayList<>();
    double miles = random.nextInt(20);
    for (double at = random.nextDouble() * 200; at < r.lengthM(); at += 500) {
      posts.add(PostSighting.atDistance("posts.csv", miles, at));
      miles += 0.25 + random.nextDouble() / 5;
    }
    Map<String, List<PostSighting>> byRoute = new LinkedHashMap<>();
    byRoute.put(r.id(), posts);
    return byRoute;
  }
}
