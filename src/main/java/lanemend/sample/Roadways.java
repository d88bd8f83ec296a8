package lanemend.sample;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import lanemend.network.PiecewiseMileposts;
import lanemend.sample.Roads.Built;
import lanemend.sample.Roads.Shared;
import lanemend.sample.Roads.Stretch;
import lanemend.sample.Roadway.Led;
import lanemend.sample.Roadway.Span;

/** Makes routes out of drawn roads; joins SR 117 over the stretch it shares. */
final class Roadways {
  private Roadways() {}

  /** Every route, not yet numbered by signs. */
  static List<Roadway> of(Roads roads) {
    Set<String> ids = new LinkedHashSet<>();
    roads.built().stream().filter(b -> b.draft().isRoute()).forEach(b -> ids.add(b.draft().id()));
    List<Roadway> out = new ArrayList<>();
    for (String id : ids) {
      List<Built> built = roads.of(id);
      out.add(
          built.size() == 1
              ? road(built.get(0).draft(), built.get(0).shape(), built.get(0).stretches(), null)
              : sharing(built, roads.of(StateRoads.MAIN).get(0), roads.shared()));
    }
    return out;
  }

  private static Roadway sharing(List<Built> own, Built main, Shared shared) {
    List<LonLat> shape = new ArrayList<>(own.get(0).shape());
    List<Stretch> stretches = new ArrayList<>(own.get(0).stretches());
    int start = shape.size() - 1;
    for (Stretch s : main.stretches()) {
      int from = StrictMath.max(s.from(), shared.from());
      int to = StrictMath.min(s.to(), shared.to());
      if (from < to) {
        int shift = start - shared.from();
        stretches.add(new Stretch(from + shift, to + shift, s.facts()));
      }
    }
    shape.addAll(main.shape().subList(shared.from() + 1, shared.to() + 1));
    int end = shape.size() - 1;
    for (Stretch s : own.get(1).stretches()) {
      stretches.add(new Stretch(s.from() + end, s.to() + end, s.facts()));
    }
    List<LonLat> rest = own.get(1).shape();
    shape.addAll(rest.subList(1, rest.size()));
    double[] along = Roadway.alongOf(shape);
    double otherFrom = Roadway.alongOf(main.shape())[shared.from()];
    Led led = new Led(StateRoads.MAIN, along[start], along[end], otherFrom);
    return road(own.get(0).draft(), shape, stretches, led);
  }

  private static Roadway road(Draft d, List<LonLat> shape, List<Stretch> stretches, Led led) {
    double[] along = Roadway.alongOf(shape);
    List<Span> spans = new ArrayList<>();
    for (Stretch s : stretches) {
      spans.add(new Span(along[s.from()], along[s.to()], s.facts()));
    }
    return new Roadway(
        d.id(),
        d.name(),
        d.direction(),
        d.kind(),
        d.roadClass(),
        List.copyOf(shape),
        along,
        PiecewiseMileposts.uncalibrated(along[along.length - 1]),
        List.copyOf(spans),
        led == null ? Led.NONE : led);
  }
}
