package lanemend.sample;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.sample.Draft.Kind;
import lanemend.sample.Roadway.Led;

/** When each stretch was surfaced: sections of a mile to a few, some renewed within the history. */
final class Surfacing {
  static final double CELL_M = Conversion.M_PER_MILE / 10;
  static final LocalDate HISTORY_FROM = LocalDate.of(2016, 1, 1);
  static final LocalDate HISTORY_TO = LocalDate.of(2026, 1, 1);

  private static final int FEWEST_CELLS = 9;
  private static final int MOST_CELLS = 34;

  /**
   * One section; its ends lie between cells or at the route's ends.
   *
   * @param firstLaid before the history begins
   * @param renewed within the history, or null
   */
  record Section(Roadway road, double fromM, double toM, LocalDate firstLaid, LocalDate renewed) {

    LocalDate lastLaid() {
      return renewed == null ? firstLaid : renewed;
    }

    double lengthM() {
      return toM - fromM;
    }
  }

  private Surfacing() {}

  /** Sections of every route by growing along; a route that is led takes its leader's there. */
  static List<List<Section>> lay(List<Roadway> roads, Dice dice) {
    List<List<Section>> out = new ArrayList<>();
    for (Roadway r : roads) {
      List<Section> own = new ArrayList<>();
      if (r.led().equals(Led.NONE)) {
        sections(r, 0, r.lengthM(), dice, own);
      } else {
        sections(r, 0, r.led().fromM(), dice, own);
        copy(r, leader(roads, out, r.led()), own);
        sections(r, r.led().toM(), r.lengthM(), dice, own);
      }
      out.add(own);
    }
    return out;
  }

  private static List<Section> leader(List<Roadway> roads, List<List<Section>> done, Led led) {
    for (int i = 0; i < done.size(); i++) {
      if (roads.get(i).id().equals(led.otherId())) {
        return done.get(i);
      }
    }
    throw new IllegalStateException(led.otherId() + " must be laid before the route it leads");
  }

  private static void copy(Roadway r, List<Section> leader, List<Section> out) {
    Led led = r.led();
    double shift = led.fromM() - led.otherFromM();
    for (Section s : leader) {
      double from = StrictMath.max(led.fromM(), s.fromM() + shift);
      double to = StrictMath.min(led.toM(), s.toM() + shift);
      if (from < to) {
        out.add(new Section(r, from, to, s.firstLaid(), s.renewed()));
      }
    }
  }

  private static void sections(Roadway r, double fromM, double toM, Dice dice, List<Section> out) {
    double from = fromM;
    while (toM - from > 1e-6) {
      int cells = FEWEST_CELLS + dice.below(MOST_CELLS - FEWEST_CELLS);
      double to = (StrictMath.floor(from / CELL_M + 1e-9) + cells) * CELL_M;
      if (toM - to < FEWEST_CELLS * CELL_M) {
        to = toM;
      }
      boolean busy = r.kind() == Kind.STATE || r.kind() == Kind.FREEWAY;
      LocalDate first = LocalDate.of(1999 + dice.below(16), 7, 1);
      boolean renew = dice.chance(busy ? 0.34 : 0.22);
      LocalDate renewed = LocalDate.of(2016 + dice.below(9), 6, 1).plusDays(dice.below(110));
      out.add(new Section(r, from, to, first, renew ? renewed : null));
      from = to;
    }
  }

  /** Years of 365.25 days. */
  static double years(LocalDate from, LocalDate to) {
    return ChronoUnit.DAYS.between(from, to) / 365.25;
  }
}
