package lanemend.store;

import java.sql.SQLException;
import java.util.List;
import lanemend.inventory.DistressKind;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Severity;
import lanemend.inventory.SurveyedDistress;
import lanemend.network.CenterlinePart;

/** Condition surveys and pavement layers in their tables. */
final class PavementShapes {
  private PavementShapes() {}

  static final RowShape<SurveyedDistress> DISTRESS =
      new RowShape<>() {
        @Override
        public Table table() {
          return PavementTables.SURVEYED_DISTRESS;
        }

        @Override
        public String key(SurveyedDistress d) {
          return d.id();
        }

        @Override
        public Object[] values(SurveyedDistress d, Roads roads) {
          SurveyedDistress.Unit u = d.unit();
          return new Object[] {
            line(roads, u.routeId(), u.fromAlongM(), u.toAlongM()),
            d.id(),
            d.sample(),
            u.routeId(),
            u.fromAlongM(),
            u.toAlongM(),
            u.areaM2(),
            u.additional() ? 1 : 0,
            u.surveyedOn().toString(),
            u.surveyedBy(),
            Column.code(d.kind()),
            Column.code(d.severity()),
            d.quantity()
          };
        }

        @Override
        public SurveyedDistress read(Row row) throws SQLException {
          try {
            return new SurveyedDistress(
                row.text("id"),
                row.text("sample"),
                new SurveyedDistress.Unit(
                    row.text("route_id"),
                    row.number("from_along_m"),
                    row.number("to_along_m"),
                    row.number("area_m2"),
                    row.whole("additional") != 0,
                    row.day("surveyed_on"),
                    row.text("surveyed_by")),
                row.code("kind", DistressKind.class),
                row.code("severity", Severity.class),
                row.number("quantity"));
          } catch (IllegalArgumentException e) {
            throw row.odd("quantity", e.getMessage(), "a sample that fits together");
          }
        }
      };

  static final RowShape<PavementLayer> LAYER =
      new RowShape<>() {
        @Override
        public Table table() {
          return PavementTables.PAVEMENT_LAYER;
        }

        @Override
        public String key(PavementLayer l) {
          return l.id();
        }

        @Override
        public Object[] values(PavementLayer l, Roads roads) {
          return new Object[] {
            line(roads, l.routeId(), l.fromAlongM(), l.toAlongM()),
            l.id(),
            l.routeId(),
            l.fromAlongM(),
            l.toAlongM(),
            Column.code(l.course()),
            l.thicknessM(),
            l.year(),
            Column.code(l.source())
          };
        }

        @Override
        public PavementLayer read(Row row) throws SQLException {
          try {
            return new PavementLayer(
                row.text("id"),
                row.text("route_id"),
                row.number("from_along_m"),
                row.number("to_along_m"),
                row.code("layer", PavementLayer.Course.class),
                row.number("thickness_m"),
                (int) row.whole("year"),
                row.code("source", PavementLayer.Source.class));
          } catch (IllegalArgumentException e) {
            throw row.odd("thickness_m", e.getMessage(), "a layer that fits together");
          }
        }
      };

  private static byte[] line(Roads roads, String routeId, double from, double to) {
    List<CenterlinePart> line = roads.line(routeId).cut(from, to);
    return line.isEmpty() ? null : GeoBlob.lines(roads.srsId(), line);
  }
}
