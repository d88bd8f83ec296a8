package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.sample.Weld.Welded;

/**
 * The roads as built: written vertices, facts by stretch.
 *
 * @param shared the stretch of SR 31 that SR 117 runs on, as vertex numbers of SR 31
 */
record Roads(Terrain terrain, Welded welded, List<Built> built, Shared shared) {

  private static final double LEAST_STRETCH_M = 350;
  private static final double OVERPASS_HALF_M = 75;

  /** A stretch of one drawn road from vertex to vertex over which nothing changes. */
  record Stretch(int from, int to, RoadFacts facts) {}

  /**
   * One drawn road.
   *
   * @param shape the written place of each vertex
   * @param level grade level of each segment
   */
  record Built(Draft draft, List<LonLat> shape, List<Stretch> stretches, int[] level) {}

  /** Vertex numbers of SR 31 between which SR 117 runs on it, south first. */
  record Shared(int from, int to) {}

  static Roads build(SampleSize size, Dice dice) {
    Terrain terrain = new Terrain(size, dice.fork());
    List<Draft> drafts = Board.draw(size, terrain, dice.fork());
    Welded welded = Weld.weld(drafts, dice.fork());
    Dice builds = dice.fork();
    List<Built> built = new ArrayList<>();
    for (int i = 0; i < drafts.size(); i++) {
      Draft d = welded.drafts().get(i);
      RoadFacts.Build build = RoadFacts.Build.of(d, builds);
      List<LonLat> shape = d.points().stream().map(LonLat::of).toList();
      built.add(new Built(d, shape, stretches(d, build, terrain), level(d, welded.over().get(i))));
    }
    return new Roads(terrain, welded, built, shared(welded.drafts()));
  }

  /** Drawn roads of a route, in order; two for SR 117. */
  List<Built> of(String routeId) {
    return built.stream().filter(b -> b.draft().id().equals(routeId)).toList();
  }

  private static Shared shared(List<Draft> drafts) {
    List<Pt> main = first(drafts, StateRoads.MAIN).orElseThrow().points();
    List<Draft> sharing = drafts.stream().filter(d -> d.name().equals(StateRoads.SHARING)).toList();
    List<Pt> south = sharing.get(0).points();
    return new Shared(
        main.indexOf(south.get(south.size() - 1)), main.indexOf(sharing.get(1).points().get(0)));
  }

  private static Optional<Draft> first(List<Draft> drafts, String name) {
    return drafts.stream().filter(d -> d.name().equals(name)).findFirst();
  }

  private static List<Stretch> stretches(Draft d, RoadFacts.Build build, Terrain terrain) {
    List<Stretch> out = new ArrayList<>();
    int from = 0;
    double length = 0;
    RoadFacts now = RoadFacts.at(d, build, d.points().get(0), terrain);
    int last = d.points().size() - 1;
    for (int i = 0; i < last; i++) {
      Pt a = d.points().get(i);
      Pt b = d.points().get(i + 1);
      RoadFacts here = RoadFacts.at(d, build, a.towards(b, 0.5), terrain);
      if (!here.equals(now) && length > LEAST_STRETCH_M) {
        out.add(new Stretch(from, i, now));
        from = i;
        length = 0;
        now = here;
      }
      length += a.to(b);
    }
    out.add(new Stretch(from, last, now));
    return out;
  }

  private static int[] level(Draft d, List<Pt> over) {
    int[] level = new int[d.points().size() - 1];
    for (int i = 0; i < level.length; i++) {
      Pt middle = d.points().get(i).towards(d.points().get(i + 1), 0.5);
      if (over.stream().anyMatch(p -> p.to(middle) < OVERPASS_HALF_M)) {
        level[i] = 1;
      }
    }
    return level;
  }
}
