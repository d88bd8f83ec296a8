package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** Smooth lines: through waypoints, with bends, beside another line. */
final class Curves {
  private Curves() {}

  /** A smooth line through every waypoint (centripetal Catmull-Rom), a vertex about every step. */
  static List<Pt> through(List<Pt> waypoints, double stepM) {
    int n = waypoints.size();
    Pt first = waypoints.get(0);
    Pt last = waypoints.get(n - 1);
    List<Pt> out = new ArrayList<>();
    out.add(first);
    for (int i = 0; i + 1 < n; i++) {
      Pt b = waypoints.get(i);
      Pt c = waypoints.get(i + 1);
      Pt a = i > 0 ? waypoints.get(i - 1) : first.towards(c, -0.5);
      Pt d = i + 2 < n ? waypoints.get(i + 2) : last.towards(b, -0.5);
      int pieces = (int) StrictMath.max(1, StrictMath.rint(b.to(c) / stepM));
      for (int k = 1; k < pieces; k++) {
        out.add(centripetal(a, b, c, d, (double) k / pieces));
      }
      out.add(c);
    }
    return out;
  }

  private static Pt centripetal(Pt a, Pt b, Pt c, Pt d, double share) {
    double t1 = StrictMath.sqrt(a.to(b));
    double t2 = t1 + StrictMath.sqrt(b.to(c));
    double t3 = t2 + StrictMath.sqrt(c.to(d));
    double t = t1 + (t2 - t1) * share;
    Pt ab = a.towards(b, t / t1);
    Pt bc = b.towards(c, (t - t1) / (t2 - t1));
    Pt cd = c.towards(d, (t - t2) / (t3 - t2));
    Pt abc = ab.towards(bc, t / t2);
    Pt bcd = bc.towards(cd, (t - t1) / (t3 - t1));
    return abc.towards(bcd, (t - t1) / (t2 - t1));
  }

  /**
   * Moves every vertex sideways by smooth noise of three wavelengths.
   *
   * @param amplitudeM largest sideways move at a place; 0 keeps the vertex exactly
   */
  static List<Pt> bend(List<Pt> line, Dice dice, ToDoubleFunction<Pt> amplitudeM) {
    double length = length(line);
    Noise wide = new Noise(dice, length, 3400);
    Noise middle = new Noise(dice, length, 1150);
    Noise tight = new Noise(dice, length, 420);
    List<Pt> out = new ArrayList<>(line.size());
    double s = 0;
    for (int i = 0; i < line.size(); i++) {
      Pt p = line.get(i);
      s += i > 0 ? line.get(i - 1).to(p) : 0;
      double amplitude = amplitudeM.applyAsDouble(p);
      if (amplitude == 0) {
        out.add(p);
        continue;
      }
      double move = amplitude * (0.62 * wide.at(s) + 0.28 * middle.at(s) + 0.10 * tight.at(s));
      out.add(p.step(heading(line, i) + StrictMath.PI / 2, move));
    }
    return out;
  }

  /** The line this far to the left (right when negative). */
  static List<Pt> beside(List<Pt> line, double leftM) {
    List<Pt> out = new ArrayList<>(line.size());
    for (int i = 0; i < line.size(); i++) {
      out.add(line.get(i).step(heading(line, i) + StrictMath.PI / 2, leftM));
    }
    return out;
  }

  /** Heading at a vertex, from the neighbours on both sides. */
  static double heading(List<Pt> line, int i) {
    return line.get(StrictMath.max(0, i - 1))
        .bearing(line.get(StrictMath.min(line.size() - 1, i + 1)));
  }

  static double length(List<Pt> line) {
    double sum = 0;
    for (int i = 1; i < line.size(); i++) {
      sum += line.get(i - 1).to(line.get(i));
    }
    return sum;
  }

  /** Index of the vertex nearest to a point. */
  static int nearest(List<Pt> line, Pt p) {
    int best = 0;
    for (int i = 1; i < line.size(); i++) {
      if (line.get(i).to(p) < line.get(best).to(p)) {
        best = i;
      }
    }
    return best;
  }

  /** Where two segments cross, or null. */
  static Pt crossing(Pt a, Pt b, Pt c, Pt d) {
    double rx = b.x() - a.x();
    double ry = b.y() - a.y();
    double sx = d.x() - c.x();
    double sy = d.y() - c.y();
    double det = rx * sy - ry * sx;
    if (det == 0) {
      return null;
    }
    double t = ((c.x() - a.x()) * sy - (c.y() - a.y()) * sx) / det;
    double u = ((c.x() - a.x()) * ry - (c.y() - a.y()) * rx) / det;
    return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? new Pt(a.x() + t * rx, a.y() + t * ry) : null;
  }

  /** Smooth random values between -1 and 1 along a line. */
  private static final class Noise {
    private final double[] knots;
    private final double spacingM;

    Noise(Dice dice, double lengthM, double spacingM) {
      this.spacingM = spacingM;
      knots = new double[(int) (2 * lengthM / spacingM) + 4];
      for (int i = 0; i < knots.length; i++) {
        knots[i] = dice.uniform(-1, 1);
      }
    }

    double at(double s) {
      int i = StrictMath.min((int) (s / spacingM), knots.length - 2);
      double f = s / spacingM - i;
      double smooth = f * f * f * (f * (6 * f - 15) + 10);
      return knots[i] + (knots[i + 1] - knots[i]) * smooth;
    }
  }
}
