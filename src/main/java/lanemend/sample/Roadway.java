package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.network.Lane;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.MilepostMap;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.sample.Draft.Kind;

/**
 * A route as the generator knows it to be: its ground, its mileposts and what holds where. All
 * along is geodesic metres from the route's start between written vertices.
 *
 * @param along metres at each vertex
 * @param led stretch on which another route leads and this one only shares the road; empty when it
 *     has no length
 */
record Roadway(
    String id,
    String name,
    String direction,
    Kind kind,
    RoadClass roadClass,
    List<LonLat> shape,
    double[] along,
    MilepostMap mileposts,
    List<Span> spans,
    Led led) {

  /** Facts from along to along. */
  record Span(double fromM, double toM, RoadFacts facts) {}

  /** Stretch of this route that belongs to another, which runs there from {@code otherFromM}. */
  record Led(String otherId, double fromM, double toM, double otherFromM) {
    static final Led NONE = new Led("", 0, 0, 0);

    boolean holds(double alongM) {
      return alongM >= fromM && alongM < toM;
    }
  }

  /** A place written as a milepost, with the along that the written number stands for. */
  record Written(String text, double alongM) {}

  static double[] alongOf(List<LonLat> shape) {
    double[] along = new double[shape.size()];
    for (int i = 1; i < along.length; i++) {
      along[i] = along[i - 1] + shape.get(i - 1).metersTo(shape.get(i));
    }
    return along;
  }

  Roadway with(MilepostMap map) {
    return new Roadway(id, name, direction, kind, roadClass, shape, along, map, spans, led);
  }

  double lengthM() {
    return along[along.length - 1];
  }

  RoadFacts facts(double alongM) {
    for (Span s : spans) {
      if (alongM < s.toM()) {
        return s.facts();
      }
    }
    return spans.get(spans.size() - 1).facts();
  }

  private int segment(double alongM) {
    int i = java.util.Arrays.binarySearch(along, alongM);
    i = i < 0 ? -i - 2 : i;
    return StrictMath.max(0, StrictMath.min(along.length - 2, i));
  }

  /** The place this far along, {@code rightM} to the right of the centreline. */
  Pt pointAt(double alongM, double rightM) {
    int i = segment(alongM);
    Pt a = shape.get(i).pt();
    Pt b = shape.get(i + 1).pt();
    Pt on = a.towards(b, (alongM - along[i]) / (along[i + 1] - along[i]));
    return rightM == 0 ? on : on.step(a.bearing(b) - StrictMath.PI / 2, rightM);
  }

  /** Metres to the nearest vertex. */
  double metersFromVertex(double alongM) {
    int i = segment(alongM);
    return StrictMath.min(alongM - along[i], along[i + 1] - alongM);
  }

  /** Along of the place on this road nearest to a point. */
  double footOf(Pt p) {
    double best = Double.MAX_VALUE;
    double foot = 0;
    for (int i = 0; i + 1 < along.length; i++) {
      Pt a = shape.get(i).pt();
      Pt b = shape.get(i + 1).pt();
      double dx = b.x() - a.x();
      double dy = b.y() - a.y();
      double share = ((p.x() - a.x()) * dx + (p.y() - a.y()) * dy) / (dx * dx + dy * dy);
      share = StrictMath.max(0, StrictMath.min(1, share));
      double d = a.towards(b, share).to(p);
      if (d < best) {
        best = d;
        foot = along[i] + share * (along[i + 1] - along[i]);
      }
    }
    return foot;
  }

  /**
   * Writes a place as a milepost of three decimals that leads back to one place; near an equation
   * the place is moved a few metres to where the number is clear.
   */
  Written write(double alongM) {
    for (double move = 0; move < 40; move += 2) {
      for (double place : new double[] {alongM + move, alongM - move}) {
        double p = StrictMath.max(0, StrictMath.min(lengthM(), place));
        Milepost exact = mileposts.at(p);
        double rounded = StrictMath.rint(exact.miles() * 1000) / 1000;
        Milepost written = new Milepost(rounded, exact.equationSide());
        if (mileposts.find(written) instanceof MilepostLookup.Found found
            && StrictMath.abs(found.alongM() - p) < 2) {
          return new Written(written.text(), found.alongM());
        }
      }
    }
    throw new IllegalStateException(
        String.format(Locale.ROOT, "%s has no clear milepost at %.1f m", id, alongM));
  }

  /** Lanes at a place, by the way the rest of the program counts them. */
  List<Lane> lanes(double alongM) {
    int perSide = StrictMath.max(1, facts(alongM).lanes() / 2);
    List<Lane> out = new ArrayList<>();
    for (int n = 1; n <= perSide; n++) {
      out.add(new Lane(Side.RIGHT, n));
      out.add(new Lane(Side.LEFT, n));
    }
    return out;
  }

  /** Middle of a lane, metres to the right of the centreline. */
  double rightOf(Lane lane, double alongM) {
    double width = facts(alongM).laneWidthFt() * lanemend.measure.Conversion.M_PER_FT;
    double out = (lane.number() - 0.5) * width;
    return lane.side() == Side.RIGHT ? out : -out;
  }
}
