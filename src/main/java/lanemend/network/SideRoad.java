package lanemend.network;

/**
 * A road from which traffic comes onto a route, at one place of it.
 *
 * @param name route it is, or empty for a road without one
 * @param left true where it lies to the left of growing along
 * @param right true where it lies to the right; both for one that crosses
 */
public record SideRoad(double alongM, String name, boolean left, boolean right) {

  /** {@code CR 9}, or that it has no name. */
  public String words() {
    return name.isEmpty() ? "unnamed road" : name;
  }

  /** Ways traffic comes in: 1, or 2 for one that crosses. */
  public int mouths() {
    return (left ? 1 : 0) + (right ? 1 : 0);
  }
}
