package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Tack: residual asphalt by the state of the surface, what must be sprayed to leave it, the litres
 * at the bar and the emulsion to order.
 */
public final class TackSpray {
  private static final double BASE_CELSIUS = (60 - 32) / 1.8;
  private static final String RATES = "FHWA-HIF-16-017 residual rates (from memory)";
  private static final String SPRAY =
      "spray = residual / (residue x emulsion share), identity; 0.04 -> 0.06 gal/yd2 at 2/3 residue"
          + " in a trade magazine (read)";
  private static final String EXPANSION = "0.00025 per deg F, handbook factor (from memory)";

  private static final String D4311 = "ASTM D4311 section 4.2.3, group A (as quoted)";

  private TackSpray() {}

  /** Rate to spray so that {@code residual} stays when the water has gone; same unit in and out. */
  public static double sprayRate(double residual, double residueShare, double emulsionShare) {
    return residual / (residueShare * emulsionShare);
  }

  /**
   * Volume of emulsion at {@code celsius} for each volume at 15.6 deg C (60 deg F). For emulsions
   * only: straight asphalt goes by ASTM D4311.
   */
  public static double expansion(double celsius, double perCelsius) {
    return 1 / (1 - perCelsius * (celsius - BASE_CELSIUS));
  }

  /**
   * Volume of straight asphalt of specific gravity 0.967 or more at 60 deg F for each volume at
   * {@code fahrenheit}: ASTM D4311 section 4.2.3 as quoted, table M of Iowa DOT IM T-102C (read).
   * Not for emulsion.
   */
  public static double asphaltTo60F(double fahrenheit) {
    return 1.0211 - 3.5490e-4 * fahrenheit + 4.4988e-8 * fahrenheit * fahrenheit;
  }

  private static double growth(MaterialSettings material) {
    return switch (material.tackMaterial()) {
      case EMULSION -> expansion(material.sprayCelsius(), material.emulsionExpansionPerCelsius());
      case ASPHALT -> 1 / asphaltTo60F(material.sprayCelsius() * 1.8 + 32);
    };
  }

  /** The rate within the range: dense surfaces take the middle, open and dry ones the top. */
  static double residual(MaterialSettings.TackRate rate, Severity severity) {
    return severity == Severity.HIGH ? rate.highLitersPerM2() : rate.middle();
  }

  /**
   * Adds area, rates and litres to {@code trace}.
   *
   * @param areaM2 tacked
   * @param surface what is tacked, in words
   */
  static Figure of(
      Trace trace, double areaM2, String surface, double residual, MaterialSettings material) {
    Figure area =
        trace.add(
            "tacked area",
            areaM2,
            Unit.SQUARE_METER,
            "area of all faces that mix is laid against",
            Trace.GEOMETRY);
    Figure left =
        trace.add(
            "tack residual rate",
            residual,
            Unit.LITER_PER_SQUARE_METER,
            "rate for " + surface,
            RATES);
    Figure rate =
        trace.add(
            "tack spray rate",
            sprayRate(residual, material.emulsionResidue(), material.emulsionShare()),
            Unit.LITER_PER_SQUARE_METER,
            "residual rate / (emulsion residue x emulsion share of the mixture)",
            SPRAY,
            left.asInput(),
            in("emulsion residue", material.emulsionResidue(), Unit.RATIO),
            in("emulsion share", material.emulsionShare(), Unit.RATIO));
    double growth = growth(material);
    Figure spray =
        trace.add(
            FigureName.TACK,
            areaM2 * rate.value() * growth,
            Unit.LITER,
            "area x spray rate x volume at spraying temperature for each at 60 deg F",
            material.tackMaterial() == TackMaterial.EMULSION ? EXPANSION : D4311,
            area.asInput(),
            rate.asInput(),
            in("spraying temperature", material.sprayCelsius(), Unit.DEGREE_CELSIUS),
            in("growth", growth, Unit.RATIO));
    trace.add(
        "tack to order",
        areaM2 * rate.value() * material.emulsionShare(),
        Unit.LITER,
        "area x spray rate x emulsion share, before dilution, at 60 deg F",
        Trace.ARITHMETIC,
        area.asInput(),
        rate.asInput(),
        in("emulsion share", material.emulsionShare(), Unit.RATIO));
    return spray;
  }
}
