package lanemend.sample;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.network.Lane;
import lanemend.sample.Draft.Kind;
import lanemend.sample.Surfacing.Section;

/**
 * The truth behind the repairs. Each tenth of a mile of each lane calls for repairs as a power-law
 * process in the age t (years) since its last surfacing: intensity z m a b t^(b-1) a year for a
 * whole cell, with a and b by family, z the cell's own gamma frailty of mean 1, m the multiplier of
 * a planted weak section (1 elsewhere). New surface sets t to 0.
 */
record Wear(List<Family> families, List<Weak> weak, List<Cell> cells) {

  /**
   * A kind of surface under a kind of traffic.
   *
   * @param a repairs of a whole cell and lane by the age of one year
   * @param shape of the gamma frailty, whose variance is 1/shape
   */
  record Family(
      String surface, String traffic, double a, double b, double shape, double tons, double logSd) {

    String name() {
      return surface + ", " + traffic + " traffic";
    }

    /** Expected repairs of a plain cell between two ages. */
    double repairs(double fromYears, double toYears) {
      return a * (StrictMath.pow(toYears, b) - StrictMath.pow(fromYears, b));
    }

    /** The age at which a share of the repairs between two ages has come. */
    double ageAt(double fromYears, double toYears, double share) {
      double low = StrictMath.pow(fromYears, b);
      double high = StrictMath.pow(toYears, b);
      return StrictMath.pow(low + share * (high - low), 1 / b);
    }

    private Family scaled(double factor) {
      return new Family(surface, traffic, a * factor, b, shape, tons, logSd);
    }
  }

  /** A planted weak section: both lanes (or roadway) from along to along. */
  record Weak(Section section, double fromM, double toM, double multiplier) {
    boolean holds(Roadway road, double alongM) {
      return road.id().equals(section.road().id()) && alongM > fromM && alongM < toM;
    }
  }

  /** One tenth of a mile of one lane. */
  record Cell(
      Section section, double fromM, double toM, Lane lane, int family, double z, double weak) {

    double wholeness() {
      return (toM - fromM) / Surfacing.CELL_M;
    }

    double middleM() {
      return (fromM + toM) / 2;
    }
  }

  /** Ages between which a surface was worn within the history: one period, or two when renewed. */
  record Period(LocalDate laid, double fromYears, double toYears) {}

  private static final List<Family> STANDARD =
      List.of(
          new Family(RoadFacts.HOT_MIX, "light", 0.0009, 1.9, 1.6, 0.9, 0.8),
          new Family(RoadFacts.HOT_MIX, "medium", 0.0011, 2.0, 1.4, 1.3, 0.85),
          new Family(RoadFacts.HOT_MIX, "heavy", 0.0013, 2.1, 1.2, 1.9, 0.9),
          new Family(RoadFacts.CHIP_SEAL, "light", 0.0034, 1.6, 1.3, 0.7, 0.75),
          new Family(RoadFacts.CHIP_SEAL, "medium", 0.0060, 1.6, 1.2, 0.9, 0.8));

  static final int MEDIUM_FROM_AADT = 500;
  static final int HEAVY_FROM_AADT = 2_500;

  /** Draws the truth; {@code repairsPerMile} sets the level of every family alike. */
  static Wear draw(
      List<List<Section>> sections, double roadMiles, double repairsPerMile, Dice dice) {
    List<Weak> weak = weakSections(sections, roadMiles, dice.fork());
    Dice frailty = dice.fork();
    List<Cell> cells = new ArrayList<>();
    double expected = 0;
    for (List<Section> road : sections) {
      for (Section s : road) {
        if (s.road().led().holds((s.fromM() + s.toM()) / 2)) {
          continue;
        }
        for (double from = s.fromM(); s.toM() - from > 1e-6; ) {
          double next = (StrictMath.floor(from / Surfacing.CELL_M + 1e-9) + 1) * Surfacing.CELL_M;
          double to = StrictMath.min(next, s.toM());
          double middle = (from + to) / 2;
          int family = family(s.road().facts(middle));
          for (Lane lane : s.road().lanes(middle)) {
            double z = frailty.gammaMeanOne(STANDARD.get(family).shape());
            Cell c = new Cell(s, from, to, lane, family, z, multiplier(weak, s.road(), middle));
            cells.add(c);
            for (Period p : periods(s)) {
              expected += c.wholeness() * STANDARD.get(family).repairs(p.fromYears(), p.toYears());
            }
          }
          from = to;
        }
      }
    }
    double factor = expected > 0 ? repairsPerMile * roadMiles / expected : 0;
    return new Wear(STANDARD.stream().map(f -> f.scaled(factor)).toList(), weak, cells);
  }

