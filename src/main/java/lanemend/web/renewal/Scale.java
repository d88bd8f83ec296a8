package lanemend.web.renewal;

import java.util.Locale;
import lanemend.web.page.Drawing;

/** A scale from nought upward, with lines at round numbers. */
record Scale(double most, double bottom, double top) {

  double y(double value) {
    return bottom - value / most * (bottom - top);
  }

  /** Draws about four lines with their numbers left of {@code left}. */
  void draw(Drawing d, double left, double right) {
    double step = step(most);
    for (double v = 0; v <= most * 1.0001; v += step) {
      d.line(left, y(v), right, y(v), v == 0 ? Drawing.BLACK : Drawing.LIGHT, v == 0 ? 0.8 : 0.4);
      String text = String.format(Locale.ROOT, "%,.0f", v);
      d.label(left - 4, y(v) + 2.5, 7.5, "end", Drawing.BLACK, text);
    }
  }

  /** The round number that goes about four times into {@code span}; at least 1. */
  static double step(double span) {
    double decade = Math.pow(10, Math.floor(Math.log10(span / 4)));
    double times = span / 4 / decade;
    double step = decade * (times < 1.5 ? 1 : times < 3.5 ? 2 : times < 7.5 ? 5 : 10);
    return Math.max(1, step);
  }
}
