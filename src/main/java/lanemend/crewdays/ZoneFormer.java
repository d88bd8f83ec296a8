package lanemend.crewdays;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Cuts a row of repairs, sorted along one route and side, into work zones at least cost. Exact
 * dynamic program: with {@code F(j)} the least cost of the first j repairs, {@code F(j) = min over
 * i < j of F(i) + link(i) + zone(i, j)}, where {@code zone} is infinite for spans that cannot be
 * one zone and {@code link(i)} is the drive between the zones that meet before repair i.
 */
public final class ZoneFormer {

  /** What the repairs {@code from <= i < to} cost as one zone. */
  public interface ZoneCost {
    /** Cost, infinite when they cannot be one zone. */
    double zone(int from, int to);

    /** Cost of driving from a zone that ends before repair {@code at} to the one it starts. */
    double link(int at);

    /**
     * True when neither this span nor any longer one from the same start can be a zone; the program
     * then stops looking further.
     */
    boolean hopeless(int from, int to);
  }

  private ZoneFormer() {}

  /**
   * Cheapest cut.
   *
   * @return starts and ends of the zones, {@code {from, to}} each
   * @throws IllegalArgumentException when some repair fits no zone, not even alone
   */
  public static List<int[]> cut(int repairs, ZoneCost cost) {
    double[] least = new double[repairs + 1];
    int[] start = new int[repairs + 1];
    java.util.Arrays.fill(least, Double.POSITIVE_INFINITY);
    least[0] = 0;
    for (int from = 0; from < repairs; from++) {
      if (least[from] == Double.POSITIVE_INFINITY) {
        continue;
      }
      double before = least[from] + (from == 0 ? 0 : cost.link(from));
      for (int to = from + 1; to <= repairs && !cost.hopeless(from, to); to++) {
        double c = before + cost.zone(from, to);
        if (c < least[to]) {
          least[to] = c;
          start[to] = from;
        }
      }
    }
    if (least[repairs] == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException("some repair fits no work zone, not even alone");
    }
    List<int[]> zones = new ArrayList<>();
    for (int to = repairs; to > 0; to = start[to]) {
      zones.add(new int[] {start[to], to});
    }
    Collections.reverse(zones);
    return zones;
  }
}
