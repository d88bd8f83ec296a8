package lanemend.store;

import java.sql.SQLException;
import java.util.List;
import lanemend.network.CenterlinePart;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/** Engineers' decisions on sections, and the defects set aside for them, in their tables. */
final class RenewalShapes {

  private RenewalShapes() {}

  static final RowShape<DecidedSection> DECISION =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.RENEWAL_DECISION;
        }

        @Override
        public String key(DecidedSection s) {
          return s.decision().sectionId();
        }

        @Override
        public Object[] values(DecidedSection s, Roads roads) {
          EngineerDecision d = s.decision();
          List<CenterlinePart> line = roads.line(s.routeId()).cut(d.fromAlongM(), d.toAlongM());
          return new Object[] {
            line.isEmpty() ? null : GeoBlob.lines(roads.srsId(), line),
            d.sectionId(),
            s.routeId(),
            d.fromAlongM(),
            d.toAlongM(),
            Column.code(d.kind()),
            s.overlayYear() == 0 ? null : s.overlayYear(),
            d.notBefore() == 0 ? null : d.notBefore(),
            d.reason(),
            d.by(),
            d.on().toString()
          };
        }

        @Override
        public DecidedSection read(Row row) throws SQLException {
          try {
            return new DecidedSection(
                row.text("route_id"),
                new EngineerDecision(
                    row.text("section_id"),
                    row.code("decision", EngineerDecision.Kind.class),
                    row.number("from_along_m"),
                    row.number("to_along_m"),
                    (int) row.whole("not_before"),
                    row.text("reason"),
                    row.text("decided_by"),
                    row.day("decided_on")),
                (int) row.whole("overlay_year"));
          } catch (IllegalArgumentException e) {
            throw row.odd("decision", e.getMessage(), "a decision that fits together");
          }
        }
      };

  static final RowShape<HeldDefect> HELD =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.HELD_DEFECT;
        }

        @Override
        public String key(HeldDefect h) {
          return h.defectId();
        }

        @Override
        public Object[] values(HeldDefect h, Roads roads) {
          return new Object[] {h.defectId(), h.sectionId(), h.reason()};
        }

        @Override
        public HeldDefect read(Row row) throws SQLException {
          return new HeldDefect(row.text("defect_id"), row.text("section_id"), row.text("reason"));
        }
      };
}
