package lanemend.renewal.repairs;

import java.util.List;
import java.util.Optional;
import lanemend.inventory.PastPatch;
import lanemend.renewal.exposure.ExposureSettings;

/**
 * What a repair costs, in the agency's currency.
 *
 * @param perRepair set-up, traffic control and delay, whatever its size
 * @param perTonne mix, haul and laying
 */
public record RepairCost(double perRepair, double perTonne) {
  /** Fewer recorded costs say little. */
  private static final int ENOUGH = 30;

  public RepairCost {
    if (!(perRepair >= 0) || !(perTonne >= 0)) {
      throw new IllegalArgumentException("repair costs " + perRepair + " and " + perTonne);
    }
  }

  /**
   * The straight line through recorded costs by tonnes, least squares; empty with fewer than 30
   * repairs whose cost and tonnes are on record, or where the line runs below nothing. Old costs
   * count at the prices of their day.
   */
  public static Optional<RepairCost> fromRecords(List<PastPatch> patches) {
    double n = 0;
    double t = 0;
    double c = 0;
    double tt = 0;
    double tc = 0;
    for (PastPatch p : patches) {
      boolean repair = !p.work().equalsIgnoreCase(ExposureSettings.RESURFACING);
      if (repair && p.cost() != null && p.tonnes() != null) {
        double cost = p.cost().doubleValue();
        n++;
        t += p.tonnes();
        c += cost;
        tt += p.tonnes() * p.tonnes();
        tc += p.tonnes() * cost;
      }
    }
    double spread = n * tt - t * t;
    if (n < ENOUGH || !(spread > 0)) {
      return Optional.empty();
    }
    double perTonne = (n * tc - t * c) / spread;
    double perRepair = (c - perTonne * t) / n;
    return perTonne >= 0 && perRepair >= 0
        ? Optional.of(new RepairCost(perRepair, perTonne))
        : Optional.empty();
  }
}
