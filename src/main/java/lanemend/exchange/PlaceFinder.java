package lanemend.exchange;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.network.Candidate;
import lanemend.network.Locator;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadPoint;
import lanemend.network.Route;
import lanemend.network.SnapHint;
import lanemend.network.TrackMatch;

/**
 * Turns what was written into a place on a route, or refuses with what to write instead. Nothing is
 * guessed: an ambiguous milepost names its choices, a point between roads lists its candidates.
 *
 * <p>A point is taken when its best candidate lies within {@link #NEAR_M} and holds at least {@link
 * #CLEAR} of the belief among the candidates within {@link #SEARCH_M} (of the named route only,
 * when the row names one).
 */
final class PlaceFinder {
  static final double NEAR_M = 30;
  static final double SEARCH_M = 60;
  static final double CLEAR = 0.8;

  /** Coordinates beside a milepost may lie this far from it; further, one of the two is wrong. */
  static final double AGREE_M = 100;

  /** How far to look for a road to name in the message. */
  private static final double SIGHT_M = 5_000;

  private static final int LISTED = 5;

  private final RouteFinder routes;
  private final Network network;
  private final Locator locator;
  private final ProjectedCrs crs;
  private final Optional<TrackMatch> track;

  /**
   * A place and, when it came from coordinates, how far right of the centreline they lie.
   *
   * @param stretchM distance between two written mileposts, else empty
   */
  record Spot(Place place, OptionalDouble offsetM, OptionalDouble stretchM) {}

  /**
   * @param track the patrol's, to choose among the roads near a point
   */
  PlaceFinder(Network network, Locator locator, Optional<TrackMatch> track) {
    this.routes = new RouteFinder(network);
    this.network = network;
    this.locator = locator;
    this.crs = ProjectedCrs.fromWkt(network.crsWkt());
    this.track = track;
  }

  RouteFinder routes() {
    return routes;
  }

  double[] project(double lon, double lat) {
    return crs.project(lon, lat);
  }

  /**
   * @param lengthM when there is no second milepost, half of it lies before the written place and
   *     half after, as far as the route reaches
   */
  Spot find(WrittenPlace written, double lengthM) throws Refusal {
    return written.byMilepost() ? atMilepost(written, lengthM) : atPoint(written, lengthM);
  }

  private Spot atMilepost(WrittenPlace w, double lengthM) throws Refusal {
    Route route = routes.one(w.route(), w.direction());
    double from = along(route, "milepost", w.milepostFrom());
    Entered entered =
        Entered.byMilepost(
            route.id(), w.milepostFrom(), w.milepostTo().isEmpty() ? null : w.milepostTo());
    Spot spot;
    if (w.milepostTo().isEmpty()) {
      spot = new Spot(around(route, from, lengthM, entered), none(), none());
    } else {
      double to = along(route, "milepost_to", w.milepostTo());
      Place place = place(route, Math.min(from, to), Math.max(from, to), entered);
      spot = new Spot(place, none(), OptionalDouble.of(Math.abs(to - from)));
    }
    if (w.longitude().isEmpty()) {
      return spot;
    }
    return new Spot(spot.place(), offset(w, spot.place(), from), spot.stretchM());
  }

