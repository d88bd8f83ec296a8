package lanemend.store;

import static lanemend.store.Column.day;
import static lanemend.store.Column.flag;
import static lanemend.store.Column.number;
import static lanemend.store.Column.optionalDay;
import static lanemend.store.Column.references;
import static lanemend.store.Column.said;
import static lanemend.store.Column.text;
import static lanemend.store.Column.whole;

import java.util.List;

/** Tables that editing roads needs: former places, what must be looked at, what was undone. */
final class EditTables {
  private static final String EVENT = "ROW.table_name || ' ' || ROW.row_key";

  static final Table FORMER_PLACE =
      new Table(
          "former_place",
          "Where events lay on earlier editions of their roads, each until a day",
          Table.Shape.NONE,
          List.of(
              said("table_name"),
              whole("row_fid"),
              text("row_key"),
              references("route_id", "roadway", "id"),
              whole("edition"),
              number("from_along_m"),
              number("to_along_m"),
              day("valid_to"),
              flag("turned"),
              flag("left_road")),
          EVENT,
          List.of("CHECK (from_along_m <= to_along_m)"),
          true);

  static final Table REVIEW =
      new Table(
          "review",
          "Events that somebody must look at after an edit of their road",
          Table.Shape.NONE,
          List.of(
              said("table_name"),
              whole("row_fid"),
              text("row_key"),
              said("reason"),
              day("raised_on"),
              flag("on_a_road"),
              new Column(
                  "settled", "TEXT", "CHECK (settled IN ('accepted', 'placed', 'withdrawn'))"),
              text("settled_by"),
              optionalDay("settled_on"),
              text("note")),
          EVENT,
          List.of("CHECK ((settled IS NULL) = (settled_on IS NULL))"),
          true);

  static final Table UNDONE =
      new Table(
          "undone_edit",
          "Which edit of the change log was taken back by which other one",
          Table.Shape.NONE,
          List.of(whole("edit"), whole("undone_by")),
          "ROW.edit",
          List.of(),
          false);

  private EditTables() {}
}
