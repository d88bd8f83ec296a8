package lanemend.network;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jgrapht.alg.util.UnionFind;
import org.locationtech.jts.algorithm.RobustLineIntersector;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;

/**
 * Finds where lines meet, so that traffic can change from one to the other:
 *
 * <ul>
 *   <li>where they share a vertex that is an end of one of them;
 *   <li>where they share any other vertex, or cross, on the same level;
 *   <li>where the end of one lies within half a metre of the other, on the same level.
 * </ul>
 */
final class LinkCutter {
  private static final double TOUCH_M = LineCleaner.SNAP_M;

  private record Place(double x, double y) {}

  private record Visit(int line, int vertex) {}

  private final List<CenterlinePart> lines;
  private final List<TravelTable> travel;
  private final SegmentIndex index;

  /** For each line, node by along. */
  private final List<TreeMap<Double, Integer>> cuts = new ArrayList<>();

  private final List<Integer> nodeNumbers = new ArrayList<>();
  private final UnionFind<Integer> joined = new UnionFind<>(Set.of());

  LinkCutter(List<CenterlinePart> lines, List<TravelTable> travel, SegmentIndex index) {
    this.lines = lines;
    this.travel = travel;
    this.index = index;
    lines.forEach(line -> cuts.add(new TreeMap<>()));
    cutAtSharedVertices();
    for (int line = 0; line < lines.size(); line++) {
      cutWhereTouched(line, 0);
      cutWhereTouched(line, lines.get(line).size() - 1);
    }
    cutAtCrossings();
  }

  /** Where a line is cut: nodes by along, its ends included. Joined places share a number. */
  SortedMap<Double, Integer> cutsOf(int line) {
    TreeMap<Double, Integer> numbered = new TreeMap<>();
    cuts.get(line).forEach((along, node) -> numbered.put(along, joined.find(node)));
    return numbered;
  }

  private int newNode() {
    int node = nodeNumbers.size();
    nodeNumbers.add(node);
    joined.addElement(node);
    return node;
  }

  private void cut(int line, double along, int node) {
    Integer known = cuts.get(line).putIfAbsent(along, node);
    if (known != null) {
      joined.union(known, node);
    }
  }

  private void cutAtSharedVertices() {
    Map<Place, List<Visit>> visits = new HashMap<>();
    for (int line = 0; line < lines.size(); line++) {
      CenterlinePart part = lines.get(line);
      for (int v = 0; v < part.size(); v++) {
        visits
            .computeIfAbsent(new Place(part.x(v), part.y(v)), p -> new ArrayList<>(1))
            .add(new Visit(line, v));
      }
    }
    for (List<Visit> here : visits.values()) {
      if (here.size() > 1 || isEnd(here.get(0))) {
        joinVisits(here);
      }
    }
  }

  private boolean isEnd(Visit visit) {
    return visit.vertex == 0 || visit.vertex == lines.get(visit.line).size() - 1;
  }

  /** Groups what meets at one vertex; each group where a way may branch off becomes a node. */
  private void joinVisits(List<Visit> here) {
    List<List<Visit>> groups = new ArrayList<>();
    for (Visit visit : here) {
      List<Visit> own = new ArrayList<>(List.of(visit));
      groups.removeIf(
          group -> {
            boolean meets = group.stream().anyMatch(other -> meet(visit, other));
            if (meets) {
              own.addAll(group);
            }
            return meets;
          });
      groups.add(own);
    }
    for (List<Visit> group : groups) {
      if (group.stream().anyMatch(this::isEnd) || neighbours(group).size() > 2) {
        int node = newNode();
        group.forEach(v -> cut(v.line, lines.get(v.line).along(v.vertex), node));
      }
    }
  }

  private boolean meet(Visit a, Visit b) {
    if (isEnd(a) || isEnd(b)) {
      return true;
    }
    double alongA = lines.get(a.line).along(a.vertex);
    double alongB = lines.get(b.line).along(b.vertex);
    TravelTable onA = travel.get(a.line);
    TravelTable onB = travel.get(b.line);
    Set<Integer> levels = Set.of(onB.levelBefore(alongB));
    return levels.contains(onA.levelBefore(alongA))
        || levels.contains(onA.levelAfter(alongA))
        || onB.levelAfter(alongB) == onA.levelBefore(alongA)
        || onB.levelAfter(alongB) == onA.levelAfter(alongA);
  }

