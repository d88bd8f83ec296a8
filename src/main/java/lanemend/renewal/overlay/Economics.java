package lanemend.renewal.overlay;

import lanemend.renewal.repairs.RepairCost;

/**
 * Prices and rules of a cost comparison; money in the agency's currency at today's prices.
 *
 * @param overlayCost of the whole section: milling, mix, traffic control
 * @param overlayLifeYears straight-line life: what is left of it at the end is salvage, and a
 *     surface that old is overlaid again
 * @param repairCost of patching
 * @param discountRate yearly, real (without inflation)
 * @param years analysis period
 * @param kept share of a cell's own difference from its family that an overlay does not cure: 1
 *     where the ground or drainage is at fault, 0 where the surface was
 */
public record Economics(
    double overlayCost,
    int overlayLifeYears,
    RepairCost repairCost,
    double discountRate,
    int years,
    double kept) {

  public Economics {
    if (!(overlayCost > 0)
        || overlayLifeYears < 1
        || !(discountRate > -1)
        || years < 1
        || !(kept >= 0 && kept <= 1)) {
      throw new IllegalArgumentException(
          "overlay %s, life %d years, discount rate %s, %d years, kept %s"
              .formatted(overlayCost, overlayLifeYears, discountRate, years, kept));
    }
  }

  /** Worth today of one unit of money paid after {@code years}. */
  public double discount(double years) {
    return Math.pow(1 + discountRate, -years);
  }

  /** Worth of an overlay of this age, straight line. */
  public double worth(double age) {
    return overlayCost * Math.max(0, 1 - age / overlayLifeYears);
  }
}
