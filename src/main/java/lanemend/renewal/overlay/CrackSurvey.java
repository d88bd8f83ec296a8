package lanemend.renewal.overlay;

import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;

/** Cracking of a section, percent of its area by severity, and whether fines pump up through it. */
public record CrackSurvey(
    double alligatorLow,
    double alligatorMedium,
    double alligatorHigh,
    double transverseMediumHigh,
    double transverseHigh,
    boolean pumping) {

  /**
   * What marked defects come to. A patrol marks what it sees from the truck, not every crack: this
   * is a lower bound until someone walks the section.
   */
  public static CrackSurvey ofDefects(List<Defect> defects, double areaM2, boolean pumping) {
    double scale = 100 / areaM2;
    return new CrackSurvey(
        scale * area(defects, DefectKind.ALLIGATOR_CRACKING, Severity.LOW),
        scale * area(defects, DefectKind.ALLIGATOR_CRACKING, Severity.MEDIUM),
        scale * area(defects, DefectKind.ALLIGATOR_CRACKING, Severity.HIGH),
        scale
            * (area(defects, DefectKind.TRANSVERSE_CRACKING, Severity.MEDIUM)
                + area(defects, DefectKind.TRANSVERSE_CRACKING, Severity.HIGH)),
        scale * area(defects, DefectKind.TRANSVERSE_CRACKING, Severity.HIGH),
        pumping);
  }

  private static double area(List<Defect> defects, DefectKind kind, Severity severity) {
    return defects.stream()
        .filter(d -> d.kind() == kind && d.severity() == severity)
        .mapToDouble(Defect::areaM2)
        .sum();
  }
}
