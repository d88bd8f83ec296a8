package lanemend.web.renewal;

import java.time.LocalDate;
import java.util.Locale;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.renewal.LaneStrip;
import lanemend.renewal.SectionHistory;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.repairs.NegativeBinomial;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.renewal.repairs.RepairModel;
import lanemend.web.page.Wording;

/**
 * What the parts of one page share, worked out once.
 *
 * @param cells of the section, all lanes
 * @param strip repairs by lane over the window, which reaches beyond the section
 */
record Evidence(
    FlaggedSection section,
    EvidenceContext context,
    Wording wording,
    Mileposts mileposts,
    RoadWindow window,
    int[] cells,
    SectionHistory history,
    RepairForecast forecast,
    LaneStrip strip) {

  /** Years a forecast is shown for. */
  static final int YEARS = 10;

  static Evidence of(FlaggedSection section, EvidenceContext context) {
    String route = section.cluster().routeId();
    double from = section.fromAlongM();
    double to = section.toAlongM();
    Mileposts mileposts = Mileposts.of(context.network(), route);
    RoadWindow window = RoadWindow.around(mileposts.route(), from, to);
    ExposureSettings records = context.study().settings().exposure();
    return new Evidence(
        section,
        context,
        Wording.of(context.agency()),
        mileposts,
        window,
        context.study().cells(route, from, to),
        context.study().history(route, from, to),
        context.study().forecast(route, from, to, YEARS),
        LaneStrip.of(
            context.study().model().histories(),
            context.study().cells(route, window.fromM(), window.toM()),
            records.recordsFrom(),
            records.recordsTo()));
  }

  RepairModel model() {
    return context.study().model();
  }

  /** First year that is forecast, by the calendar year it lies in for the most part. */
  int firstYear() {
    return context.study().settings().exposure().yearAhead();
  }

  /** First day the records no longer cover; forecasts start on it. */
  LocalDate recordsTo() {
    return context.study().settings().exposure().recordsTo();
  }

  double level() {
    return context.study().settings().draws().level();
  }

  /** The interval's level as it is read, such as {@code 90 %}. */
  String levelText() {
    return percent(level());
  }

  /** Counts of a single year with the section's mean {@code mean}. */
  NegativeBinomial inYear(double mean) {
    return new NegativeBinomial(mean, forecast.rates().relativeVariance() * mean * mean);
  }

  /** Lower end of the interval of a count. */
  long low(NegativeBinomial count) {
    return count.quantile((1 - level()) / 2);
  }

  /** Upper end of the interval of a count. */
  long high(NegativeBinomial count) {
    return count.quantile(1 - (1 - level()) / 2);
  }

  /** A rate kept per lane mile, as the agency reads it. */
  String rate(double perLaneMile) {
    boolean metric = wording.units() == UnitSystem.METRIC;
    return decimals(2, metric ? perLaneMile / (Conversion.M_PER_MILE / 1000) : perLaneMile);
  }

  String rateUnit() {
    return wording.units() == UnitSystem.METRIC
        ? "repairs per lane km and year"
        : "repairs per lane mile and year";
  }

  static String percent(double share) {
    return String.format(Locale.ROOT, "%.0f\u00a0%%", 100 * share);
  }

  static String decimals(int n, double value) {
    return String.format(Locale.ROOT, "%,." + n + "f", value);
  }
}
