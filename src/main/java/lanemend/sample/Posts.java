package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.measure.Conversion;
import lanemend.network.CalibrationPost;
import lanemend.network.PiecewiseMileposts;
import lanemend.sample.Draft.Kind;

/**
 * Milepost signs: never exactly a mile apart, one equation that repeats numbers, one that skips
 * some, one route whose numbers fall along it.
 */
final class Posts {

  /**
   * One row of the posts file; either a written place or a distance from the start.
   *
   * @param distanceFt NaN when the place is written
   */
  record Row(Roadway road, CalibrationPost post, LonLat place, double distanceFt) {}

  /** Routes with their mileposts, and the rows that say them. */
  record Signed(List<Roadway> roads, List<Row> rows) {}

  private static final double SPACING_SD = 0.022;
  private static final double MOST_SPACING = 0.06;
  private static final double SIGN_RIGHT_M = 5;
  private static final double CLEAR_OF_VERTEX_M = 8;
  private static final double COUNTY_ROADS_WITH_SIGNS = 0.4;

  /** Numbers of a route: where they start, which way they run, one equation or none. */
  private record Numbering(double start, int sign, double equationShare, double jump) {
    static Numbering rising(double start) {
      return new Numbering(start, 1, 2, 0);
    }
  }

  private final Dice dice;
  private final List<Row> rows = new ArrayList<>();

  private Posts(Dice dice) {
    this.dice = dice;
  }

  static Signed place(List<Roadway> roads, Dice dice) {
    Posts p = new Posts(dice);
    List<Roadway> out = new ArrayList<>();
    for (Roadway r : roads) {
      List<CalibrationPost> posts = p.postsOf(r, out);
      out.add(posts.isEmpty() ? r : r.with(PiecewiseMileposts.of(posts, r.lengthM())));
    }
    return new Signed(out, p.rows);
  }

  private List<CalibrationPost> postsOf(Roadway r, List<Roadway> before) {
    if (r.direction().equals("SB")) {
      return beside(r, before.get(before.size() - 1));
    }
    Numbering numbering =
        switch (r.name()) {
          case StateRoads.MAIN -> new Numbering(41.318, 1, 0.62, -0.74);
          case StateRoads.CROSS -> new Numbering(112.437, 1, 0.7, 0.86);
          case StateRoads.SHARING -> new Numbering(88.205, -1, 2, 0);
          case StateRoads.FREEWAY -> Numbering.rising(203.152);
          default -> Numbering.rising(0);
        };
    boolean signed =
        r.kind() == Kind.STATE
            || r.kind() == Kind.FREEWAY
            || r.name().equals(HillRoads.LOOP)
            || (r.kind() == Kind.COUNTY && dice.chance(COUNTY_ROADS_WITH_SIGNS));
    return signed ? walk(r, numbering) : List.of();
  }

  /** Walks the route from sign to sign. */
  private List<CalibrationPost> walk(Roadway r, Numbering n) {
    List<CalibrationPost> posts = new ArrayList<>();
    double length = r.lengthM();
    double equation = n.equationShare() * length;
    double miles = n.start();
    double here = 0;
    posts.add(set(r, 0, miles, miles));
    while (true) {
      double mileM =
          Conversion.M_PER_MILE
              * dice.normalWithin(1, SPACING_SD, 1 - MOST_SPACING, 1 + MOST_SPACING);
      double next =
          n.sign() > 0 ? StrictMath.floor(miles + 1e-6) + 1 : StrictMath.ceil(miles - 1e-6) - 1;
      double there = here + StrictMath.abs(next - miles) * mileM;
      boolean jumps = equation > here + 150 && equation < there - 150;
      if (!jumps && there > length - 200) {
        double end = round(miles + n.sign() * (length - here) / mileM);
        posts.add(set(r, length, end, end));
        return posts;
      }
      double back = jumps ? round(miles + n.sign() * (equation - here) / mileM) : next;
      double ahead = jumps ? round(back + n.jump()) : next;
      CalibrationPost post = set(r, jumps ? equation : there, back, ahead);
      posts.add(post);
      here = post.alongM();
      miles = ahead;
    }
  }

  /** The signs of a southbound roadway stand opposite those of the northbound one. */
  private List<CalibrationPost> beside(Roadway r, Roadway northbound) {
    List<CalibrationPost> posts = new ArrayList<>();
    List<CalibrationPost> theirs = northbound.mileposts().posts();
    for (int i = theirs.size() - 1; i >= 0; i--) {
      boolean inner = i > 0 && i < theirs.size() - 1;
      double across = r.footOf(northbound.pointAt(theirs.get(i).alongM(), 0));
      double place = inner ? across : i == 0 ? r.lengthM() : 0;
      posts.add(set(r, place, theirs.get(i).backMiles(), theirs.get(i).aheadMiles()));
    }
    return posts;
  }

  /** Sets a sign near a place, clear of bends in the line, and keeps where it truly stands. */
  private CalibrationPost set(Roadway r, double wanted, double back, double ahead) {
    boolean end = wanted == 0 || wanted == r.lengthM();
    double place = wanted;
    while (!end && r.metersFromVertex(place) < CLEAR_OF_VERTEX_M) {
      place += 3;
    }
    if (r.name().equals(StateRoads.SPUR)) {
      double feet =
          end ? place / Conversion.M_PER_FT : StrictMath.rint(place / Conversion.M_PER_FT);
      feet = StrictMath.floor(feet * 100) / 100;
      CalibrationPost post = new CalibrationPost(feet * Conversion.M_PER_FT, back, ahead);
      rows.add(new Row(r, post, null, feet));
      return post;
    }
    LonLat written = LonLat.of(r.pointAt(place, end ? 0 : SIGN_RIGHT_M));
    double along = end ? place : r.footOf(written.pt());
    CalibrationPost post = new CalibrationPost(along, back, ahead);
    rows.add(new Row(r, post, written, Double.NaN));
    return post;
  }

  private static double round(double miles) {
    return StrictMath.rint(miles * 1000) / 1000;
  }

  /** A post's number as written. */
  static String text(double miles) {
    return String.format(Locale.ROOT, "%.3f", miles);
  }
}
