package lanemend.network.edit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.network.CalibrationPost;
import lanemend.network.MilepostMap;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.Route;

/**
 * Mileposts of an edited route such that every metre that was carried over keeps its number: the
 * posts go with the ground, and where a carried stretch begins or ends inside the route a post is
 * set with the number that stood there. In between, on new road and over gaps, mileposts run
 * straight from one to the other; where that would turn their order round, an equation says so.
 */
final class CarriedPosts {
  private static final double SAME_PLACE_M = 1e-3;

  private final List<Route> before;
  private final List<CalibrationPost> posts = new ArrayList<>();

  private CarriedPosts(List<Route> before) {
    this.before = before;
  }

  /**
   * The milepost map of {@code routeId}.
   *
   * @param carries all carries of the edit
   * @throws IllegalArgumentException with a sentence when no map of mileposts can hold them
   */
  static MilepostMap of(
      String routeId, List<Route> before, List<Carry> carries, double lengthM, boolean calibrated) {
    CarriedPosts carried = new CarriedPosts(before);
    carries.stream()
        .filter(c -> c.routeAfter().equals(routeId) && c.ground() != Ground.REBUILT)
        .sorted(Comparator.comparingDouble(c -> Math.min(c.startM(), c.endM())))
        .forEach(carried::add);
    if (carried.posts.isEmpty()) {
      return PiecewiseMileposts.uncalibrated(lengthM);
    }
    List<CalibrationPost> posts = carried.needed(lengthM);
    if (posts.isEmpty()) {
      // The numbers of a calibrated road may happen to be its length in miles.
      posts = calibrated ? carried.posts : posts;
    }
    return posts.isEmpty()
        ? PiecewiseMileposts.uncalibrated(lengthM)
        : PiecewiseMileposts.derived(posts, lengthM, calibrated);
  }

  private void add(Carry c) {
    MilepostMap map =
        before.stream()
            .filter(r -> r.id().equals(c.routeBefore()))
            .findFirst()
            .orElseThrow()
            .mileposts();
    List<CalibrationPost> own = new ArrayList<>();
    own.add(at(map, c.fromM(), c.fromM(), c, true));
    for (CalibrationPost p : map.posts()) {
      if (p.alongM() > c.fromM() + SAME_PLACE_M && p.alongM() < c.toM() - SAME_PLACE_M) {
        own.add(placed(c, p.alongM(), p.backMiles(), p.aheadMiles()));
      }
    }
    own.add(at(map, c.toM(), c.toM(), c, false));
    own.sort(Comparator.comparingDouble(CalibrationPost::alongM));
    join(own);
  }

  /**
   * The number at an end of a carried stretch, on its own side of an equation that stands there.
   */
  private static CalibrationPost at(
      MilepostMap map, double alongM, double place, Carry c, boolean start) {
    for (CalibrationPost p : map.posts()) {
      if (Math.abs(p.alongM() - alongM) <= SAME_PLACE_M) {
        double miles = start ? p.aheadMiles() : p.backMiles();
        double own = Math.max(c.fromM(), Math.min(c.toM(), p.alongM()));
        return placed(c, own, miles, miles);
      }
    }
    double miles = map.at(alongM).miles();
    return placed(c, place, miles, miles);
  }

  private static CalibrationPost placed(Carry c, double alongM, double back, double ahead) {
    double along = c.along(alongM);
    return c.turned()
        ? new CalibrationPost(along, ahead, back)
        : new CalibrationPost(along, back, ahead);
  }

  private void join(List<CalibrationPost> own) {
    if (posts.isEmpty()) {
      posts.addAll(own);
      return;
    }
    int end = posts.size() - 1;
    CalibrationPost last = posts.get(end);
    CalibrationPost first = own.get(0);
    double road = first.alongM() - last.alongM();
    if (road <= SAME_PLACE_M) {
      posts.set(end, new CalibrationPost(last.alongM(), last.backMiles(), first.aheadMiles()));
      posts.addAll(own.subList(1, own.size()));
      return;
    }
    double sign = Math.signum(own.get(own.size() - 1).backMiles() - first.aheadMiles());
    if (sign * (first.backMiles() - last.aheadMiles()) <= 0) {
      double back = last.aheadMiles() + sign * road / PiecewiseMileposts.METRES_PER_MILE;
      own.set(0, new CalibrationPost(first.alongM(), back, first.aheadMiles()));
    }
    posts.addAll(own);
  }

  /** Without the posts that say only what the others say, and those set at the route's own ends. */
  private List<CalibrationPost> needed(double lengthM) {
    List<CalibrationPost> needed = new ArrayList<>(posts);
    for (int i = needed.size() - 1; i >= 0; i--) {
      CalibrationPost p = needed.get(i);
      if (p.isEquation() || real(p)) {
        continue;
      }
      List<CalibrationPost> without = new ArrayList<>(needed);
      without.remove(i);
      if (same(without, p, lengthM)) {
        needed.remove(i);
      }
    }
    return needed;
  }

  /** A post that stood there before the edit and is no mere end of a stretch. */
  private boolean real(CalibrationPost p) {
    return before.stream()
        .flatMap(r -> r.mileposts().posts().stream())
        .anyMatch(q -> q.backMiles() == p.backMiles() && q.aheadMiles() == p.aheadMiles());
  }

  private static boolean same(List<CalibrationPost> without, CalibrationPost p, double lengthM) {
    try {
      MilepostMap map =
          without.isEmpty()
              ? PiecewiseMileposts.uncalibrated(lengthM)
              : PiecewiseMileposts.of(without, lengthM);
      double along = Math.max(0, Math.min(lengthM, p.alongM()));
      return Math.abs(map.at(along).miles() - p.backMiles()) < 1e-9;
    } catch (IllegalArgumentException e) {
      return false;
    }
  }
}
