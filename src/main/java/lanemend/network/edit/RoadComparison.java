package lanemend.network.edit;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import lanemend.network.Candidate;
import lanemend.network.CenterlinePart;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.SnapHint;

/**
 * Roads at hand beside roads as they were read again: which are new, which lie otherwise, which are
 * missing. Roads are told by their ids; mileposts and facts are not looked at.
 *
 * @param added routes that were read and are not at hand
 * @param changed routes as read whose line is another than that at hand
 * @param same ids of routes that lie as they lay
 * @param missing routes at hand that were not read
 */
public record RoadComparison(
    List<Route> added, List<Route> changed, List<String> same, List<Route> missing) {

  /** Lines nearer than this to each other everywhere are one line, metres: line ends are joined. */
  private static final double SAME_M = 0.5;

  /** And their lengths may differ by so much. */
  private static final double SAME_LENGTH_M = 2;

  public RoadComparison {
    added = List.copyOf(added);
    changed = List.copyOf(changed);
    same = List.copyOf(same);
    missing = List.copyOf(missing);
  }

  /** Compares. */
  public static RoadComparison of(Network atHand, Network read) {
    List<Route> added = new ArrayList<>();
    List<Route> changed = new ArrayList<>();
    List<String> same = new ArrayList<>();
    for (Route now : read.routes().values()) {
      Route old = atHand.routes().get(now.id());
      if (old == null) {
        added.add(now);
      } else if (alike(old, now, atHand.crsWkt())) {
        same.add(now.id());
      } else {
        changed.add(now);
      }
    }
    List<Route> missing =
        atHand.routes().values().stream().filter(r -> !read.routes().containsKey(r.id())).toList();
    return new RoadComparison(added, changed, same, missing);
  }

  private static boolean alike(Route a, Route b, String crsWkt) {
    return Math.abs(drawnM(a) - drawnM(b)) <= SAME_LENGTH_M
        && within(a, b, crsWkt)
        && within(b, a, crsWkt);
  }

  private static double drawnM(Route r) {
    return r.parts().stream().mapToDouble(p -> p.toAlong() - p.fromAlong()).sum();
  }

  /** True where every vertex of one line lies on the other. */
  private static boolean within(Route line, Route on, String crsWkt) {
    Locator locator = new Locator(new Network(crsWkt, Map.of(on.id(), on), List.of()));
    for (CenterlinePart p : line.parts()) {
      for (int i = 0; i < p.size(); i++) {
        List<Candidate> near = locator.candidates(p.x(i), p.y(i), SAME_M, SnapHint.NONE);
        if (near.isEmpty()) {
          return false;
        }
      }
    }
    return true;
  }
}
