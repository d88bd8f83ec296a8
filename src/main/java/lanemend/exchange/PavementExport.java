package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import lanemend.inventory.DistressKind.Measure;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.SurveyedDistress;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Locator;
import lanemend.network.Network;

/** Condition surveys and layers in the columns their readers take. */
public final class PavementExport {
  private static final double M2_PER_FT2 = Conversion.M_PER_FT * Conversion.M_PER_FT;

  private final PlaceColumns places;
  private final boolean us;

  /**
   * @param units of the sizes written
   */
  public PavementExport(Network network, Locator locator, UnitSystem units) {
    this.places = new PlaceColumns(network, locator);
    this.us = units == UnitSystem.US_CUSTOMARY;
  }

  /**
   * Writes surveys.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void surveys(Path target, List<SurveyedDistress> surveys) {
    new ExportTable<SurveyedDistress>()
        .column("id", SurveyedDistress::id)
        .column("sample", SurveyedDistress::sample)
        .column("route", d -> places.name(d.unit().routeId()))
        .column("direction", d -> places.direction(d.unit().routeId()))
        .column("milepost_from", d -> places.finely(d.unit().routeId(), d.unit().fromAlongM()))
        .column("milepost_to", d -> places.finely(d.unit().routeId(), d.unit().toAlongM()))
        .column(us ? "area_ft2" : "area_m2", d -> d.unit().areaM2() / (us ? M2_PER_FT2 : 1))
        .column("additional", d -> d.unit().additional() ? "yes" : "no")
        .column("surveyed_on", d -> d.unit().surveyedOn())
        .column("surveyed_by", d -> d.unit().surveyedBy())
        .column("kind", d -> PavementNames.of(d.kind()))
        .column("severity", d -> d.kind().graded() ? PavementNames.of(d.severity()) : "")
        .column(us ? "quantity_ft2" : "quantity_m2", d -> quantity(d, Measure.AREA, M2_PER_FT2))
        .column(
            us ? "quantity_ft" : "quantity_m",
            d -> quantity(d, Measure.LENGTH, Conversion.M_PER_FT))
        .column("quantity_count", d -> quantity(d, Measure.COUNT, 1))
        .shape(d -> places.stretch(d.unit().routeId(), d.unit().fromAlongM(), d.unit().toAlongM()))
        .write(target, surveys);
  }

  private Double quantity(SurveyedDistress d, Measure measure, double perUs) {
    return d.kind().measure() == measure && d.quantity() > 0
        ? (Double) (d.quantity() / (us ? perUs : 1))
        : null;
  }

  /**
   * Writes layers.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void layers(Path target, List<PavementLayer> layers) {
    new ExportTable<PavementLayer>()
        .column("id", PavementLayer::id)
        .column("route", l -> places.name(l.routeId()))
        .column("direction", l -> places.direction(l.routeId()))
        .column("milepost_from", l -> places.finely(l.routeId(), l.fromAlongM()))
        .column("milepost_to", l -> places.finely(l.routeId(), l.toAlongM()))
        .column("layer", l -> PavementNames.of(l.course()))
        .column(
            us ? "thickness_in" : "thickness_mm",
            l -> l.thicknessM() / (us ? Conversion.M_PER_IN : 1e-3))
        .column("year", PavementLayer::year)
        .column("source", l -> PavementNames.of(l.source()))
        .shape(l -> places.stretch(l.routeId(), l.fromAlongM(), l.toAlongM()))
        .write(target, layers);
  }
}