  /** The coordinates' offset, once it is known that they agree with the milepost. */
  private OptionalDouble offset(WrittenPlace w, Place place, double writtenAlong) throws Refusal {
    double lon = w.longitude().getAsDouble();
    double lat = w.latitude().getAsDouble();
    double nearest = Double.POSITIVE_INFINITY;
    OptionalDouble offset = none();
    for (Candidate c : candidates(lon, lat, AGREE_M, SnapHint.NONE)) {
      boolean here =
          c.place().routeId().equals(place.routeId())
              && c.place().alongM() >= place.fromAlongM() - AGREE_M
              && c.place().alongM() <= place.toAlongM() + AGREE_M;
      if (here && c.distanceM() < nearest) {
        nearest = c.distanceM();
        offset = OptionalDouble.of(c.place().offsetM());
      }
    }
    if (offset.isPresent()) {
      return offset;
    }
    RoadPoint at = locator.pointAt(place.routeId(), writtenAlong, 0).orElse(null);
    String far = "far";
    if (at != null) {
      double[] back = crs.unproject(at.x(), at.y());
      far = distanceText(groundM(lon, lat, back[0], back[1]));
    }
    throw new Refusal(
        "longitude",
        Numbers.shown(lon) + " " + Numbers.shown(lat),
        "coordinates within "
            + Numbers.plain(AGREE_M)
            + " m of milepost "
            + w.milepostFrom()
            + " (they are "
            + far
            + " away), or only one of the two");
  }

  private double groundM(double lon1, double lat1, double lon2, double lat2) {
    // Good to a per cent at these distances, which is all a message needs.
    double meters = Math.toRadians(1) * 6_371_000;
    double dx = (lon2 - lon1) * meters * Math.cos(Math.toRadians((lat1 + lat2) / 2));
    return Math.hypot(dx, (lat2 - lat1) * meters);
  }

  private static OptionalDouble none() {
    return OptionalDouble.empty();
  }

  /** Along of a written milepost. */
  double along(Route route, String field, String written) throws Refusal {
    Milepost milepost =
        MilepostText.parse(written)
            .orElseThrow(() -> new Refusal(field, written, MilepostText.WANTED));
    MilepostLookup lookup = route.mileposts().find(milepost);
    if (lookup instanceof MilepostLookup.Found found) {
      return found.alongM();
    }
    if (lookup instanceof MilepostLookup.Ambiguous ambiguous) {
      String choices =
          ambiguous.choices().stream()
              .map(c -> "'" + c.milepost().text() + "'")
              .collect(Collectors.joining(" or "));
      throw new Refusal(field, written, choices + ", as the number occurs twice on " + route.id());
    }
    String why = ((MilepostLookup.Missing) lookup).why();
    String siblings =
        network.named(route.name()).stream()
            .filter(r -> !r.id().equals(route.id()))
            .filter(r -> !(r.mileposts().find(milepost) instanceof MilepostLookup.Missing))
            .map(Route::id)
            .collect(Collectors.joining(" and "));
    throw new Refusal(
        field,
        written,
        "a milepost of "
            + route.id()
            + "; "
            + why
            + (siblings.isEmpty() ? "" : " (it exists on " + siblings + ")"));
  }

  private Spot atPoint(WrittenPlace w, double lengthM) throws Refusal {
    double lon = w.longitude().getAsDouble();
    double lat = w.latitude().getAsDouble();
    List<Route> named = w.route().isEmpty() ? List.of() : routes.matches(w.route(), w.direction());
    Optional<String> hintName =
        named.isEmpty()
            ? Optional.empty()
            : Optional.of(named.size() == 1 ? named.get(0).id() : named.get(0).name());
    SnapHint hint = new SnapHint(OptionalDouble.empty(), hintName, SnapHint.NONE.accuracyM());
    Set<String> ids = named.stream().map(Route::id).collect(Collectors.toUnmodifiableSet());
    List<Candidate> near =
        candidates(lon, lat, SEARCH_M, hint).stream()
            .filter(c -> ids.isEmpty() || ids.contains(c.place().routeId()))
            .toList();
    near = track.isPresent() ? driven(near, track.get(), w.seenAt()) : near;
    Candidate best = clearlyBest(near);
    if (best == null) {
      throw notClear(lon, lat, near, hintName);
    }
    Route route = network.route(best.place().routeId()).orElseThrow();
    Entered entered = Entered.byPoint(hintName.orElse(null), lon, lat);
    return new Spot(
        around(route, best.place().alongM(), lengthM, entered),
        OptionalDouble.of(best.place().offsetM()),
        none());
  }

