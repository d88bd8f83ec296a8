package lanemend.crewdays;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * Cuts the repairs of one road, sorted along it, into work zones at least cost. Exact dynamic
 * program over two rows, the right side and the left: with {@code F(i, j)} the least cost of the
 * first i right and the first j left repairs, {@code F(i, j)} is the least of
 *
 * <pre>
 * F(h, j) + link(h) + zone(h, i)                    over h &lt; i, a zone of the right side
 * F(i, k) + link(k) + zone(k, j)                    over k &lt; j, a zone of the left side
 * F(h, k) + link(h) + link(k) + zone(h, i, k, j)    over both, a zone of both sides
 * </pre>
 *
 * where {@code zone} is infinite for spans that cannot be one zone and {@code link} is the drive
 * between the zones that meet. A road of one row is the same with the other row empty.
 */
public final class ZoneFormer {

  /** What the repairs {@code from <= i < to} of one row cost as one zone. */
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

  /** What a span of each row costs as one zone of both sides. */
  public interface BothCost {
    /**
     * Cost, infinite when they cannot be one zone.
     *
     * @param apart what the span costs at least cost in zones of one side; where one zone costs no
     *     less, the answer may be infinite too
     */
    double zone(Span span, double apart);

    /** True when neither this span nor any that holds it and has its starts can be a zone. */
    boolean hopeless(Span span);

    /**
     * True when no zone that starts at or before a repair of the right row reaches the left row's
     * repair, which lies further on. Must hold for all later left and all earlier right repairs
     * too.
     */
    boolean leftBeyond(int right, int left);

    /** The same of a left repair and a right one further on. */
    boolean rightBeyond(int left, int right);
  }

  /** Repairs of one zone in each row, from the first to before the last; empty in one of them. */
  public record Span(int rightFrom, int rightTo, int leftFrom, int leftTo) {}

  private final int rights;
  private final int lefts;
  private final ZoneCost right;
  private final ZoneCost left;
  private final BothCost both;

  /** Costs of zones of one side from each start, as far as it is not hopeless. */
  private final double[][] rightZones;

  private final double[][] leftZones;

  /** Least cost of each span of a row in zones of one side, within and at its start the drives. */
  private final double[][] rightApart;

  private final double[][] leftApart;

  /** The first left count worth looking at with each right count, and one past the last. */
  private final int[] low;

  private final int[] high;

  /** By right count, then left count from {@link #low}. */
  private final double[][] least;

  private final Span[][] last;

  private ZoneFormer(int rights, ZoneCost right, int lefts, ZoneCost left, BothCost both) {
    this.rights = rights;
    this.lefts = lefts;
    this.right = right;
    this.left = left;
    this.both = both;
    rightZones = zones(rights, right);
    leftZones = zones(lefts, left);
    rightApart = lefts == 0 ? rightZones : apart(rightZones, right);
    leftApart = apart(leftZones, left);
    low = new int[rights + 1];
    high = new int[rights + 1];
    least = new double[rights + 1][];
    last = new Span[rights + 1][];
    band();
  }

  /**
   * Cheapest cut of one row.
   *
   * @return the zones as those of the right side
   * @throws IllegalArgumentException when some repair fits no zone, not even alone
   */
  public static List<Span> cut(int repairs, ZoneCost cost) {
    return new ZoneFormer(repairs, cost, 0, cost, null).cut();
  }

  /**
   * Cheapest cut of a road with two sides.
   *
   * @return the zones; those of each row in its order
   * @throws IllegalArgumentException when some repair fits no zone, not even alone
   */
  public static List<Span> cut(
      int rights, ZoneCost right, int lefts, ZoneCost left, BothCost both) {
    return new ZoneFormer(rights, right, lefts, left, both).cut();
  }

  private static double[][] zones(int repairs, ZoneCost cost) {
    double[][] zones = new double[repairs][];
    for (int from = 0; from < repairs; from++) {
      double[] costs = new double[repairs - from];
      int to = from + 1;
      for (; to <= repairs && !cost.hopeless(from, to); to++) {
        costs[to - from - 1] = cost.zone(from, to);
      }
      zones[from] = Arrays.copyOf(costs, to - from - 1);
    }
    return zones;
  }

