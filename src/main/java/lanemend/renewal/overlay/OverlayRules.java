package lanemend.renewal.overlay;

import java.util.EnumMap;
import java.util.Map;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;

/**
 * What an agency sets for overlays: prices, and what is taken of traffic, soil and structure where
 * nothing was measured on the road itself.
 *
 * @param lifeYears of an overlay, straight line
 * @param kept share of a section's excess that an overlay does not cure, as in {@link Economics}
 * @param discountRate yearly, real
 * @param structures the pavement in place by road class
 * @param layers coefficients of asphalt in place by its cracking
 */
public record OverlayRules(
    OverlayPrice price,
    int lifeYears,
    double kept,
    double discountRate,
    int analysisYears,
    Traffic traffic,
    Soil soil,
    Map<RoadClass, Structure> structures,
    OverlayDesign.Limits limits,
    LayerTable layers) {

  public OverlayRules {
    structures = Map.copyOf(structures);
  }

  /**
   * Loads of a truck, and how long the overlay must carry them.
   *
   * @param growth yearly
   */
  public record Traffic(double loadsPerTruck, double growth, int designYears) {}

  /**
   * Ground and demand.
   *
   * @param subgradeKpa resilient modulus in the effective season
   * @param reliability by road class, 0.5 to below 1
   */
  public record Soil(
      double subgradeKpa, double psiLoss, double overallSd, Map<RoadClass, Double> reliability) {
    public Soil {
      reliability = Map.copyOf(reliability);
    }
  }

  /**
   * The pavement in place.
   *
   * @param drainage coefficient m of the base
   */
  public record Structure(double asphaltM, double baseM, double drainage) {}

  /**
   * All of it common practice without a source, but for So 0.45 and the ranges the reliabilities
   * lie in (AASHTO Guide 1993, part II, from memory): mix at 95 a short ton, milling at 1.00 a
   * square yard and inch, 20,000 a project; 15 years; 4 %; 20 years; 0.8 loads a truck, growing 2 %
   * a year; 5,000 psi; serviceability from 4.2 to 2.5; 8, 6, 4 or 3 in of asphalt on 12, 10, 8 or 6
   * in of base from freeway to local road.
   */
  public static OverlayRules standard() {
    Map<RoadClass, Double> reliability = new EnumMap<>(RoadClass.class);
    reliability.put(RoadClass.FREEWAY, 0.95);
    reliability.put(RoadClass.ARTERIAL, 0.90);
    reliability.put(RoadClass.COLLECTOR, 0.80);
    reliability.put(RoadClass.LOCAL, 0.75);
    Map<RoadClass, Structure> structures = new EnumMap<>(RoadClass.class);
    structures.put(RoadClass.FREEWAY, inches(8, 12));
    structures.put(RoadClass.ARTERIAL, inches(6, 10));
    structures.put(RoadClass.COLLECTOR, inches(4, 8));
    structures.put(RoadClass.LOCAL, inches(3, 6));
    return new OverlayRules(
        new OverlayPrice(
            20_000,
            95 / Conversion.T_PER_SHORT_TON,
            1.00 / Conversion.M2_PER_YD2 / (100 * Conversion.M_PER_IN)),
        15,
        0,
        0.04,
        20,
        new Traffic(0.8, 0.02, 20),
        new Soil(5_000 * Conversion.KPA_PER_PSI, 1.7, 0.45, reliability),
        structures,
        OverlayDesign.Limits.STANDARD,
        LayerTable.fromMemory());
  }

  private static Structure inches(double asphalt, double base) {
    return new Structure(asphalt * Conversion.M_PER_IN, base * Conversion.M_PER_IN, 1.0);
  }
}