  private Set<Place> neighbours(List<Visit> group) {
    Set<Place> around = new HashSet<>();
    for (Visit visit : group) {
      CenterlinePart part = lines.get(visit.line);
      for (int v : new int[] {visit.vertex - 1, visit.vertex + 1}) {
        if (v >= 0 && v < part.size()) {
          around.add(new Place(part.x(v), part.y(v)));
        }
      }
    }
    return around;
  }

  /** An end that stops on, or just short of, the middle of another line. */
  private void cutWhereTouched(int line, int end) {
    CenterlinePart part = lines.get(line);
    int node = cuts.get(line).get(part.along(end));
    TravelTable own = travel.get(line);
    int level = end == 0 ? own.levelAfter(part.along(end)) : own.levelBefore(part.along(end));
    Map<Integer, SegmentIndex.Foot> nearest = new TreeMap<>();
    for (SegmentIndex.Foot foot : index.near(part.x(end), part.y(end), TOUCH_M)) {
      if (foot.line() != line) {
        nearest.merge(foot.line(), foot, (a, b) -> a.distance() <= b.distance() ? a : b);
      }
    }
    nearest.forEach(
        (other, foot) -> {
          TravelTable there = travel.get(other);
          boolean meetsBefore = there.levelBefore(foot.alongM()) == level;
          if (meetsBefore || there.levelAfter(foot.alongM()) == level) {
            joinAt(other, foot, node);
          }
        });
  }

  /** Cuts at the foot, or at a vertex or cut that is as good as there. */
  private void joinAt(int line, SegmentIndex.Foot foot, int node) {
    CenterlinePart part = lines.get(line);
    double along = foot.alongM();
    for (int v : new int[] {foot.segment(), foot.segment() + 1}) {
      if (Math.abs(part.along(v) - foot.alongM()) <= TOUCH_M) {
        along = part.along(v);
      }
    }
    cut(line, along, node);
  }

  private void cutAtCrossings() {
    RobustLineIntersector intersector = new RobustLineIntersector();
    for (int line = 0; line < lines.size(); line++) {
      for (int s = 0; s < lines.get(line).size() - 1; s++) {
        int ownLine = line;
        int ownSegment = s;
        CenterlinePart own = lines.get(line);
        Envelope box = new Envelope(own.x(s), own.x(s + 1), own.y(s), own.y(s + 1));
        index.inBox(
            box,
            (other, segment) -> {
              boolean later = other > ownLine || (other == ownLine && segment > ownSegment + 1);
              if (later
                  && mayCross(box, other, segment)
                  && !share(ownLine, ownSegment, other, segment)) {
                cross(intersector, ownLine, ownSegment, other, segment);
              }
            });
      }
    }
  }

  private boolean mayCross(Envelope box, int line, int s) {
    CenterlinePart part = lines.get(line);
    return box.intersects(
        new Coordinate(part.x(s), part.y(s)), new Coordinate(part.x(s + 1), part.y(s + 1)));
  }

  /** Segments that share a vertex meet there already, if at all. */
  private boolean share(int lineA, int a, int lineB, int b) {
    CenterlinePart onA = lines.get(lineA);
    CenterlinePart onB = lines.get(lineB);
    for (int i = a; i <= a + 1; i++) {
      for (int k = b; k <= b + 1; k++) {
        if (onA.x(i) == onB.x(k) && onA.y(i) == onB.y(k)) {
          return true;
        }
      }
    }
    return false;
  }

  private void cross(RobustLineIntersector intersector, int lineA, int a, int lineB, int b) {
    intersector.computeIntersection(
        vertex(lineA, a), vertex(lineA, a + 1), vertex(lineB, b), vertex(lineB, b + 1));
    for (int i = 0; i < intersector.getIntersectionNum(); i++) {
      Coordinate at = intersector.getIntersection(i);
      double alongA = alongOf(lineA, a, at);
      double alongB = alongOf(lineB, b, at);
      if (travel.get(lineA).levelAfter(alongA) == travel.get(lineB).levelAfter(alongB)) {
        int node = newNode();
        cut(lineA, alongA, node);
        cut(lineB, alongB, node);
      }
    }
  }

  private Coordinate vertex(int line, int v) {
    return new Coordinate(lines.get(line).x(v), lines.get(line).y(v));
  }

  private double alongOf(int line, int s, Coordinate at) {
    CenterlinePart part = lines.get(line);
    double whole = Math.hypot(part.x(s + 1) - part.x(s), part.y(s + 1) - part.y(s));
    double t = Math.hypot(at.x - part.x(s), at.y - part.y(s)) / whole;
    return t >= 1 ? part.along(s + 1) : part.along(s) + t * (part.along(s + 1) - part.along(s));
  }
}
