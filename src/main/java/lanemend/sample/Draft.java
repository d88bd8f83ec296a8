package lanemend.sample;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lanemend.network.RoadClass;

/**
 * A road on the drawing board, its points in the order of growing along.
 *
 * @param name signed route, or empty for a street or ramp that only carries traffic
 * @param direction signed direction of a divided road's roadway, else empty
 * @param oneWay traffic runs only in the order of the points
 */
record Draft(
    Kind kind,
    String name,
    String direction,
    RoadClass roadClass,
    List<Pt> points,
    boolean oneWay) {

  /** What decides a road's width, speed and traffic. */
  enum Kind {
    FREEWAY,
    STATE,
    COUNTY,
    HILL,
    STREET,
    RAMP
  }

  Draft {
    points = List.copyOf(points);
  }

  static Draft twoWay(Kind kind, String name, RoadClass roadClass, List<Pt> points) {
    return new Draft(kind, name, "", roadClass, points, false);
  }

  Draft with(List<Pt> changed) {
    return new Draft(kind, name, direction, roadClass, changed, oneWay);
  }

  /**
   * The road from its south end, or from its west end if it runs more east than north: how
   * mileposts usually rise. One-way roads run with their traffic.
   */
  Draft usual() {
    Pt a = points.get(0);
    Pt b = points.get(points.size() - 1);
    double dx = b.x() - a.x();
    double dy = b.y() - a.y();
    boolean forward = StrictMath.abs(dy) >= StrictMath.abs(dx) ? dy >= 0 : dx >= 0;
    return oneWay || forward ? this : with(reversed(points));
  }

  /** True when a road's ends leave no doubt whether it runs more north or more east. */
  static boolean clearCourse(List<Pt> points) {
    Pt a = points.get(0);
    Pt b = points.get(points.size() - 1);
    double dx = StrictMath.abs(b.x() - a.x());
    double dy = StrictMath.abs(b.y() - a.y());
    return StrictMath.max(dx, dy) > 1.2 * StrictMath.min(dx, dy);
  }

  static List<Pt> reversed(List<Pt> points) {
    List<Pt> out = new ArrayList<>(points);
    Collections.reverse(out);
    return out;
  }

  /** Route id as the rest of the program forms it. */
  String id() {
    return direction.isEmpty() ? name : name + " " + direction;
  }

  boolean isRoute() {
    return !name.isEmpty();
  }

  double lengthM() {
    return Curves.length(points);
  }

  /** Share of its length that counts as road miles: a divided road counts once. */
  double countedShare() {
    return direction.isEmpty() ? 1 : 0.5;
  }
}
