package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiPredicate;

/**
 * Places on routes to points and back. Immutable once made; safe for several threads.
 *
 * <p>Belief in a candidate is the product of three likelihoods, then shared out over all candidates
 * of the point: distance (normal; the point's accuracy and the width of a road together), heading
 * (normal about the road's direction with a floor, because headings are sometimes plain wrong) and
 * the route named.
 */
public final class Locator {
  /** Spread of a defect across the road about its centreline, metres (common practice). */
  private static final double ROAD_SPREAD_M = 3;

  /** Spread of a patrol's compass heading against the road's, degrees (common practice). */
  private static final double HEADING_SPREAD_DEG = 30;

  /** Likelihood left for a heading that fits not at all. */
  private static final double HEADING_FLOOR = 0.02;

  /** Odds for the route the patrol says it drives (common practice). */
  private static final double NAMED_ODDS = 20;

  /** Along this little off the ends of a route is rounding. */
  private static final double ROUNDING_M = 1e-6;

  private static final Comparator<SegmentIndex.Foot> BY_LINE =
      Comparator.comparingInt(SegmentIndex.Foot::line).thenComparingInt(SegmentIndex.Foot::segment);

  /** A route with its parts ready to be searched. */
  private record Searched(Route route, LineSearch[] lines) {}

  /** A candidate before its confidence is known, with the logarithm of its belief. */
  private record Believed(Candidate candidate, double logBelief) {}

  private static final Comparator<Believed> BEST_FIRST =
      Comparator.comparingDouble((Believed b) -> -b.logBelief())
          .thenComparingDouble(b -> b.candidate().distanceM())
          .thenComparing(b -> b.candidate().place().routeId())
          .thenComparingDouble(b -> b.candidate().place().alongM());

  private final Network network;
  private final BiPredicate<Route, Double> oneWay;
  private final SegmentIndex index;
  private final List<Route> routeOfLine = new ArrayList<>();
  private final double widestScale;
  private final Map<String, Searched> searchOf = new HashMap<>();

  /** A locator that takes the roadways of divided roads, and no others, for one-way. */
  public Locator(Network network) {
    this(network, (route, along) -> route.divided());
  }

  /** A locator that knows where traffic runs one way. */
  public Locator(Network network, TravelRules rules) {
    this(network, (route, along) -> route.divided() || rules.oneWay(route, along));
  }

  private Locator(Network network, BiPredicate<Route, Double> oneWay) {
    this.network = network;
    this.oneWay = oneWay;
    List<CenterlinePart> lines = new ArrayList<>();
    double widest = 1;
    for (Route route : network.routes().values()) {
      searchOf.put(
          route.id(),
          new Searched(
              route, route.parts().stream().map(LineSearch::new).toArray(LineSearch[]::new)));
      for (CenterlinePart part : route.parts()) {
        lines.add(part);
        routeOfLine.add(route);
        widest = Math.max(widest, 1 / leastGroundPerUnit(part));
      }
    }
    this.index = new SegmentIndex(lines);
    this.widestScale = widest;
  }

