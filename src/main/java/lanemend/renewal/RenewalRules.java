package lanemend.renewal;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.AttributeName;
import lanemend.inventory.PastPatch;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.exposure.Families;
import lanemend.renewal.overlay.OverlayRules;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.sections.Sectioning;

/**
 * What an agency sets for renewal as a whole.
 *
 * @param recordsFrom first day the repair records cover; empty takes the first repair's
 * @param recordsTo first day they no longer cover; empty takes the day after the last repair
 * @param trafficBands vehicles a day that part families of roads, growing
 * @param minProjectM shortest section worth a project
 * @param repairCost of patching; empty takes what the records say
 * @param yearlyBudgets of the program's years from its first; empty when none are set
 */
public record RenewalRules(
    Optional<LocalDate> recordsFrom,
    Optional<LocalDate> recordsTo,
    List<Double> trafficBands,
    double minProjectM,
    Optional<RepairCost> repairCost,
    List<Double> yearlyBudgets,
    OverlayRules overlay) {

  /** Set-up 150 and 160 a tonne (common practice, no source). */
  public static final RepairCost USUAL_REPAIR_COST = new RepairCost(150, 160);

  public RenewalRules {
    trafficBands = List.copyOf(trafficBands);
    yearlyBudgets = List.copyOf(yearlyBudgets);
  }

  /** Nothing set by the agency: 1,000 and 5,000 vehicles a day, half a mile, no budgets. */
  public static RenewalRules standard() {
    return new RenewalRules(
        Optional.empty(),
        Optional.empty(),
        List.of(1_000.0, 5_000.0),
        Sectioning.Settings.STANDARD.minLengthM(),
        Optional.empty(),
        List.of(),
        OverlayRules.standard());
  }

  /** The same with other budgets. */
  public RenewalRules withBudgets(List<Double> budgets) {
    return new RenewalRules(
        recordsFrom, recordsTo, trafficBands, minProjectM, repairCost, budgets, overlay);
  }

  /**
   * Settings of a study of these records.
   *
   * @throws IllegalArgumentException when no repair is on record, or none inside the days set
   */
  public RenewalSettings settings(List<PastPatch> patches) {
    List<LocalDate> repaired =
        patches.stream()
            .filter(p -> !p.work().equalsIgnoreCase(ExposureSettings.RESURFACING))
            .map(PastPatch::doneOn)
            .sorted(Comparator.naturalOrder())
            .toList();
    if (repaired.isEmpty()) {
      throw new IllegalArgumentException("no repair is on record");
    }
    return settings(
        recordsFrom.orElse(repaired.get(0)),
        recordsTo.orElse(repaired.get(repaired.size() - 1).plusDays(1)),
        patchingCost(patches));
  }

  /**
   * Settings of a study of these days and this cost of patching.
   *
   * @param to the first day no longer covered
   */
  public RenewalSettings settings(LocalDate from, LocalDate to, RepairCost cost) {
    RenewalSettings usual = RenewalSettings.standard(ExposureSettings.standard(from, to), cost);
    return new RenewalSettings(
        usual.exposure(),
        new Families(
            List.of(
                new Families.Category(AttributeName.SURFACE),
                new Families.Band(AttributeName.AADT, trafficBands))),
        usual.covariates(),
        usual.fit(),
        usual.scan(),
        new Sectioning.Settings(minProjectM, usual.sectioning().penaltyFactor()),
        usual.repairCost(),
        usual.draws(),
        usual.holdouts());
  }

  /** The agency's own cost of patching, else that of the records, else the usual one. */
  public RepairCost patchingCost(List<PastPatch> patches) {
    return repairCost.or(() -> RepairCost.fromRecords(patches)).orElse(USUAL_REPAIR_COST);
  }
}