  /** When a surface of the history was laid and how old it was while watched. */
  static List<Period> periods(Section s) {
    LocalDate end = s.renewed() == null ? Surfacing.HISTORY_TO : s.renewed();
    List<Period> out = new ArrayList<>();
    out.add(period(s.firstLaid(), Surfacing.HISTORY_FROM, end));
    if (s.renewed() != null) {
      out.add(period(s.renewed(), s.renewed(), Surfacing.HISTORY_TO));
    }
    return out;
  }

  private static Period period(LocalDate laid, LocalDate from, LocalDate to) {
    return new Period(laid, Surfacing.years(laid, from), Surfacing.years(laid, to));
  }

  /** Expected repairs of a cell between two ages, its own frailty and weakness known. */
  double expected(Cell c, double fromYears, double toYears, boolean weakStill) {
    return c.wholeness()
        * c.z()
        * (weakStill ? c.weak() : 1)
        * families.get(c.family()).repairs(fromYears, toYears);
  }

  /** Repairs a year of a cell at a date after the history. */
  double intensity(Cell c, LocalDate on) {
    double age = Surfacing.years(c.section().lastLaid(), on);
    return expected(c, age - 0.5, age + 0.5, true);
  }

  static String traffic(int aadt) {
    return aadt < MEDIUM_FROM_AADT ? "light" : aadt < HEAVY_FROM_AADT ? "medium" : "heavy";
  }

  private static int family(RoadFacts facts) {
    for (int i = 0; i < STANDARD.size(); i++) {
      Family f = STANDARD.get(i);
      if (f.surface().equals(facts.surface()) && f.traffic().equals(traffic(facts.aadt()))) {
        return i;
      }
    }
    // Chip seal under heavy traffic wears as under medium: there is too little of it for a family.
    return STANDARD.size() - 1;
  }

  private static double multiplier(List<Weak> weak, Roadway road, double alongM) {
    return weak.stream()
        .filter(w -> w.holds(road, alongM))
        .mapToDouble(Weak::multiplier)
        .findFirst()
        .orElse(1);
  }

  /** Weak sections lie on old surfaces that nobody renewed, so that they are weak to this day. */
  private static List<Weak> weakSections(
      List<List<Section>> sections, double roadMiles, Dice dice) {
    List<Section> old = new ArrayList<>();
    for (List<Section> road : sections) {
      for (Section s : road) {
        boolean route = s.road().kind() != Kind.HILL && !s.road().led().holds(s.fromM() + 1);
        boolean aged = s.renewed() == null && s.firstLaid().getYear() <= 2010;
        if (route && aged && s.lengthM() > 12 * Surfacing.CELL_M) {
          old.add(s);
        }
      }
    }
    int wanted = (int) StrictMath.max(3, StrictMath.rint(8 * roadMiles / 600));
    List<Weak> out = new ArrayList<>();
    while (out.size() < wanted && !old.isEmpty()) {
      Section s = old.remove(dice.below(old.size()));
      int room = (int) (s.lengthM() / Surfacing.CELL_M) - 2;
      int length = 5 + dice.below(StrictMath.min(room - 5, 9));
      int skip = dice.below(room - length + 1);
      double from =
          (StrictMath.ceil(s.fromM() / Surfacing.CELL_M - 1e-9) + skip) * Surfacing.CELL_M;
      double multiplier = StrictMath.rint(dice.uniform(40, 80)) / 10;
      out.add(new Weak(s, from, from + length * Surfacing.CELL_M, multiplier));
    }
    return out;
  }

  /** Length of road on which repairs are simulated, lane by lane, in miles of one lane. */
  double laneMiles() {
    return cells.stream().mapToDouble(c -> c.toM() - c.fromM()).sum() / Conversion.M_PER_MILE;
  }
}
