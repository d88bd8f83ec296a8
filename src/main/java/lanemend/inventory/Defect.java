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

  /** The same spot under another name. */
  public Defect withId(String now) {
    return new Defect(
        now, kind, severity, place, lane, lengthM, widthM, depthM, foundOn, foundBy, photo, status,
        note);
  }

  /** The same defect at another place. */
  public Defect withPlace(Place now) {
    return new Defect(
        id, kind, severity, now, lane, lengthM, widthM, depthM, foundOn, foundBy, photo, status,
        note);
  }

  public Defect withLane(Lane now) {
    return new Defect(
        id, kind, severity, place, now, lengthM, widthM, depthM, foundOn, foundBy, photo, status,
        note);
  }

  /** The same spot, of another length along the road. */
  public Defect withLengthM(double now) {
    return new Defect(
        id, kind, severity, place, lane, now, widthM, depthM, foundOn, foundBy, photo, status,
        note);
  }

  public Defect withNote(String now) {
    return new Defect(
        id, kind, severity, place, lane, lengthM, widthM, depthM, foundOn, foundBy, photo, status,
        now);
  }

  /** The same defect at another point of the job. */
  public Defect withStatus(DefectStatus now) {
    return new Defect(
        id, kind, severity, place, lane, lengthM, widthM, depthM, foundOn, foundBy, photo, now,
        note);
  }
}