  /**
   * The candidates as the patrol's track has it when the place was seen; what was written down
   * later goes by any pass. As they were where the track does not go.
   */
  private static List<Candidate> driven(List<Candidate> near, TrackMatch track, Instant seenAt) {
    List<Candidate> then = weighed(near, track, seenAt);
    List<Candidate> best = then.isEmpty() ? weighed(near, track, null) : then;
    return best.isEmpty() ? near : best;
  }

  private static List<Candidate> weighed(List<Candidate> near, TrackMatch track, Instant at) {
    return near.stream()
        .map(
            c ->
                new Candidate(
                    c.place(),
                    c.distanceM(),
                    c.confidence() * track.belief(c.place().routeId(), c.place().alongM(), at)))
        .filter(c -> c.confidence() > 0)
        .sorted(Comparator.comparingDouble(c -> -c.confidence()))
        .toList();
  }

  private static Candidate clearlyBest(List<Candidate> near) {
    double all = near.stream().mapToDouble(Candidate::confidence).sum();
    return near.stream()
        .filter(c -> c.distanceM() <= NEAR_M && c.confidence() >= CLEAR * all)
        .findFirst()
        .orElse(null);
  }

  private Refusal notClear(double lon, double lat, List<Candidate> near, Optional<String> hint) {
    String found = Numbers.shown(lon) + " " + Numbers.shown(lat);
    if (!near.isEmpty() && near.stream().anyMatch(c -> c.distanceM() <= NEAR_M)) {
      return new Refusal(
          "longitude", found, "a point clearly on one road; write one of: " + listed(near));
    }
    String on = hint.map(h -> "of " + h).orElse("of a road");
    String wanted = "a point within " + Numbers.plain(NEAR_M) + " m " + on;
    if (!candidates(lat, lon, SEARCH_M, SnapHint.NONE).isEmpty()) {
      return new Refusal("longitude", found, wanted + " (latitude and longitude look swapped)");
    }
    List<Candidate> sight = candidates(lon, lat, SIGHT_M, SnapHint.NONE);
    return new Refusal(
        "longitude",
        found,
        wanted + (sight.isEmpty() ? "; none is within 5 km" : "; nearest: " + listed(sight)));
  }

  private static String listed(List<Candidate> candidates) {
    return candidates.stream()
        .limit(LISTED)
        .map(
            c ->
                c.place().routeId()
                    + " milepost "
                    + c.place().milepost().text()
                    + " ("
                    + distanceText(c.distanceM())
                    + ")")
        .collect(Collectors.joining("; "));
  }

  private static String distanceText(double m) {
    return m < 1_000
        ? String.format(Locale.ROOT, "%.0f m", m)
        : String.format(Locale.ROOT, "%.1f km", m / 1_000);
  }

  private List<Candidate> candidates(double lon, double lat, double radiusM, SnapHint hint) {
    if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) {
      return List.of();
    }
    double[] at;
    try {
      at = crs.project(lon, lat);
    } catch (IllegalArgumentException e) {
      // So far from the network's zone that the projection gives up: no road is near.
      return List.of();
    }
    return locator.candidates(at[0], at[1], radiusM, hint);
  }

  private Place around(Route route, double along, double lengthM, Entered entered) throws Refusal {
    double from = Math.max(0, along - lengthM / 2);
    double to = Math.min(route.lengthM(), along + lengthM / 2);
    return place(route, Math.min(from, to), Math.max(from, to), entered);
  }

  private Place place(Route route, double from, double to, Entered entered) throws Refusal {
    RoadPoint middle =
        locator
            .pointAt(route.id(), (from + to) / 2, 0)
            .orElseThrow(
                () ->
                    new Refusal(
                        "milepost",
                        route.id(),
                        "a place where the road is drawn; here its centreline has a gap"));
    return new Place(route.id(), from, to, middle.x(), middle.y(), entered);
  }
}
