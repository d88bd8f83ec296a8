package lanemend.patching;

import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.network.RoadClass;

/**
 * One row of the treatment table: a defect that meets every condition gets the treatment.
 *
 * @param id short name, unique in the table
 * @param kinds kinds of defect it is for; empty for all
 * @param leastSeverity lowest severity that fits
 * @param mostSeverity highest severity that fits
 * @param areaM2 length times width
 * @param lengthM along the road
 * @param widthM across the road
 * @param depthM depth of the hole, rut or settlement
 * @param laneShare width of the defect as a share of the lane's width
 * @param roadClasses classes it is for; empty for all
 * @param reason why, in words a supervisor can judge, with the source of the rule
 */
public record TreatmentRule(
    String id,
    Set<DefectKind> kinds,
    Severity leastSeverity,
    Severity mostSeverity,
    Range areaM2,
    Range lengthM,
    Range widthM,
    Range depthM,
    Range laneShare,
    Set<RoadClass> roadClasses,
    Treatment treatment,
    String reason) {

  /** Checks the row by itself; the message names the row, the field and what is expected. */
  public TreatmentRule {
    if (id == null || id.isBlank()) {
      throw new IllegalArgumentException("a treatment rule has no id; a short name is expected");
    }
    kinds = kinds == null ? Set.of() : Set.copyOf(kinds);
    roadClasses = roadClasses == null ? Set.of() : Set.copyOf(roadClasses);
    leastSeverity = leastSeverity == null ? Severity.LOW : leastSeverity;
    mostSeverity = mostSeverity == null ? Severity.HIGH : mostSeverity;
    areaM2 = range(id, "areaM2", areaM2);
    lengthM = range(id, "lengthM", lengthM);
    widthM = range(id, "widthM", widthM);
    depthM = range(id, "depthM", depthM);
    laneShare = range(id, "laneShare", laneShare);
    if (leastSeverity.compareTo(mostSeverity) > 0) {
      throw fault(id, "leastSeverity is above mostSeverity, so nothing can fit it");
    }
    if (treatment == null) {
      throw fault(id, "treatment is missing");
    }
    if (reason == null || reason.isBlank()) {
      throw fault(id, "reason is missing; the crew sheet prints it");
    }
  }

  /**
   * A rule for {@code kinds} of any size and severity, to be narrowed by the {@code with} calls.
   */
  public static TreatmentRule of(
      String id, Set<DefectKind> kinds, Treatment treatment, String reason) {
    return new TreatmentRule(
        id,
        kinds,
        Severity.LOW,
        Severity.HIGH,
        Range.ANY,
        Range.ANY,
        Range.ANY,
        Range.ANY,
        Range.ANY,
        Set.of(),
        treatment,
        reason);
  }

  TreatmentRule withSeverity(Severity least, Severity most) {
    return new TreatmentRule(
        id,
        kinds,
        least,
        most,
        areaM2,
        lengthM,
        widthM,
        depthM,
        laneShare,
        roadClasses,
        treatment,
        reason);
  }

  TreatmentRule withArea(Range range) {
    return new TreatmentRule(
        id,
        kinds,
        leastSeverity,
        mostSeverity,
        range,
        lengthM,
        widthM,
        depthM,
        laneShare,
        roadClasses,
        treatment,
        reason);
  }

  TreatmentRule withDepth(Range range) {
    return new TreatmentRule(
        id,
        kinds,
        leastSeverity,
        mostSeverity,
        areaM2,
        lengthM,
        widthM,
        range,
        laneShare,
        roadClasses,
        treatment,
        reason);
  }

  TreatmentRule withStretch(Range length, Range shareOfLane) {
    return new TreatmentRule(
        id,
        kinds,
        leastSeverity,
        mostSeverity,
        areaM2,
        length,
        widthM,
        depthM,
        shareOfLane,
        roadClasses,
        treatment,
        reason);
  }

  /** Whether every condition is met. */
  public boolean fits(Defect defect, RoadSetting setting) {
    return (kinds.isEmpty() || kinds.contains(defect.kind()))
        && (roadClasses.isEmpty() || roadClasses.contains(setting.roadClass()))
        && leastSeverity.compareTo(defect.severity()) <= 0
        && mostSeverity.compareTo(defect.severity()) >= 0
        && areaM2.holds(defect.areaM2())
        && lengthM.holds(defect.lengthM())
        && widthM.holds(defect.widthM())
        && depthM.holds(defect.depthM())
        && laneShare.holds(defect.widthM() / setting.laneWidthM());
  }

  /** True when no defect at all can fail it. */
  public boolean fitsAll() {
    return kinds.isEmpty()
        && roadClasses.isEmpty()
        && leastSeverity == Severity.LOW
        && mostSeverity == Severity.HIGH
        && areaM2.isOpen()
        && lengthM.isOpen()
        && widthM.isOpen()
        && depthM.isOpen()
        && laneShare.isOpen();
  }

  private static Range range(String id, String field, Range given) {
    if (given == null) {
      return Range.ANY;
    }
    if (given.isEmpty()) {
      throw fault(
          id,
          field
              + " runs from "
              + given.atLeast()
              + " to below "
              + given.below()
              + ": holds nothing");
    }
    return given;
  }

  private static IllegalArgumentException fault(String id, String text) {
    return new IllegalArgumentException("treatment rule " + id + ": " + text);
  }
}