  /** As far from each start as its longest zone goes: no zone of both sides goes further. */
  private static double[][] apart(double[][] zones, ZoneCost cost) {
    double[][] apart = new double[zones.length][];
    for (int from = 0; from < zones.length; from++) {
      double[] least = new double[zones[from].length];
      Arrays.fill(least, Double.POSITIVE_INFINITY);
      for (int done = 0; done < least.length; done++) {
        int at = from + done;
        double before = (done == 0 ? 0 : least[done - 1]) + (at == 0 ? 0 : cost.link(at));
        for (int n = 1; n <= zones[at].length && done + n <= least.length; n++) {
          least[done + n - 1] = Math.min(least[done + n - 1], before + zones[at][n - 1]);
        }
      }
      apart[from] = least;
    }
    return apart;
  }

  /**
   * Zones of the two rows that do not meet may be taken in any order. Taken by where they start,
   * neither row is ever done further than one zone reaches past the other row's next repair; other
   * pairs of counts need not be looked at.
   */
  private void band() {
    for (int i = 0; i <= rights; i++) {
      int from = i == 0 ? 0 : low[i - 1];
      while (i > 0 && from < lefts && both.rightBeyond(from, i - 1)) {
        from++;
      }
      int to = Math.max(i == 0 ? 0 : high[i - 1] - 1, from);
      while (to < lefts && (i == rights || !both.leftBeyond(i, to))) {
        to++;
      }
      low[i] = from;
      high[i] = to + 1;
      least[i] = new double[to + 1 - from];
      last[i] = new Span[to + 1 - from];
      Arrays.fill(least[i], Double.POSITIVE_INFINITY);
    }
  }

  private List<Span> cut() {
    least[0][0] = 0;
    for (int i = 0; i <= rights; i++) {
      for (int j = low[i]; j < high[i]; j++) {
        double now = least[i][j - low[i]];
        if (now < Double.POSITIVE_INFINITY) {
          oneSide(i, j, now);
          bothSides(i, j, now);
        }
      }
    }
    if (!holds(rights, lefts) || least[rights][lefts - low[rights]] == Double.POSITIVE_INFINITY) {
      throw new IllegalArgumentException("some repair fits no work zone, not even alone");
    }
    List<Span> zones = new ArrayList<>();
    int i = rights;
    int j = lefts;
    while (i > 0 || j > 0) {
      Span zone = last[i][j - low[i]];
      zones.add(zone);
      i = zone.rightFrom();
      j = zone.leftFrom();
    }
    Collections.reverse(zones);
    return zones;
  }

  private void oneSide(int i, int j, double now) {
    if (i < rights) {
      double before = now + (i == 0 ? 0 : right.link(i));
      for (int n = 1; n <= rightZones[i].length; n++) {
        take(new Span(i, i + n, j, j), before + rightZones[i][n - 1]);
      }
    }
    if (j < lefts) {
      double before = now + (j == 0 ? 0 : left.link(j));
      for (int n = 1; n <= leftZones[j].length; n++) {
        take(new Span(i, i, j, j + n), before + leftZones[j][n - 1]);
      }
    }
  }

  private void bothSides(int i, int j, double now) {
    if (i == rights || j == lefts) {
      return;
    }
    // The drive along each row counts as for zones of one side: joined is only what saves a set-up.
    double drives = (i == 0 ? 0 : right.link(i)) + (j == 0 ? 0 : left.link(j));
    for (int to = i + 1; to <= i + rightApart[i].length; to++) {
      int end = j + 1;
      for (; end <= j + leftApart[j].length; end++) {
        Span span = new Span(i, to, j, end);
        if (both.hopeless(span)) {
          break;
        }
        double apart = rightApart[i][to - i - 1] + leftApart[j][end - j - 1];
        take(span, now + drives + both.zone(span, apart - drives));
      }
      if (end == j + 1) {
        return;
      }
    }
  }

  private boolean holds(int i, int j) {
    return j >= low[i] && j < high[i];
  }

  private void take(Span zone, double cost) {
    int i = zone.rightTo();
    int j = zone.leftTo();
    if (holds(i, j) && cost < least[i][j - low[i]]) {
      least[i][j - low[i]] = cost;
      last[i][j - low[i]] = zone;
    }
  }
}
