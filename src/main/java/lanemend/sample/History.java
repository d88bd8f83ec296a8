package lanemend.sample;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.measure.Conversion;
import lanemend.sample.Surfacing.Section;
import lanemend.sample.Wear.Cell;
import lanemend.sample.Wear.Family;
import lanemend.sample.Wear.Period;

/** Ten years of repairs and resurfacings, drawn from the {@link Wear} behind them. */
final class History {

  /**
   * One row of the patches file.
   *
   * @param lane empty for a resurfacing, which covers the road
   * @param family number of the family it was drawn from, or -1 for a resurfacing
   * @param milepostTo empty for a spot
   */
  record Row(
      Roadway road,
      String work,
      double fromM,
      double toM,
      String milepost,
      String milepostTo,
      String lane,
      LocalDate doneOn,
      double tons,
      double crewHours,
      double cost,
      int family) {}

  private static final double SPOT_M = 15;
  private static final double MIX_PRICE = 92;
  private static final double CREW_PRICE = 310;

  /** Compacted mix of one inch, short tons per square yard: 110 lb, common practice, no source. */
  private static final double TONS_PER_YD2_INCH = 110.0 / 2000;

  private static final double OVERLAY_INCHES = 1.75;

  private final Wear wear;
  private final Dice dice;
  private final List<Row> rows = new ArrayList<>();

  private History(Wear wear, Dice dice) {
    this.wear = wear;
    this.dice = dice;
  }

  /** Every row, by date. */
  static List<Row> draw(Wear wear, List<List<Section>> sections, Dice dice) {
    History h = new History(wear, dice);
    for (Cell c : wear.cells()) {
      h.repairs(c);
    }
    for (List<Section> road : sections) {
      for (Section s : road) {
        if (s.renewed() != null && !s.road().led().holds((s.fromM() + s.toM()) / 2)) {
          h.resurfacing(s);
        }
      }
    }
    h.rows.sort(Comparator.comparing(Row::doneOn));
    return h.rows;
  }

  private void repairs(Cell c) {
    Family f = wear.families().get(c.family());
    for (Period p : Wear.periods(c.section())) {
      int count = dice.poisson(wear.expected(c, p.fromYears(), p.toYears(), true));
      for (int i = 0; i < count; i++) {
        double age = f.ageAt(p.fromYears(), p.toYears(), dice.uniform(0, 1));
        LocalDate day = p.laid().plusDays((long) (age * 365.25));
        rows.add(repair(c, f, workday(day)));
      }
    }
  }

  private Row repair(Cell c, Family f, LocalDate day) {
    double tons = StrictMath.max(0.05, round(dice.lognormal(f.tons(), f.logSd()), 0.01));
    String work = work(c, tons);
    double lengthM = StrictMath.min(60, 1.5 + 5 * tons * dice.uniform(0.7, 1.3));
    double room = c.toM() - c.fromM();
    double half = StrictMath.min(lengthM, room * 0.9) / 2;
    double middle = dice.uniform(c.fromM() + half, c.toM() - half);
    double hours = round(0.7 + 0.45 * tons * dice.uniform(0.75, 1.3), 0.1);
    Roadway road = c.section().road();
    boolean spot = 2 * half < SPOT_M;
    Roadway.Written from = road.write(spot ? middle : middle - half);
    Roadway.Written to = spot ? from : road.write(middle + half);
    return new Row(
        road,
        work,
        from.alongM(),
        to.alongM(),
        from.text(),
        spot ? "" : to.text(),
        c.lane().code(),
        day,
        tons,
        hours,
        round(tons * MIX_PRICE + hours * CREW_PRICE, 0.01),
        c.family());
  }

  private String work(Cell c, double tons) {
    boolean narrow = c.section().road().facts(c.middleM()).shoulderFt() <= 2;
    if (narrow && dice.chance(0.12)) {
      return "edge_repair";
    }
    if (tons > 4) {
      return dice.chance(0.85) ? "blade_patch" : "dig_out_and_rebuild";
    }
    return tons > 1.5 && dice.chance(0.15) ? "dig_out_and_rebuild" : "hand_patch";
  }

  private void resurfacing(Section s) {
    double area = 0;
    double step = s.lengthM() / 40;
    for (int i = 0; i < 40; i++) {
      RoadFacts f = s.road().facts(s.fromM() + (i + 0.5) * step);
      area += step * f.lanes() * f.laneWidthFt() * Conversion.M_PER_FT;
    }
    double tons = round(area / Conversion.M2_PER_YD2 * OVERLAY_INCHES * TONS_PER_YD2_INCH, 1);
    double hours = round(tons / 24, 0.5);
    Roadway.Written from = s.road().write(s.fromM());
    Roadway.Written to = s.road().write(s.toM());
    rows.add(
        new Row(
            s.road(),
            "resurfacing",
            from.alongM(),
            to.alongM(),
            from.text(),
            to.text(),
            "",
            s.renewed(),
            tons,
            hours,
            round(tons * MIX_PRICE + hours * 4 * CREW_PRICE, 0.01),
            -1));
  }

  /** Crews mend a weekend's call on the Monday after. */
  private static LocalDate workday(LocalDate day) {
    return switch (day.getDayOfWeek()) {
      case SATURDAY -> day.plusDays(2);
      case SUNDAY -> day.plusDays(1);
      default -> day;
    };
  }

  private static double round(double value, double unit) {
    return StrictMath.rint(value / unit) * unit;
  }
}
