package lanemend.inventory;

import java.time.LocalDate;

/**
 * One kind and severity of distress in one sample unit of a condition survey.
 *
 * @param id of this row
 * @param sample the sample unit's name; rows of one sample and day belong together
 * @param quantity square metres, metres or a number, as the kind is measured; 0 for {@link
 *     DistressKind#NONE}
 */
public record SurveyedDistress(
    String id, String sample, Unit unit, DistressKind kind, Severity severity, double quantity) {

  /**
   * The sample unit as it was walked.
   *
   * @param areaM2 of the sample unit
   * @param additional chosen because it is unlike the rest, not at random
   */
  public record Unit(
      String routeId,
      double fromAlongM,
      double toAlongM,
      double areaM2,
      boolean additional,
      LocalDate surveyedOn,
      String surveyedBy) {}

  public SurveyedDistress {
    if (!(unit.areaM2() > 0) || !(quantity >= 0) || !(unit.fromAlongM() < unit.toAlongM())) {
      throw new IllegalArgumentException(
          "sample %s: area %s, quantity %s".formatted(sample, unit.areaM2(), quantity));
    }
    if ((kind == DistressKind.NONE) != (quantity == 0)) {
      throw new IllegalArgumentException(
          "sample %s: %s has the quantity %s".formatted(sample, kind, quantity));
    }
  }
}
