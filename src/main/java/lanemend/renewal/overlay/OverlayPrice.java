package lanemend.renewal.overlay;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Prices of an overlay, in the agency's currency.
 *
 * @param fixed mobilisation and traffic control of the project
 * @param perTonne mix laid
 * @param perM2PerCmMilled milling, by area and centimetre of depth
 */
public record OverlayPrice(double fixed, double perTonne, double perM2PerCmMilled) {

  /** Compacted asphalt, 145 lb/ft3 (common practice, no source). */
  public static final double KG_PER_M3 = 2322.7;

  /** Cost of one option over an area. */
  public Figure cost(OverlayDesign.Option option, double areaM2) {
    double tonnes = areaM2 * option.thickness().value() * KG_PER_M3 / 1000;
    double milling = areaM2 * option.millM() * 100 * perM2PerCmMilled;
    return new Figure(
        "cost of overlay",
        fixed + tonnes * perTonne + milling,
        Unit.MONEY,
        "fixed + area x thickness x density x price of mix + area x depth x price of milling",
        List.of(
            new Figure.Input("fixed", fixed, Unit.MONEY),
            new Figure.Input("area", areaM2, Unit.SQUARE_METER),
            option.thickness().asInput(),
            new Figure.Input("density", KG_PER_M3, Unit.KG_PER_CUBIC_METER),
            new Figure.Input("mix", tonnes, Unit.TONNE),
            new Figure.Input("price of a tonne (1.1 short tons) of mix", perTonne, Unit.MONEY),
            new Figure.Input("milled", option.millM(), Unit.THICKNESS_METER),
            new Figure.Input("price of milling 1 m2 by 1 cm", perM2PerCmMilled, Unit.MONEY)),
        "arithmetic; prices are the agency's");
  }
}
