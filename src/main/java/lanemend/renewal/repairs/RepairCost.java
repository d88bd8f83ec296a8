package lanemend.renewal.repairs;

/**
 * What a repair costs, in the agency's currency.
 *
 * @param perRepair set-up, traffic control and delay, whatever its size
 * @param perTonne mix, haul and laying
 */
public record RepairCost(double perRepair, double perTonne) {
  public RepairCost {
    if (!(perRepair >= 0) || !(perTonne >= 0)) {
      throw new IllegalArgumentException("repair costs " + perRepair + " and " + perTonne);
    }
  }
}
