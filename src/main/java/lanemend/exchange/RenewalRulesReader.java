package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayPrice;
import lanemend.renewal.overlay.OverlayRules;
import lanemend.renewal.repairs.RepairCost;

/**
 * What the agency sets for renewal: the optional object {@code renewal} of the agency file. Every
 * field is optional; what is not named stays as it is. {@link AgencyWriter} is the way back.
 */
public final class RenewalRulesReader {
  private static final double MOST_MONEY = 1e9;
  private static final double M2_CM_PER_YD2_IN = Conversion.M2_PER_YD2 * 100 * Conversion.M_PER_IN;

  private final JsonFields f;

  private RenewalRulesReader(JsonFields fields) {
    this.f = fields;
  }

  /**
   * Reads the {@code renewal} object of an agency file.
   *
   * @param standard what holds where the file says nothing
   * @throws ExchangeException with everything that is wrong
   */
  public static RenewalRules read(Path agencyFile, RenewalRules standard) {
    return in(RowSource.nameOf(agencyFile), JsonValue.read(agencyFile), standard);
  }

  /**
   * The same from the text of an agency file.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static RenewalRules parse(String name, String json, RenewalRules standard) {
    return in(name, JsonValue.parse(name, json), standard);
  }

  private static RenewalRules in(String name, JsonValue root, RenewalRules standard) {
    JsonProblems problems = new JsonProblems(name);
    JsonFields fields = new JsonFields(root, problems);
    RenewalRules rules = standard;
    if (fields.has("renewal")) {
      JsonFields renewal = fields.object("renewal");
      rules = new RenewalRulesReader(renewal).rules(standard);
      renewal.done();
    }
    problems.check();
    return rules;
  }

  private RenewalRules rules(RenewalRules s) {
    Optional<LocalDate> from = day("records_from", s.recordsFrom());
    Optional<LocalDate> to = day("records_to", s.recordsTo());
    if (from.isPresent() && to.isPresent() && !from.get().isBefore(to.get())) {
      f.wrong("records_to", "a day after records_from");
    }
    return new RenewalRules(
        from,
        to,
        growing("traffic_bands", s.trafficBands()),
        size("min_project_miles", Conversion.M_PER_MILE, "min_project_km", 1_000, s.minProjectM()),
        repairCost(s.repairCost()),
        list("yearly_budgets", MOST_MONEY, s.yearlyBudgets()),
        overlay(s.overlay()));
  }

  private Optional<RepairCost> repairCost(Optional<RepairCost> standard) {
    boolean set =
        f.has("cost_per_repair")
            || f.has("repair_price_per_ton")
            || f.has("repair_price_per_tonne");
    // One without the other would mix the agency's figure with one worked out for another.
    return set
        ? Optional.of(
            new RepairCost(
                f.number("cost_per_repair", 0, MOST_MONEY),
                f.either(
                    "repair_price_per_ton",
                    1 / Conversion.T_PER_SHORT_TON,
                    "repair_price_per_tonne",
                    1,
                    MOST_MONEY)))
        : standard;
  }

  private OverlayRules overlay(OverlayRules s) {
    OverlayPrice p = s.price();
    return new OverlayRules(
        new OverlayPrice(
            number("overlay_fixed_cost", 0, MOST_MONEY, p.fixed()),
            size(
                "overlay_price_per_ton",
                1 / Conversion.T_PER_SHORT_TON,
                "overlay_price_per_tonne",
                1,
                p.perTonne()),
            size(
                "milling_price_per_yd2_in",
                1 / M2_CM_PER_YD2_IN,
                "milling_price_per_m2_cm",
                1,
                p.perM2PerCmMilled())),
        whole("overlay_life_years", 1, 60, s.lifeYears()),
        number("excess_kept", 0, 1, s.kept()),
        number("discount_rate", 0, 0.25, s.discountRate()),
        whole("analysis_years", 2, 60, s.analysisYears()),
        new OverlayRules.Traffic(
            number("loads_per_truck", 0.001, 20, s.traffic().loadsPerTruck()),
            number("traffic_growth", -0.1, 0.2, s.traffic().growth()),
            whole("design_years", 1, 60, s.traffic().designYears())),
        soil(s.soil()),
        structures(s.structures()),
        limits(s.limits()),
        LayerTableJson.read(f, s.layers()));
  }

  private OverlayRules.Soil soil(OverlayRules.Soil s) {
    Map<RoadClass, Double> reliability = new EnumMap<>(s.reliability());
    if (f.has("reliability")) {
      reliability.putAll(f.numbersBy("reliability", RoadClass.class, 1, 0.5, 0.9999));
    }
    return new OverlayRules.Soil(
        size("subgrade_psi", Conversion.KPA_PER_PSI, "subgrade_kpa", 1, s.subgradeKpa()),
        number("psi_loss", 0.1, 4.5, s.psiLoss()),
        number("overall_sd", 0, 1, s.overallSd()),
        reliability);
  }

  private Map<RoadClass, OverlayRules.Structure> structures(
      Map<RoadClass, OverlayRules.Structure> s) {
    Map<RoadClass, OverlayRules.Structure> all = new EnumMap<>(s);
    if (f.has("structure")) {
      JsonFields classes = f.object("structure");
      for (RoadClass c : RoadClass.values()) {
        String name = c.name().toLowerCase(Locale.ROOT);
        if (classes.has(name)) {
          JsonFields one = classes.object(name);
          RenewalRulesReader in = new RenewalRulesReader(one);
          all.put(
              c,
              new OverlayRules.Structure(
                  in.inches("asphalt", s.get(c).asphaltM()),
                  in.inches("base", s.get(c).baseM()),
                  in.number("base_drainage", 0.4, 1.4, s.get(c).drainage())));
          one.done();
        }
      }
      classes.done();
    }
    return all;
  }

  private OverlayDesign.Limits limits(OverlayDesign.Limits s) {
    return new OverlayDesign.Limits(
        number("overlay_coefficient", 0.1, 0.6, s.overlayCoefficient()),
        inches("thinnest_overlay", s.thinnestM()),
        inches("least_milling", s.leastMillM()),
        inches("most_rise", s.mostRiseM()),
        inches("least_asphalt_left", s.leastLeftM()));
  }

  private double inches(String name, double standard) {
    return size(name + "_in", Conversion.M_PER_IN, name + "_mm", 0.001, standard);
  }

  /** A size of more than nothing in either unit, except where the standard is nothing. */
  private double size(
      String us, double siPerUs, String metric, double siPerMetric, double standard) {
    boolean given = f.has(us) || f.has(metric);
    if (!given) {
      return standard;
    }
    double value = f.either(us, siPerUs, metric, siPerMetric, MOST_MONEY);
    if (!(value > 0) && standard > 0 && f.problems().none()) {
      f.wrong(f.has(us) ? us : metric, "more than 0");
      return standard;
    }
    return value;
  }

  private double number(String field, double min, double max, double standard) {
    return f.has(field) ? f.number(field, min, max) : standard;
  }

  private int whole(String field, int min, int max, int standard) {
    return f.has(field) ? f.whole(field, min, max) : standard;
  }

  private Optional<LocalDate> day(String field, Optional<LocalDate> standard) {
    return f.has(field) ? Optional.of(f.date(field)) : standard;
  }

  private List<Double> growing(String field, List<Double> standard) {
    List<Double> edges = list(field, 1e6, standard);
    for (int i = 1; i < edges.size(); i++) {
      if (!(edges.get(i) > edges.get(i - 1))) {
        f.wrong(field, "numbers that grow");
        return standard;
      }
    }
    return edges;
  }

  private List<Double> list(String field, double most, List<Double> standard) {
    if (!f.has(field)) {
      return standard;
    }
    List<Double> numbers = new ArrayList<>();
    for (JsonValue v : f.list(field)) {
      double value = v.isNumber() ? Cells.parse(v.text()) : Double.NaN;
      if (value >= 0 && value <= most) {
        numbers.add(value);
      } else {
        f.problems().wrong(v, "a number " + Cells.range(0, most));
      }
    }
    return numbers;
  }
}
