package lanemend.web.desk;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * A defect as a phone at the roadside sends it. The place is a road and milepost, or where the
 * phone stood, with the road its owner chose there; without a road the place may stay open.
 *
 * @param made when it was kept on the phone
 * @param units the reading lengths were entered in, {@code us_customary} or {@code metric}
 * @param accuracyM how sure the phone was of where it stood, metres
 * @param heading degrees from north it last moved in, or null
 * @param length ft or m
 * @param depth in or mm
 * @param photos hashes of photos that were sent before
 */
record EntryForm(
    Instant made,
    String units,
    String route,
    String milepost,
    Double lon,
    Double lat,
    Double accuracyM,
    Double heading,
    String lane,
    String kind,
    String severity,
    Double length,
    Double width,
    Double depth,
    LocalDate foundOn,
    String foundBy,
    String note,
    List<String> photos) {

  EntryForm {
    photos = photos == null ? List.of() : List.copyOf(photos);
  }

  boolean byMilepost() {
    return milepost != null && !milepost.isBlank();
  }

  /** What the desk's own form would say. */
  DefectForm asForm() {
    return onRoad(route, milepost, lane);
  }

  /** The same, where somebody says it is. */
  DefectForm onRoad(String onRoute, String atMilepost, String inLane) {
    boolean byPoint = atMilepost == null || atMilepost.isBlank();
    return new DefectForm(
        onRoute,
        byPoint ? null : atMilepost,
        null,
        byPoint ? lon : null,
        byPoint ? lat : null,
        inLane,
        kind,
        severity,
        null,
        length,
        width,
        depth,
        foundOn,
        foundBy,
        "",
        note);
  }
}
