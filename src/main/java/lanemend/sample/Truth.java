package lanemend.sample;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import lanemend.sample.Wear.Cell;
import lanemend.sample.Wear.Family;
import lanemend.sample.Wear.Period;
import lanemend.sample.Wear.Weak;

/** What a forecast made from the history can be checked against. */
final class Truth {
  private static final LocalDate FORECAST_TO = LocalDate.of(2031, 1, 1);

  private final County county;
  private final ObjectNode root = JsonNodeFactory.instance.objectNode();

  private Truth(County county) {
    this.county = county;
  }

  static ObjectNode write(County county) {
    Truth t = new Truth(county);
    t.head();
    t.families();
    t.weak();
    PlannedThen.truth(t.root);
    return t.root;
  }

  private void head() {
    root.put("about", "The truth behind the invented repairs of " + Terrain.COUNTY + ".")
        .put("seed", county.seed())
        .put("road_miles_wanted", county.size().roadMiles())
        .put("open_defects", county.size().openDefects())
        .put("findings", county.size().findings())
        .put("repairs_per_mile", county.size().repairsPerMile())
        .put("history_from", Surfacing.HISTORY_FROM.toString())
        .put("history_before", Surfacing.HISTORY_TO.toString())
        .put("cell_m", Surfacing.CELL_M)
        .put("lane_miles", round(county.wear().laneMiles()))
        .put(
            "model",
            "Each cell (a tenth of a mile, counted from the route's start) of each lane: repairs a"
                + " year = z * m * a * b * t^(b-1), t years since its last surfacing, z gamma of"
                + " mean 1 and this shape for each cell and lane, m the multiplier of a weak"
                + " section or 1; a is for a whole cell. Short tons of a repair are lognormal."
                + " Resurfacing sets t to 0 and would make m 1. On a shared stretch only the first"
                + " route has cells. Dates that fell on a weekend stand on the Monday after.");
    double[] all = expected(-1);
    root.put("expected_repairs", round(all[0])).put("repairs", repairs(-1));
  }

  /** Expected repairs of a family (-1 for all) in the history and in the five years after. */
  private double[] expected(int family) {
    double history = 0;
    double after = 0;
    for (Cell c : county.wear().cells()) {
      if (family < 0 || c.family() == family) {
        history += history(c);
        after += after(c, true);
      }
    }
    return new double[] {history, after};
  }

  private double history(Cell c) {
    double sum = 0;
    for (Period p : Wear.periods(c.section())) {
      sum += county.wear().expected(c, p.fromYears(), p.toYears(), true);
    }
    return sum;
  }

  private double after(Cell c, boolean leftAsItIs) {
    LocalDate laid = leftAsItIs ? c.section().lastLaid() : Surfacing.HISTORY_TO;
    double from = Surfacing.years(laid, Surfacing.HISTORY_TO);
    double to = Surfacing.years(laid, FORECAST_TO);
    return county.wear().expected(c, from, to, leftAsItIs);
  }

  private long repairs(int family) {
    return county.history().stream()
        .filter(r -> family < 0 ? r.family() >= 0 : r.family() == family)
        .count();
  }

  private void families() {
    ArrayNode families = root.putArray("families");
    for (int i = 0; i < county.wear().families().size(); i++) {
      Family f = county.wear().families().get(i);
      double[] expected = expected(i);
      families
          .addObject()
          .put("surface", f.surface())
          .put("traffic", f.traffic())
          .put("a", f.a())
          .put("b", f.b())
          .put("frailty_shape", f.shape())
          .put("tons_median", f.tons())
          .put("tons_log_sd", f.logSd())
          .put("expected_repairs", round(expected[0]))
          .put("repairs", repairs(i))
          .put("expected_repairs_2026_to_2030", round(expected[1]));
    }
    root.putObject("traffic_bands")
        .put("medium_from_aadt", Wear.MEDIUM_FROM_AADT)
        .put("heavy_from_aadt", Wear.HEAVY_FROM_AADT);
  }

  private void weak() {
    ArrayNode all = root.putArray("weak_sections");
    for (Weak w : county.wear().weak()) {
      Roadway road = w.section().road();
      double history = 0;
      double left = 0;
      double overlaid = 0;
      for (Cell c : county.wear().cells()) {
        if (w.holds(c.section().road(), c.middleM())) {
          history += history(c);
          left += after(c, true);
          overlaid += after(c, false);
        }
      }
      long repairs =
          county.history().stream()
              .filter(r -> r.family() >= 0 && w.holds(r.road(), (r.fromM() + r.toM()) / 2))
              .count();
      all.addObject()
          .put("route", road.id())
          .put("from_along_m", round(w.fromM()))
          .put("to_along_m", round(w.toM()))
          .put("from_milepost", road.write(w.fromM()).text())
          .put("to_milepost", road.write(w.toM()).text())
          .put("multiplier", w.multiplier())
          .put("last_surfacing", w.section().lastLaid().toString())
          .put("expected_repairs", round(history))
          .put("repairs", repairs)
          .put("expected_repairs_2026_to_2030_left_as_it_is", round(left))
          .put("expected_repairs_2026_to_2030_if_overlaid_now", round(overlaid));
    }
  }

  private static double round(double v) {
    return StrictMath.rint(v * 100) / 100;
  }
}
