package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Mileposts that run straight between posts. At an equation the numbering jumps: forward it leaves
 * a gap of numbers that do not exist, back it repeats numbers. Before the first post and after the
 * last the mileposts run on at 1,609.344 m to the mile, up or down as the posts do.
 *
 * <p>A number occurs at most twice on a route; {@link EquationSide#BACK} is the earlier place along
 * the route, {@link EquationSide#AHEAD} the later one.
 */
public final class PiecewiseMileposts implements MilepostMap {
  /** Metres in an international mile (exact). */
  public static final double METRES_PER_MILE = 1609.344;

  /** A number this little outside a stretch is rounding, not a gap (0.16 micrometre). */
  private static final double ROUNDING_MILES = 1e-10;

  /** A milepost written to three decimals may lie half a digit off the end of a stretch. */
  private static final double WRITTEN_MILES = 0.0005;

  private static final double SAME_PLACE_M = 1e-6;

  /** A stretch of unbroken numbering, ends included. */
  private record Stretch(double fromM, double toM, double fromMiles, double toMiles) {
    double milesAt(double alongM) {
      return fromMiles + (alongM - fromM) * ((toMiles - fromMiles) / (toM - fromM));
    }

    double alongAt(double miles) {
      double along = fromM + (miles - fromMiles) * ((toM - fromM) / (toMiles - fromMiles));
      return Math.max(fromM, Math.min(toM, along));
    }

    /**
     * How far the numbers of another stretch are from these, in miles; negative when they overlap.
     */
    double apart(Stretch other) {
      double low = Math.max(Math.min(fromMiles, toMiles), Math.min(other.fromMiles, other.toMiles));
      double high =
          Math.min(Math.max(fromMiles, toMiles), Math.max(other.fromMiles, other.toMiles));
      return low - high;
    }

    /** How far a number lies outside this stretch, in miles; 0 inside. */
    double outside(double miles) {
      double low = Math.min(fromMiles, toMiles);
      double high = Math.max(fromMiles, toMiles);
      return Math.max(0, Math.max(low - miles, miles - high));
    }
  }

  private final List<CalibrationPost> posts;
  private final List<Stretch> stretches;
  private final boolean calibrated;
  private final double lengthM;

  /** Stretches with a number that may occur elsewhere too. */
  private final boolean[] repeated;

  private PiecewiseMileposts(List<CalibrationPost> posts, double lengthM, boolean calibrated) {
    this.posts =
        posts.stream().sorted(Comparator.comparingDouble(CalibrationPost::alongM)).toList();
    this.lengthM = lengthM;
    this.calibrated = calibrated;
    this.stretches = stretches(this.posts, lengthM);
    this.repeated = repeated(stretches);
    refuseThirdPlaces();
  }

  private static boolean[] repeated(List<Stretch> stretches) {
    boolean[] repeated = new boolean[stretches.size()];
    for (int i = 0; i < repeated.length; i++) {
      for (int k = i + 1; k < repeated.length; k++) {
        Stretch a = stretches.get(i);
        Stretch b = stretches.get(k);
        boolean runsOn = k == i + 1 && a.toMiles == b.fromMiles;
        if (!runsOn && a.apart(b) <= 2 * ROUNDING_MILES) {
          repeated[i] = true;
          repeated[k] = true;
        }
      }
    }
    return repeated;
  }

  /** Mileposts of a route without posts: along / 1609.344, from 0. */
  public static MilepostMap uncalibrated(double lengthM) {
    return new PiecewiseMileposts(List.of(), lengthM, false);
  }

  /**
   * Mileposts through these posts.
   *
   * @throws IllegalArgumentException when posts are off the route, share a place, run neither all
   *     up nor all down, or make a number occur at three places
   */
  public static MilepostMap of(List<CalibrationPost> posts, double lengthM) {
    return new PiecewiseMileposts(posts, lengthM, !posts.isEmpty());
  }

  /**
   * As {@link #of}, for posts that were worked out from a route which itself has none: the result
   * says it is not calibrated.
   */
  public static MilepostMap derived(
      List<CalibrationPost> posts, double lengthM, boolean calibrated) {
    return new PiecewiseMileposts(posts, lengthM, calibrated);
  }

  private static List<Stretch> stretches(List<CalibrationPost> posts, double lengthM) {
    if (!(lengthM > 0)) {
      throw new IllegalArgumentException("a route must have a length, found " + lengthM + " m");
    }
    if (posts.isEmpty()) {
      return List.of(new Stretch(0, lengthM, 0, lengthM / METRES_PER_MILE));
    }
    double sign = direction(posts);
    List<Stretch> all = new ArrayList<>();
    CalibrationPost first = posts.get(0);
    CalibrationPost last = posts.get(posts.size() - 1);
    if (first.alongM() < -SAME_PLACE_M || last.alongM() > lengthM + SAME_PLACE_M) {
      throw new IllegalArgumentException(
          "a post lies off the route's length of %.3f m".formatted(lengthM));
    }
    if (first.alongM() > SAME_PLACE_M) {
      double start = first.backMiles() - sign * first.alongM() / METRES_PER_MILE;
      all.add(new Stretch(0, first.alongM(), start, first.backMiles()));
    }
    for (int i = 1; i < posts.size(); i++) {
      CalibrationPost a = posts.get(i - 1);
      CalibrationPost b = posts.get(i);
      all.add(new Stretch(a.alongM(), b.alongM(), a.aheadMiles(), b.backMiles()));
    }
    if (lengthM - last.alongM() > SAME_PLACE_M) {
      double end = last.aheadMiles() + sign * (lengthM - last.alongM()) / METRES_PER_MILE;
      all.add(new Stretch(last.alongM(), lengthM, last.aheadMiles(), end));
    }
    return List.copyOf(all);
  }

  /** 1 for mileposts that rise along the route, -1 for those that fall. */
  private static double direction(List<CalibrationPost> posts) {
    double sign = 0;
    for (int i = 1; i < posts.size(); i++) {
      CalibrationPost a = posts.get(i - 1);
      CalibrationPost b = posts.get(i);
      if (!(b.alongM() - a.alongM() > SAME_PLACE_M)) {
        throw new IllegalArgumentException(
            "two posts share the place %.3f m along".formatted(b.alongM()));
      }
      double step = Math.signum(b.backMiles() - a.aheadMiles());
      if (step == 0 || !Double.isFinite(step) || (sign != 0 && step != sign)) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "the posts run neither up nor down: %.3f is followed by %.3f without an equation",
                a.aheadMiles(),
                b.backMiles()));
      }
      sign = step;
    }
    return sign == 0 ? 1 : sign;
  }

  private void refuseThirdPlaces() {
    for (Stretch stretch : stretches) {
      for (double miles : new double[] {stretch.fromMiles, stretch.toMiles}) {
        if (places(miles).size() > 2) {
          throw new IllegalArgumentException(
              String.format(
                  Locale.ROOT,
                  "milepost %.3f would occur at three places; back and ahead tell only two apart",
                  miles));
        }
      }
    }
  }

  /** Every place with this number, by growing along. */
  private List<Double> places(double miles) {
    List<Double> found = new ArrayList<>(2);
    for (Stretch s : stretches) {
      if (s.outside(miles) <= ROUNDING_MILES) {
        double along = s.alongAt(miles);
        if (found.isEmpty() || along - found.get(found.size() - 1) > SAME_PLACE_M) {
          found.add(along);
        }
      }
    }
    return found;
  }

  /**
   * {@inheritDoc} At an equation itself the number is the one ahead. Along off the route is taken
   * to its end.
   */
  @Override
  public Milepost at(double alongM) {
    double along = Math.max(0, Math.min(lengthM, alongM));
    int low = 0;
    int high = stretches.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (stretches.get(middle).fromM() <= along) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    double miles = stretches.get(low).milesAt(along);
    if (!repeated[low]) {
      return Milepost.of(miles);
    }
    List<Double> places = places(miles);
    if (places.size() < 2) {
      return Milepost.of(miles);
    }
    boolean earlier = Math.abs(places.get(0) - along) <= Math.abs(places.get(1) - along);
    return new Milepost(miles, earlier ? EquationSide.BACK : EquationSide.AHEAD);
  }

  @Override
  public MilepostLookup find(Milepost milepost) {
    double miles = milepost.miles();
    if (!Double.isFinite(miles)) {
      return new MilepostLookup.Missing("found " + miles + ", expected a milepost");
    }
    List<Double> places = places(miles);
    if (places.isEmpty()) {
      return written(miles);
    }
    if (places.size() == 1) {
      return new MilepostLookup.Found(places.get(0));
    }
    return switch (milepost.equationSide()) {
      case BACK -> new MilepostLookup.Found(places.get(0));
      case AHEAD -> new MilepostLookup.Found(places.get(1));
      case ONLY ->
          new MilepostLookup.Ambiguous(
              List.of(
                  new MilepostLookup.Choice(new Milepost(miles, EquationSide.BACK), places.get(0)),
                  new MilepostLookup.Choice(
                      new Milepost(miles, EquationSide.AHEAD), places.get(1))));
    };
  }

  /** A number of no stretch: half a written digit off one still means its end. */
  private MilepostLookup written(double miles) {
    Stretch nearest = stretches.get(0);
    for (Stretch s : stretches) {
      if (s.outside(miles) < nearest.outside(miles)) {
        nearest = s;
      }
    }
    if (nearest.outside(miles) <= WRITTEN_MILES + ROUNDING_MILES) {
      return new MilepostLookup.Found(nearest.alongAt(miles));
    }
    return new MilepostLookup.Missing(whyMissing(miles));
  }

  private String whyMissing(double miles) {
    for (CalibrationPost post : posts) {
      if (post.isEquation() && (miles - post.backMiles()) * (miles - post.aheadMiles()) < 0) {
        return String.format(
            Locale.ROOT,
            "milepost %.3f does not exist: the equation %.3f back = %.3f ahead skips it",
            miles,
            post.backMiles(),
            post.aheadMiles());
      }
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Stretch s : stretches) {
      low = Math.min(low, Math.min(s.fromMiles, s.toMiles));
      high = Math.max(high, Math.max(s.fromMiles, s.toMiles));
    }
    return String.format(
        Locale.ROOT,
        "milepost %.3f is off the road, whose mileposts run from %.3f to %.3f",
        miles,
        low,
        high);
  }

  @Override
  public boolean calibrated() {
    return calibrated;
  }

  @Override
  public List<CalibrationPost> posts() {
    return posts;
  }
}
