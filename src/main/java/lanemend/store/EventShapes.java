package lanemend.store;

import java.math.BigDecimal;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.Severity;
import lanemend.network.CenterlinePart;
import lanemend.network.Lane;
import lanemend.network.Side;

/** Defects, findings, patches and road attributes in their tables. */
final class EventShapes {

  private EventShapes() {}

  static final RowShape<Defect> DEFECT =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.DEFECT;
        }

        @Override
        public String key(Defect d) {
          return d.id();
        }

        @Override
        public Object[] values(Defect d, Roads roads) {
          return event(
              d.place(),
              roads,
              d.id(),
              code(d.kind()),
              code(d.severity()),
              code(d.status()),
              lane(d.lane()),
              d.lengthM(),
              d.widthM(),
              d.depthM(),
              day(d.foundOn()),
              text(d.foundBy()),
              text(d.photo()),
              text(d.note()));
        }

        @Override
        public Defect read(Row row) throws SQLException {
          return new Defect(
              row.text("id"),
              row.code("kind", DefectKind.class),
              row.code("severity", Severity.class),
              row.place(),
              row.lane(),
              row.number("length_m"),
              row.number("width_m"),
              row.number("depth_m"),
              row.day("found_on"),
              row.text("found_by"),
              row.text("photo"),
              row.code("status", DefectStatus.class),
              row.text("note"));
        }
      };

  static final RowShape<Finding> FINDING =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.FINDING;
        }

        @Override
        public String key(Finding f) {
          return f.id();
        }

        @Override
        public Object[] values(Finding f, Roads roads) {
          return event(
              f.place(),
              roads,
              f.id(),
              code(f.kind()),
              code(f.side()),
              day(f.foundOn()),
              text(f.foundBy()),
              text(f.note()));
        }

        @Override
        public Finding read(Row row) throws SQLException {
          return new Finding(
              row.text("id"),
              row.code("kind", FindingKind.class),
              row.place(),
              row.code("side", Side.class),
              row.day("found_on"),
              row.text("found_by"),
              row.text("note"));
        }
      };

  static final RowShape<PastPatch> PATCH =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.PATCH;
        }

        @Override
        public String key(PastPatch p) {
          return p.id();
        }

        @Override
        public Object[] values(PastPatch p, Roads roads) {
          return event(
              p.place(),
              roads,
              p.id(),
              text(p.work()),
              lane(p.lane()),
              day(p.doneOn()),
              p.tonnes(),
              p.crewHours(),
              p.cost() == null ? null : p.cost().toString());
        }

        @Override
        public PastPatch read(Row row) throws SQLException {
          return new PastPatch(
              row.text("id"),
              row.text("work"),
              row.place(),
              row.lane(),
              row.day("done_on"),
              row.optionalNumber("tonnes"),
              row.optionalNumber("crew_hours"),
              money(row));
        }
      };

  static final RowShape<RoadAttribute> ATTRIBUTE =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.ATTRIBUTE;
        }

        @Override
        public String key(RoadAttribute a) {
          return a.routeId() + " " + a.name() + " from " + a.fromAlongM() + " m";
        }

        @Override
        public Object[] values(RoadAttribute a, Roads roads) {
          List<CenterlinePart> line = roads.line(a.routeId()).cut(a.fromAlongM(), a.toAlongM());
          return new Object[] {
            line.isEmpty() ? null : GeoBlob.lines(roads.srsId(), line),
            a.routeId(),
            a.fromAlongM(),
            a.toAlongM(),
            text(a.name()),
            text(a.value()),
            day(a.validFrom()),
            day(a.validTo()),
            a.entered() == null ? null : a.entered().route(),
            a.entered() == null ? null : a.entered().milepostFrom(),
            a.entered() == null ? null : a.entered().milepostTo()
          };
        }

        @Override
        public RoadAttribute read(Row row) throws SQLException {
          return new RoadAttribute(
              row.text("route_id"),
              row.number("from_along_m"),
              row.number("to_along_m"),
              row.text("name"),
              row.text("value"),
              row.day("valid_from"),
              row.day("valid_to"),
              enteredStretch(row));
        }
      };

  private static Entered enteredStretch(Row row) throws SQLException {
    String route = row.optionalText("entered_route");
    return route == null
        ? null
        : Entered.byMilepost(
            route,
            row.optionalText("entered_milepost_from"),
            row.optionalText("entered_milepost_to"));
  }

  /** Geometry, the event's own columns, the place's columns: the order of the event tables. */
  private static Object[] event(Place place, Roads roads, Object... own) {
    List<Object> values = new ArrayList<>();
    values.add(GeoBlob.point(roads.srsId(), place.x(), place.y()));
    Collections.addAll(values, own);
    Entered e = place.entered();
    Collections.addAll(values, place.routeId(), place.fromAlongM(), place.toAlongM());
    Collections.addAll(values, e.route(), e.milepostFrom(), e.milepostTo());
    Collections.addAll(values, e.longitude(), e.latitude());
    return values.toArray();
  }

  private static BigDecimal money(Row row) throws SQLException {
    String text = row.optionalText("cost");
    try {
      return text == null ? null : new BigDecimal(text);
    } catch (NumberFormatException e) {
      throw row.odd("cost", text, "an amount such as 1250.00");
    }
  }

  static String text(String text) {
    return text == null ? "" : text;
  }

  static String day(LocalDate day) {
    return day == null ? null : day.toString();
  }

  private static String code(Enum<?> value) {
    return value == null ? null : Column.code(value);
  }

  private static String lane(Lane lane) {
    return lane == null ? null : lane.code();
  }
}
