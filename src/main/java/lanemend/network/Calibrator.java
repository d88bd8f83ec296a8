package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Sets mileposts on routes. Posts may rise or fall along the route. Those that stand too far from
 * the road, off its length or out of order are left out and named; the order kept is the one that
 * keeps most posts.
 */
public final class Calibrator {
  /** A post farther from the centreline than this stands on another road. */
  public static final double POST_REACH_M = 60;

  /** A distance may run over the route's end by this much: the road was measured, not the line. */
  private static final double END_SLACK_M = 5;

  /** Posts whose numbers differ from the road between them by more than this share are named. */
  private static final double ODD_SPACING = 0.25;

  /** Opposite roadways are at most this far from the main one. */
  private static final double OPPOSITE_REACH_M = 250;

  /** Places of an opposite roadway whose milepost is read off the main one. */
  private static final double OPPOSITE_STEP_M = 400;

  /** So near a post nothing more is read off, or small sideways errors would bend the numbers. */
  private static final double NEAR_POST_M = 150;

  private Calibrator() {}

  /** A network with its mileposts set, and what could not be used of the posts. */
  public record CalibratedNetwork(Network network, List<AssemblyNote> notes) {
    public CalibratedNetwork {
      notes = List.copyOf(notes);
    }
  }

  /** Sets posts on every route they are given for, and renews those of opposite roadways. */
  public static CalibratedNetwork calibrate(
      Network network, Map<String, List<PostSighting>> postsByRouteId) {
    Map<String, Route> routes = new LinkedHashMap<>(network.routes());
    List<AssemblyNote> notes = new ArrayList<>();
    postsByRouteId.forEach(
        (id, posts) -> {
          Route route = routes.get(id);
          if (route == null) {
            for (PostSighting post : posts) {
              notes.add(new AssemblyNote(id, post.origin(), "post left out: no route " + id));
            }
            return;
          }
          Calibration calibration = calibrate(route, posts);
          routes.put(id, calibration.route());
          notes.addAll(calibration.notes());
        });
    for (Route route : List.copyOf(routes.values())) {
      String mainDirection =
          route.direction().endsWith(RouteAssembler.OPPOSITE)
              ? route.direction().replace(RouteAssembler.OPPOSITE, "").strip()
              : null;
      if (mainDirection != null && !postsByRouteId.containsKey(route.id())) {
        routes.values().stream()
            .filter(r -> r.name().equals(route.name()) && r.direction().equals(mainDirection))
            .findFirst()
            .ifPresent(main -> routes.put(route.id(), alongside(route, main)));
      }
    }
    return new CalibratedNetwork(
        new Network(network.crsWkt(), routes, network.connectors()), notes);
  }

  /** The route with mileposts through its posts; unchanged when none can be used. */
  public static Calibration calibrate(Route route, List<PostSighting> posts) {
    List<AssemblyNote> notes = new ArrayList<>();
    List<PostChain.Option> options = new ArrayList<>();
    SegmentIndex index = new SegmentIndex(route.parts());
    for (int i = 0; i < posts.size(); i++) {
      PostSighting post = posts.get(i);
      int before = options.size();
      String why = addOptions(i, post, route, index, options);
      if (options.size() == before) {
        notes.add(new AssemblyNote(route.id(), post.origin(), "post " + text(post) + why));
      }
    }
    PostChain chain = PostChain.longest(options);
    for (int i = 0; i < posts.size(); i++) {
      int post = i;
      boolean had = options.stream().anyMatch(o -> o.post() == post);
      if (had && chain.options().stream().noneMatch(o -> o.post() == post)) {
        notes.add(
            new AssemblyNote(
                route.id(),
                posts.get(i).origin(),
                "post "
                    + text(posts.get(i))
                    + " left out: it is out of order with the posts before and after it along the"
                    + " road, and no equation says why"));
      }
    }
    if (chain.options().isEmpty()) {
      return new Calibration(route, notes);
    }
    MilepostMap map = withoutThirdPlaces(route, posts, chain.options(), notes);
    noteOddSpacing(route, posts, chain.options(), notes);
    return new Calibration(route.withMileposts(map), notes);
  }

  /** Adds where a post may stand; the reason when there is no such place. */
  private static String addOptions(
      int number,
      PostSighting post,
      Route route,
      SegmentIndex index,
      List<PostChain.Option> options) {
    if (!Double.isFinite(post.backMiles()) || !Double.isFinite(post.aheadMiles())) {
      return " left out: its milepost is not a number";
    }
    if (post.alongM().isPresent()) {
      double along = post.alongM().getAsDouble();
      if (!(along >= -END_SLACK_M && along <= route.lengthM() + END_SLACK_M)) {
        return String.format(
            Locale.ROOT,
            " left out: %.1f m along is off the route, which is %.1f m long",
            along,
            route.lengthM());
      }
      double on = Math.max(0, Math.min(route.lengthM(), along));
      options.add(option(number, post, on, 0));
      return "";
    }
    List<SegmentIndex.Foot> feet = index.near(post.x(), post.y(), POST_REACH_M);
    for (SegmentIndex.Foot foot : SeparatePlaces.of(feet, index, post.x(), post.y())) {
      options.add(option(number, post, foot.alongM(), foot.distance()));
    }
    return String.format(
        Locale.ROOT, " left out: it stands more than %.0f m from the road", POST_REACH_M);
  }

  private static PostChain.Option option(int n, PostSighting post, double along, double distance) {
    return new PostChain.Option(n, along, post.backMiles(), post.aheadMiles(), distance);
  }