  private static double leastGroundPerUnit(CenterlinePart part) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < part.size(); i++) {
      least = Math.min(least, groundPerUnit(part, i - 1));
    }
    return least;
  }

  /** Ground metres for one projected metre on a segment. */
  private static double groundPerUnit(CenterlinePart part, int i) {
    double projected = length(part.x(i + 1) - part.x(i), part.y(i + 1) - part.y(i));
    return (part.along(i + 1) - part.along(i)) / projected;
  }

  /**
   * The point at along, offset ground metres square to the centreline, right positive. Empty off
   * the route's ends, in a gap between its parts, and for a route that does not exist.
   */
  public Optional<RoadPoint> pointAt(String routeId, double alongM, double offsetM) {
    Searched searched = searchOf.get(routeId);
    if (searched == null || !Double.isFinite(alongM)) {
      return Optional.empty();
    }
    for (LineSearch search : searched.lines()) {
      CenterlinePart part = search.line();
      if (alongM >= part.fromAlong() - ROUNDING_M && alongM <= part.toAlong() + ROUNDING_M) {
        double along = Math.max(part.fromAlong(), Math.min(part.toAlong(), alongM));
        return Optional.of(pointOn(searched.route(), part, along, offsetM));
      }
    }
    return Optional.empty();
  }

  /** Math.hypot guards against overflow, which metres do not need, at ten times the time. */
  private static double length(double dx, double dy) {
    return Math.sqrt(dx * dx + dy * dy);
  }

  private static RoadPoint pointOn(Route route, CenterlinePart part, double along, double offsetM) {
    int i = Piece.segmentAt(part, along);
    double dx = part.x(i + 1) - part.x(i);
    double dy = part.y(i + 1) - part.y(i);
    double ground = part.along(i + 1) - part.along(i);
    double t = (along - part.along(i)) / ground;
    double x = part.x(i) + t * dx;
    double y = part.y(i) + t * dy;
    if (offsetM != 0) {
      // Square to the road: the segment's own length falls out of the unit and of the scale.
      x += offsetM * dy / ground;
      y -= offsetM * dx / ground;
    }
    return new RoadPoint(route.id(), along, route.mileposts().at(along), offsetM, x, y);
  }

  /**
   * The nearest place of one route, whatever else lies nearer. The offset is signed ground metres
   * square to the centreline; beyond an end of the road, the distance to it. Empty for a route that
   * does not exist.
   */
  public Optional<RoadPoint> nearestOn(String routeId, double x, double y) {
    Searched searched = searchOf.get(routeId);
    if (searched == null) {
      return Optional.empty();
    }
    LineSearch.Probe probe = new LineSearch.Probe(x, y);
    for (LineSearch search : searched.lines()) {
      search.nearest(probe);
    }
    CenterlinePart part = probe.line();
    int i = probe.segment();
    double from = part.along(i);
    double along = from + probe.share() * (part.along(i + 1) - from);
    double distance = probe.distance() * groundPerUnit(part, i);
    return Optional.of(
        new RoadPoint(
            routeId,
            along,
            searched.route().mileposts().at(along),
            rightOf(part, i, x, y) ? distance : -distance,
            x,
            y));
  }

  private static boolean rightOf(CenterlinePart part, int i, double x, double y) {
    double dx = part.x(i + 1) - part.x(i);
    double dy = part.y(i + 1) - part.y(i);
    return dy * (x - part.x(i)) - dx * (y - part.y(i)) >= 0;
  }

  /**
   * Every road the point may be on: the nearest place of each route within the distance, and
   * further places of a route that comes back (a loop, a hairpin, a crossing with itself). Best
   * first; confidences add up to 1. Roads that run together are all named.
   */
  public List<Candidate> candidates(double x, double y, double maxDistanceM, SnapHint hint) {
    List<SegmentIndex.Foot> feet = index.near(x, y, maxDistanceM * widestScale);
    if (feet.size() > 1) {
      feet.sort(BY_LINE);
    }
    List<Believed> found = new ArrayList<>();
    // A route's lines follow each other, so its feet do too.
    for (int from = 0; from < feet.size(); ) {
      Route route = routeOfLine.get(feet.get(from).line());
      int to = from + 1;
      while (to < feet.size() && routeOfLine.get(feet.get(to).line()).id().equals(route.id())) {
        to++;
      }
      for (SegmentIndex.Foot foot : SeparatePlaces.of(feet.subList(from, to), index, x, y)) {
        Candidate candidate = candidate(route, foot, x, y);
        if (candidate.distanceM() <= maxDistanceM) {
          found.add(new Believed(candidate, logBelief(route, foot, candidate.distanceM(), hint)));
        }
      }
      from = to;
    }
    return ranked(found);
  }

  private Candidate candidate(Route route, SegmentIndex.Foot foot, double x, double y) {
    CenterlinePart part = index.line(foot.line());
    int i = foot.segment();
    double distance = foot.distance() * groundPerUnit(part, i);
    RoadPoint place =
        new RoadPoint(
            route.id(),
            foot.alongM(),
            route.mileposts().at(foot.alongM()),
            rightOf(part, i, x, y) ? distance : -distance,
            x,
            y);
    return new Candidate(place, distance, 0);
  }

  /** Logarithms, so that far candidates keep their order where the likelihood itself is nought. */
  private double logBelief(Route route, SegmentIndex.Foot foot, double distance, SnapHint hint) {
    double spread = Math.hypot(hint.accuracyM(), ROAD_SPREAD_M);
    double log = -0.5 * (distance / spread) * (distance / spread);
    OptionalDouble heading = hint.headingDeg();
    if (heading.isPresent()) {
      double off = Math.abs(Math.IEEEremainder(heading.getAsDouble() - headingDeg(foot), 360));
      if (!oneWay.test(route, foot.alongM())) {
        off = Math.min(off, 180 - off);
      }
      double z = off / HEADING_SPREAD_DEG;
      log += Math.log(HEADING_FLOOR + (1 - HEADING_FLOOR) * Math.exp(-0.5 * z * z));
    }
    boolean named =
        hint.routeName()
            .filter(n -> n.equalsIgnoreCase(route.name()) || n.equalsIgnoreCase(route.id()))
            .isPresent();
    return named ? log + Math.log(NAMED_ODDS) : log;
  }

  private double headingDeg(SegmentIndex.Foot foot) {
    CenterlinePart part = index.line(foot.line());
    int i = foot.segment();
    return Math.toDegrees(Math.atan2(part.x(i + 1) - part.x(i), part.y(i + 1) - part.y(i)));
  }

  private static List<Candidate> ranked(List<Believed> found) {
    double best = Double.NEGATIVE_INFINITY;
    for (Believed b : found) {
      best = Math.max(best, b.logBelief());
    }
    double sum = 0;
    for (Believed b : found) {
      sum += Math.exp(b.logBelief() - best);
    }
    if (found.size() > 1) {
      found.sort(BEST_FIRST);
    }
    List<Candidate> ranked = new ArrayList<>(found.size());
    for (Believed b : found) {
      Candidate c = b.candidate();
      ranked.add(new Candidate(c.place(), c.distanceM(), Math.exp(b.logBelief() - best) / sum));
    }
    return Collections.unmodifiableList(ranked);
  }

  /**
   * The centreline from one along to another as polylines of {x, y}, one for each part it passes;
   * run backwards when from is the greater. Empty where nothing of the road lies between.
   */
  public List<double[][]> shape(String routeId, double fromAlongM, double toAlongM) {
    Route route = network.routes().get(routeId);
    List<double[][]> shapes = new ArrayList<>();
    if (route == null) {
      return shapes;
    }
    double low = Math.min(fromAlongM, toAlongM);
    double high = Math.max(fromAlongM, toAlongM);
    for (CenterlinePart part : route.parts()) {
      double from = Math.max(low, part.fromAlong());
      double to = Math.min(high, part.toAlong());
      if (to > from) {
        shapes.add(between(part, from, to));
      }
    }
    if (fromAlongM > toAlongM) {
      Collections.reverse(shapes);
      shapes.forEach(shape -> Collections.reverse(Arrays.asList(shape)));
    }
    return shapes;
  }

  private static double[][] between(CenterlinePart part, double from, double to) {
    List<double[]> points = new ArrayList<>();
    points.add(Piece.at(part, from));
    for (int i = Piece.segmentAt(part, from) + 1; i < part.size() && part.along(i) < to; i++) {
      if (part.along(i) > from) {
        points.add(new double[] {part.x(i), part.y(i)});
      }
    }
    points.add(Piece.at(part, to));
    return points.toArray(double[][]::new);
  }
}
