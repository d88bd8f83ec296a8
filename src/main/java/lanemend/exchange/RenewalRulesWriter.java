package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.renewal.RenewalRules;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayRules;

/**
 * The {@code renewal} object of an agency file, in the agency's units: {@link RenewalRulesReader}'s
 * way back.
 */
final class RenewalRulesWriter {
  private static final double M2_CM_PER_YD2_IN = Conversion.M2_PER_YD2 * 100 * Conversion.M_PER_IN;

  private final JsonGenerator out;
  private final boolean us;

  private RenewalRulesWriter(JsonGenerator out, boolean us) {
    this.out = out;
    this.us = us;
  }

  /** Writes whatever is not as in {@code standard}; nothing when all is. */
  static void write(JsonGenerator out, boolean us, RenewalRules rules, RenewalRules standard)
      throws IOException {
    if (!rules.equals(standard)) {
      out.writeObjectFieldStart("renewal");
      new RenewalRulesWriter(out, us).rules(rules, standard);
      out.writeEndObject();
    }
  }

  private void rules(RenewalRules r, RenewalRules s) throws IOException {
    day("records_from", r.recordsFrom());
    day("records_to", r.recordsTo());
    list("traffic_bands", r.trafficBands(), s.trafficBands());
    size(
        "min_project_miles",
        Conversion.M_PER_MILE,
        "min_project_km",
        1_000,
        r.minProjectM(),
        s.minProjectM());
    if (r.repairCost().isPresent()) {
      JsonText.number(out, "cost_per_repair", r.repairCost().get().perRepair());
      size(
          "repair_price_per_ton",
          1 / Conversion.T_PER_SHORT_TON,
          "repair_price_per_tonne",
          1,
          r.repairCost().get().perTonne(),
          Double.NaN);
    }
    list("yearly_budgets", r.yearlyBudgets(), s.yearlyBudgets());
    prices(r.overlay(), s.overlay());
    road(r.overlay(), s.overlay());
    structures(r.overlay().structures(), s.overlay().structures());
    limits(r.overlay().limits(), s.overlay().limits());
    if (!r.overlay().layers().equals(s.overlay().layers())) {
      LayerTableJson.write(out, r.overlay().layers());
    }
  }

  private void prices(OverlayRules r, OverlayRules s) throws IOException {
    number("overlay_fixed_cost", r.price().fixed(), s.price().fixed());
    size(
        "overlay_price_per_ton",
        1 / Conversion.T_PER_SHORT_TON,
        "overlay_price_per_tonne",
        1,
        r.price().perTonne(),
        s.price().perTonne());
    size(
        "milling_price_per_yd2_in",
        1 / M2_CM_PER_YD2_IN,
        "milling_price_per_m2_cm",
        1,
        r.price().perM2PerCmMilled(),
        s.price().perM2PerCmMilled());
    number("overlay_life_years", r.lifeYears(), s.lifeYears());
    number("excess_kept", r.kept(), s.kept());
    number("discount_rate", r.discountRate(), s.discountRate());
    number("analysis_years", r.analysisYears(), s.analysisYears());
  }

  private void road(OverlayRules r, OverlayRules s) throws IOException {
    number("loads_per_truck", r.traffic().loadsPerTruck(), s.traffic().loadsPerTruck());
    number("traffic_growth", r.traffic().growth(), s.traffic().growth());
    number("design_years", r.traffic().designYears(), s.traffic().designYears());
    if (!r.soil().reliability().equals(s.soil().reliability())) {
      out.writeObjectFieldStart("reliability");
      for (var e : new TreeMap<>(r.soil().reliability()).entrySet()) {
        JsonText.number(out, lower(e.getKey()), e.getValue());
      }
      out.writeEndObject();
    }
    size(
        "subgrade_psi",
        Conversion.KPA_PER_PSI,
        "subgrade_kpa",
        1,
        r.soil().subgradeKpa(),
        s.soil().subgradeKpa());
    number("psi_loss", r.soil().psiLoss(), s.soil().psiLoss());
    number("overall_sd", r.soil().overallSd(), s.soil().overallSd());
  }

  private void structures(
      Map<RoadClass, OverlayRules.Structure> r, Map<RoadClass, OverlayRules.Structure> s)
      throws IOException {
    if (r.equals(s)) {
      return;
    }
    out.writeObjectFieldStart("structure");
    for (var e : new TreeMap<>(r).entrySet()) {
      OverlayRules.Structure usual = s.get(e.getKey());
      if (!e.getValue().equals(usual)) {
        out.writeObjectFieldStart(lower(e.getKey()));
        inches("asphalt", e.getValue().asphaltM(), usual.asphaltM());
        inches("base", e.getValue().baseM(), usual.baseM());
        number("base_drainage", e.getValue().drainage(), usual.drainage());
        out.writeEndObject();
      }
    }
    out.writeEndObject();
  }

  private void limits(OverlayDesign.Limits r, OverlayDesign.Limits s) throws IOException {
    number("overlay_coefficient", r.overlayCoefficient(), s.overlayCoefficient());
    inches("thinnest_overlay", r.thinnestM(), s.thinnestM());
    inches("least_milling", r.leastMillM(), s.leastMillM());
    inches("most_rise", r.mostRiseM(), s.mostRiseM());
    inches("least_asphalt_left", r.leastLeftM(), s.leastLeftM());
  }

  private void inches(String name, double value, double usual) throws IOException {
    size(name + "_in", Conversion.M_PER_IN, name + "_mm", 0.001, value, usual);
  }

  private void size(
      String usField,
      double siPerUs,
      String metricField,
      double siPerMetric,
      double value,
      double usual)
      throws IOException {
    number(
        us ? usField : metricField,
        value / (us ? siPerUs : siPerMetric),
        usual / (us ? siPerUs : siPerMetric));
  }

  private void number(String field, double value, double usual) throws IOException {
    if (value != usual) {
      JsonText.number(out, field, value);
    }
  }

  private void day(String field, Optional<LocalDate> day) throws IOException {
    if (day.isPresent()) {
      out.writeStringField(field, day.get().toString());
    }
  }

  private void list(String field, List<Double> values, List<Double> usual) throws IOException {
    if (!values.equals(usual)) {
      out.writeArrayFieldStart(field);
      for (double value : values) {
        out.writeNumber(Numbers.plain(value));
      }
      out.writeEndArray();
    }
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
