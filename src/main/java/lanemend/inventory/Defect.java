package lanemend.inventory;

import java.time.LocalDate;
import lanemend.network.Lane;

/**
 * One marked spot of bad asphalt.
 *
 * @param lengthM along the road
 * @param widthM across the road
 * @param depthM depth of the rut, hole or settlement; 0 for cracking without loss of surface
 * @param photo file name or empty
 */
public record Defect(
    String id,
    DefectKind kind,
    Severity severity,
    Place place,
    Lane lane,
    double lengthM,
    double widthM,
    double depthM,
    LocalDate foundOn,
    String foundBy,
    String photo,
    DefectStatus status,
    String note) {

  public double areaM2() {
    return lengthM * widthM;
  }

  /** The same defect at another point of the job. */
  public Defect withStatus(DefectStatus now) {
    return new Defect(
        id, kind, severity, place, lane, lengthM, widthM, depthM, foundOn, foundBy, photo, now,
        note);
  }
}
