package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.CalibrationPost;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;

/**
 * Events to CSV or, when the target ends in {@code .geojson}, to GeoJSON; in the columns the
 * readers take, so that an export imports unchanged.
 */
public final class EventExport {
  private final Network network;
  private final PlaceColumns places;
  private final UnitSystem units;
  private final boolean us;

  /**
   * @param units of the sizes written
   */
  public EventExport(Network network, Locator locator, UnitSystem units) {
    this.network = network;
    this.places = new PlaceColumns(network, locator);
    this.units = units;
    this.us = units == UnitSystem.US_CUSTOMARY;
  }

  /**
   * Writes defects.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void defects(Path target, List<Defect> defects) {
    ExportTable<Defect> table = new ExportTable<Defect>().column("id", Defect::id);
    places.entered(table, Defect::place);
    table
        .column("lane", d -> d.lane().code())
        .column("kind", d -> lower(d.kind()))
        .column("severity", d -> lower(d.severity()));
    size(table, "length_ft", Conversion.M_PER_FT, "length_m", 1, Defect::lengthM);
    size(table, "width_ft", Conversion.M_PER_FT, "width_m", 1, Defect::widthM);
    size(table, "depth_in", Conversion.M_PER_IN, "depth_mm", 1e-3, Defect::depthM);
    table
        .column("found_on", Defect::foundOn)
        .column("found_by", Defect::foundBy)
        .column("photo", Defect::photo)
        .column("note", Defect::note)
        .column("status", d -> lower(d.status()));
    places.derived(table, Defect::place);
    table.write(target, defects);
  }

  /**
   * Writes findings.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void findings(Path target, List<Finding> findings) {
    ExportTable<Finding> table =
        new ExportTable<Finding>().column("id", Finding::id).column("kind", f -> lower(f.kind()));
    places.entered(table, Finding::place);
    table
        .column("side", f -> lower(f.side()))
        .column("found_on", Finding::foundOn)
        .column("found_by", Finding::foundBy)
        .column("note", Finding::note);
    places.derived(table, Finding::place);
    table.write(target, findings);
  }

  /**
   * Writes past repairs, with what was planned of them where anything is known of that.
   *
   * @param plannedWork by patch id
   * @throws ExchangeException when the file cannot be written
   */
  public void patches(Path target, List<PastPatch> patches, Map<String, PlannedWork> plannedWork) {
    ExportTable<PastPatch> table =
        new ExportTable<PastPatch>().column("id", PastPatch::id).column("work", PastPatch::work);
    places.entered(table, PastPatch::place);
    table
        .column("lane", p -> p.lane() == null ? "" : p.lane().code())
        .column("done_on", PastPatch::doneOn);
    size(table, "tons", Conversion.T_PER_SHORT_TON, "tonnes", 1, PastPatch::tonnes);
    table.column("crew_hours", PastPatch::crewHours).column("cost", PastPatch::cost);
    if (patches.stream().anyMatch(p -> plannedWork.containsKey(p.id()))) {
      PlannedColumns.add(table, plannedWork, us);
    }
    places.derived(table, PastPatch::place);
    table.write(target, patches);
  }

  /**
   * Writes facts over stretches; the ends of a route are left blank.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void attributes(Path target, List<RoadAttribute> attributes) {
    new ExportTable<RoadAttribute>()
        .column("route", a -> places.name(a.routeId()))
        .column("direction", a -> places.direction(a.routeId()))
        .column("milepost_from", a -> end(a.routeId(), a.fromAlongM()))
        .column("milepost_to", a -> end(a.routeId(), a.toAlongM()))
        .column("name", a -> shown(a).name())
        .column("value", a -> shown(a).value())
        .column("valid_from", RoadAttribute::validFrom)
        .column("valid_to", RoadAttribute::validTo)
        .shape(a -> places.stretch(a.routeId(), a.fromAlongM(), a.toAlongM()))
        .write(target, attributes);
  }

  private String end(String routeId, double alongM) {
    boolean atEnd =
        alongM == 0 || network.route(routeId).map(Route::lengthM).orElse(-1.0) == alongM;
    return atEnd ? "" : places.finely(routeId, alongM);
  }

  private AttributeUnits.Shown shown(RoadAttribute a) {
    return AttributeUnits.shown(a.name(), a.value(), units);
  }

  private record PostOfRoute(Route route, CalibrationPost post) {}

  /**
   * Writes every calibration post by its distance from the start of its route.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void posts(Path target) {
    List<PostOfRoute> all =
        network.routes().values().stream()
            .flatMap(r -> r.mileposts().posts().stream().map(p -> new PostOfRoute(r, p)))
            .toList();
    ExportTable<PostOfRoute> table =
        new ExportTable<PostOfRoute>()
            .column("route", p -> p.route().name())
            .column("direction", p -> p.route().direction())
            .column("milepost", p -> p.post().backMiles())
            .column("ahead", p -> p.post().isEquation() ? p.post().aheadMiles() : null);
    size(table, "distance_ft", Conversion.M_PER_FT, "distance_m", 1, p -> p.post().alongM());
    table
        .shape(p -> places.stretch(p.route().id(), p.post().alongM(), p.post().alongM()))
        .write(target, all);
  }

  private <T> void size(
      ExportTable<T> table,
      String usName,
      double perUs,
      String metricName,
      double perMetric,
      Function<T, Double> inside) {
    double unit = us ? perUs : perMetric;
    table.column(
        us ? usName : metricName,
        t -> {
          Double value = inside.apply(t);
          return value == null ? null : (Double) (value / unit);
        });
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
