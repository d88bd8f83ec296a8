package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.quadtree.Quadtree;

/** Finds road vertices and crossings near a place, while roads are still being added. */
final class Nearby {

  /** The stretch from vertex {@code index} to the next of one road. */
  record Segment(int road, int index, Pt from, Pt to) {}

  private final Quadtree tree = new Quadtree();

  void add(int road, List<Pt> line) {
    for (int i = 0; i + 1 < line.size(); i++) {
      Pt a = line.get(i);
      Pt b = line.get(i + 1);
      tree.insert(new Envelope(a.x(), b.x(), a.y(), b.y()), new Segment(road, i, a, b));
    }
  }

  /** The vertex nearest to {@code p} within the distance, or null. */
  Pt vertex(Pt p, double withinM) {
    Pt best = null;
    double bestM = withinM;
    for (Segment s : around(new Envelope(p.x(), p.x(), p.y(), p.y()), withinM)) {
      for (Pt q : List.of(s.from(), s.to())) {
        double d = q.to(p);
        if (d < bestM || (d == bestM && best != null && q.x() < best.x())) {
          best = q;
          bestM = d;
        }
      }
    }
    return best;
  }

  /** Segments whose boxes come within the distance of the line from a to b. */
  List<Segment> around(Pt a, Pt b, double withinM) {
    return around(new Envelope(a.x(), b.x(), a.y(), b.y()), withinM);
  }

  /** Segments the line from a to b crosses or touches. */
  List<Segment> crossed(Pt a, Pt b) {
    List<Segment> out = new ArrayList<>();
    for (Segment s : around(a, b, 0.01)) {
      if (Curves.crossing(a, b, s.from(), s.to()) != null) {
        out.add(s);
      }
    }
    return out;
  }

  boolean touches(List<Pt> line) {
    for (int i = 0; i + 1 < line.size(); i++) {
      if (!crossed(line.get(i), line.get(i + 1)).isEmpty()) {
        return true;
      }
    }
    return false;
  }

  private List<Segment> around(Envelope box, double withinM) {
    box.expandBy(withinM);
    List<Segment> out = new ArrayList<>();
    for (Object o : tree.query(box)) {
      Segment s = (Segment) o;
      if (box.intersects(new Envelope(s.from().x(), s.to().x(), s.from().y(), s.to().y()))) {
        out.add(s);
      }
    }
    return out;
  }
}
