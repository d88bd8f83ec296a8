package lanemend.web.desk;

import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import lanemend.county.County;
import lanemend.exchange.EventLocator;
import lanemend.exchange.RawDefect;
import lanemend.exchange.Read;
import lanemend.exchange.RowOrigin;
import lanemend.exchange.RowProblem;
import lanemend.exchange.WrittenPlace;
import lanemend.inventory.AttributeName;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Lane;

/**
 * What a form says of a defect. The place is either route and mileposts, or longitude and latitude
 * with the route that was chosen there; with neither, a defect that is changed stays where it is.
 *
 * @param length as the agency reads it: ft or m
 * @param width ft or m
 * @param depth in or mm
 */
record DefectForm(
    String route,
    String milepost,
    String milepostTo,
    Double lon,
    Double lat,
    String lane,
    String kind,
    String severity,
    String status,
    Double length,
    Double width,
    Double depth,
    LocalDate foundOn,
    String foundBy,
    String photo,
    String note) {

  private static final int LONGEST_TEXT = 2_000;

  /** A new defect. */
  Defect make(String id, County county, LocalDate today) {
    if (!places()) {
      throw bad("milepost", "nothing", "a route and milepost, or a point on the map");
    }
    return place(id, written(), county, today);
  }

  /** {@code before} with what this form says of it. */
  Defect change(Defect before, County county, LocalDate today) {
    if (places()) {
      return place(before.id(), written(), county, today);
    }
    double lengthM = size("length", length, metresPerLength(county));
    if (Math.abs(lengthM - before.lengthM()) > 1e-3) {
      // Half of a longer spot lies on each side of what was entered, so it is placed anew.
      return place(before.id(), writtenBefore(before, county), county, today);
    }
    return place(before.id(), writtenBefore(before, county), county, today)
        .withPlace(before.place())
        .withLengthM(before.lengthM());
  }

  private boolean places() {
    boolean byMilepost = milepost != null && !milepost.isBlank();
    return byMilepost || (lon != null && lat != null);
  }

  private WrittenPlace written() {
    return new WrittenPlace(
        text(route),
        "",
        text(milepost),
        text(milepostTo),
        lon == null ? OptionalDouble.empty() : OptionalDouble.of(lon),
        lat == null ? OptionalDouble.empty() : OptionalDouble.of(lat),
        null);
  }

  /** What was entered for the place; where that is not known, its mileposts. */
  private static WrittenPlace writtenBefore(Defect before, County county) {
    Entered e = before.place().entered();
    String routeId = before.place().routeId();
    if (e != null && e.milepostFrom() == null && e.longitude() != null) {
      return new WrittenPlace(
          routeId,
          "",
          "",
          "",
          OptionalDouble.of(e.longitude()),
          OptionalDouble.of(e.latitude()),
          null);
    }
    String from =
        e != null && e.milepostFrom() != null
            ? e.milepostFrom()
            : county
                .network()
                .route(routeId)
                .orElseThrow()
                .mileposts()
                .at(before.place().middleAlongM())
                .text();
    String to = e == null || e.milepostTo() == null ? "" : e.milepostTo();
    return new WrittenPlace(
        routeId, "", from, to, OptionalDouble.empty(), OptionalDouble.empty(), null);
  }

  private Defect place(String id, WrittenPlace at, County county, LocalDate today) {
    double perLength = metresPerLength(county);
    boolean us = county.units() == UnitSystem.US_CUSTOMARY;
    RawDefect raw =
        new RawDefect(
            new RowOrigin("", 0, 0),
            id,
            at,
            Lane.parse(text(lane))
                .orElseThrow(() -> bad("lane", text(lane), "a lane such as R1 or L2")),
            DeskWords.read(DefectKind.class, "kind", text(kind)),
            DeskWords.read(Severity.class, "severity", text(severity)),
            at.milepostTo().isEmpty()
                ? OptionalDouble.of(size("length", length, perLength))
                : OptionalDouble.empty(),
            size("width", width, perLength),
            size("depth", depth, us ? Conversion.M_PER_IN : 1e-3),
            foundOn == null ? today : foundOn,
            text("found by", foundBy),
            text("photo", photo),
            status == null
                ? DefectStatus.OPEN
                : DeskWords.read(DefectStatus.class, "status", status),
            text("note", note));
    if (raw.foundOn().isAfter(today)) {
      throw bad("foundOn", raw.foundOn().toString(), "today or a day before");
    }
    Read<Defect> read =
        locator(county)
            .defects(new Read<>(List.of(raw), List.of(), 1, List.of(), List.of()), Set.of());
    if (!read.problems().isEmpty()) {
      RowProblem p = read.problems().get(0);
      throw bad(p.field(), p.found(), p.expected());
    }
    return read.rows().get(0);
  }

  static EventLocator locator(County county) {
    return new EventLocator(
        county.network(),
        county.locator(),
        (routeId, alongM) -> {
          OptionalDouble lanes = county.onRoads().number(routeId, alongM, AttributeName.LANES);
          return lanes.isPresent()
              ? OptionalInt.of((int) lanes.getAsDouble())
              : OptionalInt.empty();
        });
  }

  private static double metresPerLength(County county) {
    return county.units() == UnitSystem.US_CUSTOMARY ? Conversion.M_PER_FT : 1;
  }

  private static double size(String field, Double value, double unit) {
    if (value == null || !(value >= 0) || value > 100_000) {
      throw bad(field, value == null ? "" : value.toString(), "a number, 0 or more");
    }
    return value * unit;
  }

  static String text(String value) {
    return value == null ? "" : value.strip();
  }

  static String text(String field, String value) {
    String text = text(value);
    if (text.length() > LONGEST_TEXT) {
      throw bad(field, text.length() + " characters", "at most " + LONGEST_TEXT);
    }
    return text;
  }

  static Problem bad(String field, String found, String expected) {
    return new Problem(
            Problem.Kind.BAD_VALUE,
            field
                + ": found "
                + (found.isEmpty() ? "nothing" : "'" + found + "'")
                + ", expected "
                + expected)
        .with("field", field)
        .with("found", found)
        .with("expected", expected);
  }
}
