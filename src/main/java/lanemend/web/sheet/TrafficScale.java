package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.measure.Unit;
import lanemend.web.page.Drawing;
import lanemend.web.page.Wording;

/**
 * Along to x for a whole work zone with its signs. True to one scale where the closure is long
 * enough to be read; else the closure and the approaches on both sides have scales of their own,
 * parted by marked breaks.
 */
final class TrafficScale {
  /** Share of the width the closure must take at one scale to be read. */
  private static final double READABLE = 0.4;

  private static final double CLOSURE_SHARE = 0.46;
  private static final double SHORTEST_M = 1;

  /**
   * A part to one scale.
   *
   * @param x1 left end
   */
  record Part(double fromM, double toM, double x1, double x2) {
    double pointsPerM() {
      return (x2 - x1) / (toM - fromM);
    }
  }

  private final List<Part> parts = new ArrayList<>();

  /**
   * @param fromM along of the leftmost thing drawn, {@code closureFromM} that of the closure
   */
  TrafficScale(
      double fromM, double closureFromM, double closureToM, double toM, double x1, double x2) {
    double from = Math.min(fromM, closureFromM - SHORTEST_M);
    double to = Math.max(toM, closureToM + SHORTEST_M);
    if ((closureToM - closureFromM) / (to - from) >= READABLE) {
      parts.add(new Part(from, to, x1, x2));
      return;
    }
    double middle = CLOSURE_SHARE * (x2 - x1);
    double side = (x2 - x1 - middle) / 2;
    parts.add(new Part(from, closureFromM, x1, x1 + side));
    parts.add(new Part(closureFromM, closureToM, x1 + side, x2 - side));
    parts.add(new Part(closureToM, to, x2 - side, x2));
  }

  List<Part> parts() {
    return List.copyOf(parts);
  }

  double x(double alongM) {
    Part in = parts.get(0);
    for (Part part : parts) {
      if (alongM >= part.fromM()) {
        in = part;
      }
    }
    double inside = Math.min(in.toM(), Math.max(in.fromM(), alongM));
    return in.x1() + (inside - in.fromM()) * in.pointsPerM();
  }

  /**
   * Marks where the scale changes and draws a bar for each.
   *
   * @param top of the road
   * @param barY where the bars lie
   */
  void draw(Drawing drawing, Wording wording, double top, double bottom, double barY) {
    for (int i = 0; i < parts.size(); i++) {
      Part part = parts.get(i);
      if (i > 0) {
        double x = part.x1();
        drawing.line(x - 2, bottom + 4, x + 2, top - 4, Drawing.WHITE, 2.6);
        drawing.line(x - 3.5, bottom + 4, x + 0.5, top - 4, Drawing.BLACK, 0.7);
        drawing.line(x - 0.5, bottom + 4, x + 3.5, top - 4, Drawing.BLACK, 0.7);
      }
      double unit = wording.unitLabel(Unit.METER).equals("ft") ? Conversion.M_PER_FT : 1;
      double metres = RoadMap.roundBelow(0.5 * (part.toM() - part.fromM()) / unit) * unit;
      double width = metres * part.pointsPerM();
      double x = (part.x1() + part.x2() - width) / 2;
      drawing.line(x, barY, x + width, barY, Drawing.BLACK, 1.2);
      drawing.line(x, barY - 3, x, barY + 3, Drawing.BLACK, 0.8);
      drawing.line(x + width, barY - 3, x + width, barY + 3, Drawing.BLACK, 0.8);
      drawing.labelOnWhite(
          x + width / 2,
          barY - 2.5,
          6.5,
          "middle",
          Drawing.BLACK,
          wording.text(metres, Unit.METER));
    }
  }
}