  private static String text(PostSighting post) {
    return post.backMiles() == post.aheadMiles()
        ? String.format(Locale.ROOT, "%.3f", post.backMiles())
        : String.format(Locale.ROOT, "%.3f = %.3f", post.backMiles(), post.aheadMiles());
  }

  /**
   * The map through the posts. Where equations make a number occur at three places, the later
   * equations are left out until back and ahead are enough to tell places apart.
   */
  private static MilepostMap withoutThirdPlaces(
      Route route,
      List<PostSighting> posts,
      List<PostChain.Option> chain,
      List<AssemblyNote> notes) {
    List<PostChain.Option> kept = new ArrayList<>(chain);
    while (true) {
      try {
        return PiecewiseMileposts.of(
            kept.stream().map(PostChain.Option::calibrationPost).toList(), route.lengthM());
      } catch (IllegalArgumentException e) {
        int equation = kept.size() - 1;
        while (equation > 0 && kept.get(equation).backMiles() == kept.get(equation).aheadMiles()) {
          equation--;
        }
        // Numbering cannot go on past a dropped equation, so what follows goes with it.
        for (PostChain.Option lost : kept.subList(equation, kept.size())) {
          PostSighting post = posts.get(lost.post());
          notes.add(
              new AssemblyNote(
                  route.id(),
                  post.origin(),
                  "post " + text(post) + " left out: " + e.getMessage()));
        }
        kept.subList(equation, kept.size()).clear();
        if (kept.isEmpty()) {
          return route.mileposts();
        }
      }
    }
  }

  private static void noteOddSpacing(
      Route route,
      List<PostSighting> posts,
      List<PostChain.Option> chain,
      List<AssemblyNote> notes) {
    for (int i = 1; i < chain.size(); i++) {
      PostChain.Option a = chain.get(i - 1);
      PostChain.Option b = chain.get(i);
      double miles = Math.abs(b.backMiles() - a.aheadMiles());
      double road = (b.alongM() - a.alongM()) / PiecewiseMileposts.METRES_PER_MILE;
      if (Math.abs(road / miles - 1) > ODD_SPACING) {
        notes.add(
            new AssemblyNote(
                route.id(),
                posts.get(b.post()).origin(),
                String.format(
                    Locale.ROOT,
                    "posts %.3f and %.3f are %.3f miles of road apart, their numbers %.3f; kept",
                    a.aheadMiles(),
                    b.backMiles(),
                    road,
                    miles)));
      }
    }
  }

  /**
   * The opposite roadway of a divided road with the mileposts of its main roadway: each of the main
   * one's posts, and places in between, set square across. They fall along the opposite roadway
   * where they rise along the main one.
   */
  static Route alongside(Route opposite, Route main) {
    SegmentIndex mainIndex = new SegmentIndex(main.parts());
    SegmentIndex oppositeIndex = new SegmentIndex(opposite.parts());
    List<PostChain.Option> options = new ArrayList<>();
    int number = 0;
    for (CalibrationPost post : main.mileposts().posts()) {
      double[] p = pointOn(main, post.alongM());
      SegmentIndex.Foot foot =
          p == null ? null : oppositeIndex.nearest(p[0], p[1], OPPOSITE_REACH_M);
      if (foot != null && insidePart(opposite, foot)) {
        options.add(
            new PostChain.Option(
                number++,
                foot.alongM(),
                /* backMiles= */ post.aheadMiles(),
                /* aheadMiles= */ post.backMiles(),
                foot.distance()));
      }
    }
    for (CenterlinePart part : opposite.parts()) {
      int steps =
          (int) Math.max(1, Math.ceil((part.toAlong() - part.fromAlong()) / OPPOSITE_STEP_M));
      for (int i = 0; i <= steps; i++) {
        double along = part.fromAlong() + (part.toAlong() - part.fromAlong()) * i / steps;
        boolean end = i == 0 || i == steps;
        if (!end && options.stream().anyMatch(o -> Math.abs(o.alongM() - along) < NEAR_POST_M)) {
          continue;
        }
        double[] p = Piece.at(part, along);
        SegmentIndex.Foot foot = mainIndex.nearest(p[0], p[1], mainIndex.reach(p[0], p[1]));
        double miles = main.mileposts().at(foot.alongM()).miles();
        options.add(new PostChain.Option(number++, along, miles, miles, foot.distance()));
      }
    }
    List<CalibrationPost> posts =
        PostChain.longest(options).options().stream()
            .map(PostChain.Option::calibrationPost)
            .toList();
    boolean calibrated = main.mileposts().calibrated();
    try {
      return opposite.withMileposts(
          PiecewiseMileposts.derived(posts, opposite.lengthM(), calibrated));
    } catch (IllegalArgumentException e) {
      return opposite.withMileposts(PiecewiseMileposts.uncalibrated(opposite.lengthM()));
    }
  }

  /** True for a foot in the run of a part, false where the part merely ends nearest. */
  private static boolean insidePart(Route route, SegmentIndex.Foot foot) {
    CenterlinePart part = route.parts().get(foot.line());
    return foot.alongM() > part.fromAlong() && foot.alongM() < part.toAlong();
  }

  private static double[] pointOn(Route route, double along) {
    return route.parts().stream()
        .filter(p -> along >= p.fromAlong() && along <= p.toAlong())
        .min(Comparator.comparingDouble(CenterlinePart::fromAlong))
        .map(p -> Piece.at(p, along))
        .orElse(null);
  }
}
