package lanemend.patching;

import lanemend.measure.Conversion;

/**
 * Mix, base and tack.
 *
 * @param mixKgPerM3 compacted mix; 145 lb/ft3. NAVEDTRA 14080 p. 8-31 works with 146 and gives 140
 *     to 160 (read)
 * @param mixWaste share added to the order; NAVEDTRA 14080 p. 8-31 adds 5 or 10 % (read)
 * @param looseFactor loose volume for each compacted volume: 2.5 in behind the screed for 2 in
 *     compacted (Asphalt paving handbook section 7.5, figure 109, read)
 * @param largestStoneM nominal maximum size of the mix
 * @param rutFillShare mean depth of a rut for each unit of its deepest: a parabola's 2/3 (geometry)
 * @param holeFillShare the same for a pothole (common practice)
 * @param sagFillShare the same for any other hollow: a paraboloid's 1/2 (geometry)
 * @param baseKgPerM3 compacted base stone, 135 lb/ft3 (from memory)
 * @param newSurface residual tack on new asphalt (between lifts)
 * @param existingSurface residual tack on existing asphalt
 * @param milledSurface residual tack on milled or sawn asphalt
 * @param tackMaterial what is sprayed
 * @param emulsionResidue share of asphalt in what is bought, 1 for straight asphalt; CSS-1 at least
 *     57 % (Caltrans Standard Specifications 1995 section 94 table 2, read)
 * @param emulsionShare share of emulsion in what is sprayed: 1 undiluted, 0.5 diluted 1:1.
 *     Undiluted here because FHWA-HIF-16-017 advises against diluting on site (from memory)
 * @param sprayCelsius temperature at the bar
 * @param emulsionExpansionPerCelsius volume growth above 15.6 deg C; 0.00025 per deg F (handbook
 *     factor, from memory; ASTM D4311 leaves emulsions out)
 */
public record MaterialSettings(
    double mixKgPerM3,
    double mixWaste,
    double looseFactor,
    double largestStoneM,
    double rutFillShare,
    double holeFillShare,
    double sagFillShare,
    double baseKgPerM3,
    TackRate newSurface,
    TackRate existingSurface,
    TackRate milledSurface,
    TackMaterial tackMaterial,
    double emulsionResidue,
    double emulsionShare,
    double sprayCelsius,
    double emulsionExpansionPerCelsius) {

  static final double L_PER_M2_PER_GAL_PER_YD2 = Conversion.L_PER_US_GAL / Conversion.M2_PER_YD2;
  private static final double KG_PER_M3_PER_LB_PER_FT3 =
      Conversion.KG_PER_LB / Conversion.M3_PER_FT3;

  /**
   * Residual asphalt left by tack, from a dense clean surface to an open, dry, cracked one.
   *
   * @param lowLitersPerM2 on the tightest surface
   * @param highLitersPerM2 on the most open
   */
  public record TackRate(double lowLitersPerM2, double highLitersPerM2) {
    static TackRate galPerYd2(double low, double high) {
      return new TackRate(low * L_PER_M2_PER_GAL_PER_YD2, high * L_PER_M2_PER_GAL_PER_YD2);
    }

    double middle() {
      return (lowLitersPerM2 + highLitersPerM2) / 2;
    }
  }

  /** Defaults; the tack rates are FHWA-HIF-16-017's, from memory. */
  public static MaterialSettings standard() {
    return new MaterialSettings(
        145 * KG_PER_M3_PER_LB_PER_FT3,
        0.05,
        1.25,
        3.0 / 8 * Conversion.M_PER_IN,
        2.0 / 3,
        0.8,
        0.5,
        135 * KG_PER_M3_PER_LB_PER_FT3,
        TackRate.galPerYd2(0.02, 0.05),
        TackRate.galPerYd2(0.04, 0.07),
        TackRate.galPerYd2(0.04, 0.08),
        TackMaterial.EMULSION,
        0.57,
        1.0,
        60,
        0.00025 * 9 / 5);
  }
}
