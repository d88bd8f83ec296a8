package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.network.Route;
import lanemend.web.page.Drawing;

/**
 * The piece of a route that drawings show, the section and some road on either side, on one
 * milepost axis so that they can be laid over one another.
 */
record RoadWindow(Route route, double fromM, double toM) {
  static final double WIDTH = 534;
  static final double LEFT = 66;
  static final double RIGHT = WIDTH - 8;
  private static final double SCAN_M = 5;

  /** A place on the axis where the milepost is a round number. */
  record Tick(double alongM, String text) {}

  /** Half the section's length on either side, at least half a mile of road, at most a mile. */
  static RoadWindow around(Route route, double fromM, double toM) {
    double more = Math.max(804.672, Math.min(1609.344, (toM - fromM) / 2));
    return new RoadWindow(route, Math.max(0, fromM - more), Math.min(route.lengthM(), toM + more));
  }

  double x(double alongM) {
    double share = (alongM - fromM) / (toM - fromM);
    return LEFT + Math.min(1, Math.max(0, share)) * (RIGHT - LEFT);
  }

  /** Places where the milepost passes a multiple of a tenth or of what fits the paper. */
  List<Tick> ticks() {
    double step = (toM - fromM) / 1609.344 > 3.5 ? 0.5 : 0.2;
    List<Tick> ticks = new ArrayList<>();
    double before = miles(fromM);
    for (double along = fromM + SCAN_M; along <= toM; along += SCAN_M) {
      double now = miles(along);
      double passed = Math.rint((before + now) / 2 / step) * step;
      boolean crossed = (before - passed) * (now - passed) <= 0 && now != passed;
      // A jump of mileposts passes many numbers at one place: none of them is a tick.
      if (crossed && Math.abs(now - before) < 0.05 && now != before) {
        double share = (passed - before) / (now - before);
        ticks.add(
            new Tick(along - SCAN_M + share * SCAN_M, String.format(Locale.ROOT, "%.1f", passed)));
      }
      before = now;
    }
    return ticks;
  }

  /** Draws the axis with its numbers below {@code y}. */
  void axis(Drawing d, double y) {
    d.line(LEFT, y, RIGHT, y, Drawing.BLACK, 0.8);
    for (Tick t : ticks()) {
      d.line(x(t.alongM()), y, x(t.alongM()), y + 3, Drawing.BLACK, 0.8);
      d.label(x(t.alongM()), y + 11, 7.5, "middle", Drawing.BLACK, t.text());
    }
    d.label(2, y + 11, 7.5, "start", Drawing.BLACK, "milepost");
  }

  private double miles(double alongM) {
    return route.mileposts().at(alongM).miles();
  }
}
