package lanemend.sample;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import lanemend.sample.Draft.Kind;

/**
 * Gives roads that cross one shared vertex where they meet. Roads over the freeway get none; a few
 * crossings are left without one, as real files leave them.
 */
final class Weld {

  /**
   * The roads with their shared vertices.
   *
   * @param meetings how many roads have a vertex there; only looked up, never listed
   * @param over for each road, where it passes over the freeway
   */
  record Welded(List<Draft> drafts, Map<Pt, Integer> meetings, List<List<Pt>> over) {

    boolean isNode(Pt p) {
      return meetings.getOrDefault(p, 0) > 1;
    }
  }

  private static final double CLOSE_M = 4;
  private static final double LEFT_CROSSING = 0.08;

  private record Insert(int segment, double afterM, Pt point) {}

  private final List<Draft> drafts;
  private final Dice dice;
  private final List<List<Insert>> inserts = new ArrayList<>();
  private final List<Set<Pt>> has = new ArrayList<>();
  private final List<List<Pt>> over = new ArrayList<>();

  private Weld(List<Draft> drafts, Dice dice) {
    this.drafts = drafts;
    this.dice = dice;
    for (Draft d : drafts) {
      inserts.add(new ArrayList<>());
      has.add(new HashSet<>(d.points()));
      over.add(new ArrayList<>());
    }
  }

  static Welded weld(List<Draft> drafts, Dice dice) {
    Weld w = new Weld(drafts, dice);
    Nearby all = new Nearby();
    for (int i = 0; i < drafts.size(); i++) {
      all.add(i, drafts.get(i).points());
    }
    for (int i = 0; i < drafts.size(); i++) {
      List<Pt> line = drafts.get(i).points();
      for (int k = 0; k + 1 < line.size(); k++) {
        for (Nearby.Segment s : inOrder(all.crossed(line.get(k), line.get(k + 1)))) {
          if (s.road() > i) {
            w.meet(i, k, s);
          }
        }
      }
    }
    return w.done();
  }

  private static List<Nearby.Segment> inOrder(List<Nearby.Segment> segments) {
    List<Nearby.Segment> out = new ArrayList<>(segments);
    out.sort(Comparator.comparingInt(Nearby.Segment::road).thenComparingInt(Nearby.Segment::index));
    return out;
  }

  private void meet(int road, int segment, Nearby.Segment other) {
    Pt a = drafts.get(road).points().get(segment);
    Pt b = drafts.get(road).points().get(segment + 1);
    Pt p = Curves.crossing(a, b, other.from(), other.to());
    Pt mine = p.to(a) < CLOSE_M ? a : p.to(b) < CLOSE_M ? b : null;
    Pt theirs =
        p.to(other.from()) < CLOSE_M
            ? other.from()
            : p.to(other.to()) < CLOSE_M ? other.to() : null;
    if (mine != null && mine.equals(theirs)) {
      return;
    }
    Kind first = drafts.get(road).kind();
    Kind second = drafts.get(other.road()).kind();
    if (first == Kind.FREEWAY || second == Kind.FREEWAY) {
      over.get(first == Kind.FREEWAY ? other.road() : road).add(p);
      return;
    }
    boolean open = first == Kind.STATE && second == Kind.COUNTY;
    if (open && mine == null && theirs == null && dice.chance(LEFT_CROSSING)) {
      return;
    }
    Pt shared = mine != null ? mine : theirs != null ? theirs : p;
    insert(road, segment, a, shared);
    insert(other.road(), other.index(), other.from(), shared);
  }

  private void insert(int road, int segment, Pt start, Pt shared) {
    if (has.get(road).add(shared)) {
      inserts.get(road).add(new Insert(segment, start.to(shared), shared));
    }
  }

  private Welded done() {
    List<Draft> out = new ArrayList<>();
    Map<Pt, Integer> meetings = new HashMap<>();
    for (int i = 0; i < drafts.size(); i++) {
      Map<Integer, List<Insert>> bySegment = new TreeMap<>();
      for (Insert in : inserts.get(i)) {
        bySegment.computeIfAbsent(in.segment(), k -> new ArrayList<>()).add(in);
      }
      List<Pt> line = new ArrayList<>();
      for (int k = 0; k < drafts.get(i).points().size(); k++) {
        line.add(drafts.get(i).points().get(k));
        List<Insert> here = bySegment.getOrDefault(k, List.of());
        here.stream()
            .sorted(Comparator.comparingDouble(Insert::afterM))
            .forEach(in -> line.add(in.point()));
      }
      for (Pt p : new HashSet<>(line)) {
        meetings.merge(p, 1, Integer::sum);
      }
      out.add(drafts.get(i).with(line));
    }
    return new Welded(out, meetings, over);
  }
}
