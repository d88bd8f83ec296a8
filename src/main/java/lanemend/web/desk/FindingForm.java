package lanemend.web.desk;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import lanemend.county.County;
import lanemend.exchange.RawFinding;
import lanemend.exchange.Read;
import lanemend.exchange.RowOrigin;
import lanemend.exchange.RowProblem;
import lanemend.exchange.WrittenPlace;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.network.Side;

/**
 * A finding as a phone at the roadside sends it: a road and milepost, or where the phone stood with
 * the road its owner chose there.
 *
 * @param made when it was kept on the phone
 * @param accuracyM how sure the phone was of where it stood, metres
 * @param heading degrees from north it last moved in, or null
 * @param side {@code left} or {@code right}, seen along growing mileposts
 */
record FindingForm(
    Instant made,
    String route,
    String milepost,
    Double lon,
    Double lat,
    Double accuracyM,
    Double heading,
    String kind,
    String side,
    LocalDate foundOn,
    String foundBy,
    String note) {

  Finding make(String id, County county, LocalDate today) {
    if (DefectForm.text(route).isEmpty()) {
      throw DefectForm.bad("route", "", "the road it lies beside");
    }
    boolean byMilepost = !DefectForm.text(milepost).isEmpty();
    if (!byMilepost && (lon == null || lat == null)) {
      throw DefectForm.bad("milepost", "", "a milepost, or where the phone stood");
    }
    LocalDate on = foundOn == null ? today : foundOn;
    if (on.isAfter(today)) {
      throw DefectForm.bad("foundOn", on.toString(), "today or a day before");
    }
    RawFinding raw =
        new RawFinding(
            new RowOrigin("", 0, 0),
            id,
            DeskWords.read(FindingKind.class, "kind", DefectForm.text(kind)),
            new WrittenPlace(
                DefectForm.text(route),
                "",
                DefectForm.text(milepost),
                "",
                byMilepost ? OptionalDouble.empty() : OptionalDouble.of(lon),
                byMilepost ? OptionalDouble.empty() : OptionalDouble.of(lat),
                null),
            Optional.of(DeskWords.read(Side.class, "side", DefectForm.text(side))),
            /* sideAsDriven= */ false,
            on,
            DefectForm.text("found by", foundBy),
            DefectForm.text("note", note));
    Read<Finding> read =
        DefectForm.locator(county)
            .findings(new Read<>(List.of(raw), List.of(), 1, List.of(), List.of()), Set.of());
    if (!read.problems().isEmpty()) {
      RowProblem p = read.problems().get(0);
      throw DefectForm.bad(p.field(), p.found(), p.expected());
    }
    return read.rows().get(0);
  }
}
