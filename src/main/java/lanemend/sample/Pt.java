package lanemend.sample;

/** A point of the drawing board: metres east and north of the county's middle. */
record Pt(double x, double y) {

  Pt plus(double dx, double dy) {
    return new Pt(x + dx, y + dy);
  }

  double to(Pt other) {
    return StrictMath.hypot(other.x - x, other.y - y);
  }

  /** Direction towards another point, radians counter-clockwise from east. */
  double bearing(Pt other) {
    return StrictMath.atan2(other.y - y, other.x - x);
  }

  /** The point at {@code share} of the way to another. */
  Pt towards(Pt other, double share) {
    return new Pt(x + (other.x - x) * share, y + (other.y - y) * share);
  }

  /** The point this far away in a direction (radians counter-clockwise from east). */
  Pt step(double direction, double meters) {
    return new Pt(x + meters * StrictMath.cos(direction), y + meters * StrictMath.sin(direction));
  }
}
