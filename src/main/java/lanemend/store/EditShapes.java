package lanemend.store;

import java.sql.SQLException;

/** Former places and the review list in their tables. */
final class EditShapes {

  private EditShapes() {}

  static final RowShape<FormerPlace> FORMER =
      new RowShape<>() {
        @Override
        public Table table() {
          return EditTables.FORMER_PLACE;
        }

        @Override
        public String key(FormerPlace f) {
          return f.table() + " " + f.key();
        }

        @Override
        public Object[] values(FormerPlace f, Roads roads) {
          return new Object[] {
            f.table(),
            f.row(),
            f.key(),
            f.at().routeId(),
            f.at().edition(),
            f.at().fromAlongM(),
            f.at().toAlongM(),
            f.validTo().toString(),
            f.turned() ? 1 : 0,
            f.leftRoad() ? 1 : 0
          };
        }

        @Override
        public FormerPlace read(Row row) throws SQLException {
          return new FormerPlace(
              row.text("table_name"),
              row.whole("row_fid"),
              row.text("row_key"),
              new FormerPlace.Stretch(
                  row.text("route_id"),
                  (int) row.whole("edition"),
                  row.number("from_along_m"),
                  row.number("to_along_m")),
              row.day("valid_to"),
              row.whole("turned") == 1,
              row.whole("left_road") == 1);
        }
      };

  static final RowShape<ReviewEntry> REVIEW =
      new RowShape<>() {
        @Override
        public Table table() {
          return EditTables.REVIEW;
        }

        @Override
        public String key(ReviewEntry e) {
          return e.table() + " " + e.key();
        }

        @Override
        public Object[] values(ReviewEntry e, Roads roads) {
          return new Object[] {
            e.table(),
            e.row(),
            e.key(),
            e.reason(),
            e.raisedOn().toString(),
            e.onRoad() ? 1 : 0,
            e.settled(),
            EventShapes.text(e.settledBy()),
            EventShapes.day(e.settledOn()),
            EventShapes.text(e.note())
          };
        }

        @Override
        public ReviewEntry read(Row row) throws SQLException {
          return new ReviewEntry(
              row.text("table_name"),
              row.whole("row_fid"),
              row.text("row_key"),
              row.text("reason"),
              row.day("raised_on"),
              row.whole("on_a_road") == 1,
              row.optionalText("settled"),
              row.text("settled_by"),
              row.day("settled_on"),
              row.text("note"));
        }
      };
}
