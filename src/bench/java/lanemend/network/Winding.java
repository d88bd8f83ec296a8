package lanemend.network;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Invented roads for benchmarks: smooth curves of about equal steps, along counted on the ground. */
final class Winding {
  /** Ground metres for a projected one, as at the middle of a UTM zone. */
  private static final double GROUND = 1.0004;

  private final Random random;

  Winding(long seed) {
    random = new Random(seed);
  }

  CenterlinePart line(double x0, double y0, int vertices, double stepM) {
    double[] x = new double[vertices];
    double[] y = new double[vertices];
    double[] along = new double[vertices];
    double heading = random.nextDouble() * 2 * Math.PI;
    x[0] = x0;
    y[0] = y0;
    for (int i = 1; i < vertices; i++) {
      heading += (random.nextDouble() - 0.5) * 0.4;
      double step = stepM * (0.5 + random.nextDouble());
      x[i] = x[i - 1] + step * Math.cos(heading);
      y[i] = y[i - 1] + step * Math.sin(heading);
      along[i] = along[i - 1] + step * GROUND;
    }
    return new CenterlinePart(x, y, along);
  }

  /** A route with a post at about every mile, as surveyed: not a mile apart. */
  Route route(String id, CenterlinePart line) {
    List<CalibrationPost> posts = new ArrayList<>();
    double miles = 3;
    for (double at = 0; at < line.toAlong(); at += 1500 + 200 * random.nextDouble()) {
      posts.add(CalibrationPost.at(at, miles++));
    }
    MilepostMap mileposts =
        posts.size() < 2
            ? PiecewiseMileposts.uncalibrated(line.toAlong())
            : PiecewiseMileposts.of(posts, line.toAlong());
    return new Route(
        id,
        id,
        "",
        RoadClass.COLLECTOR,
        List.of(line),
        mileposts,
        new Edition(1, LocalDate.of(2026, 1, 1), null));
  }
}
