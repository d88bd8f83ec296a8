package lanemend.store;

import static lanemend.store.Column.code;
import static lanemend.store.Column.day;
import static lanemend.store.Column.flag;
import static lanemend.store.Column.id;
import static lanemend.store.Column.lane;
import static lanemend.store.Column.number;
import static lanemend.store.Column.optionalDay;
import static lanemend.store.Column.optionalNumber;
import static lanemend.store.Column.optionalText;
import static lanemend.store.Column.optionalYear;
import static lanemend.store.Column.references;
import static lanemend.store.Column.said;
import static lanemend.store.Column.text;
import static lanemend.store.Column.whole;

import java.util.List;
import java.util.stream.Stream;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.FindingKind;
import lanemend.inventory.Severity;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.renewal.EngineerDecision;

/**
 * Every table of the store, parents before children. A route id outlives its editions: {@code
 * roadway} holds the id and events point there, so that a retired road keeps its patch history.
 */
final class Tables {
  static final String BY_ID = "ROW.id";
  private static final String ENDS_IN_ORDER = "CHECK (from_along_m <= to_along_m)";

  static final Table ROADWAY =
      new Table(
          "roadway",
          "Ids of every route and connector that ever was; editions and events point here",
          Table.Shape.NONE,
          List.of(id()),
          BY_ID,
          List.of(),
          true);

  static final Table ROUTE =
      new Table(
          "route",
          "Route centrelines by edition; M is along, ground metres from the route's start",
          Table.Shape.LINES,
          List.of(
              new Column("id", "TEXT", "NOT NULL REFERENCES roadway(id)"),
              whole("edition"),
              text("name"),
              text("direction"),
              code("road_class", RoadClass.class),
              number("length_m"),
              flag("calibrated"),
              optionalDay("valid_from"),
              optionalDay("valid_to")),
          BY_ID,
          List.of("UNIQUE (id, edition)"),
          true);

  static final Table POST =
      new Table(
          "calibration_post",
          "Milepost signs and equations that calibrate a route",
          Table.Shape.POINT,
          List.of(
              new Column("route_id", "TEXT", "NOT NULL"),
              whole("edition"),
              number("along_m"),
              number("back_mi"),
              number("ahead_mi")),
          "ROW.route_id || ' ' || ROW.back_mi",
          List.of("FOREIGN KEY (route_id, edition) REFERENCES route(id, edition)"),
          true);

  static final Table CONNECTOR =
      new Table(
          "connector",
          "Roads without a route name, for haul; M is ground metres from the line's start",
          Table.Shape.LINE,
          List.of(
              new Column("id", "TEXT", "NOT NULL UNIQUE REFERENCES roadway(id)"),
              text("name"),
              code("road_class", RoadClass.class),
              number("length_m")),
          BY_ID,
          List.of(),
          true);

  static final Table DEFECT =
      event(
          "defect",
          "Marked spots of bad asphalt, drawn at their middle on the centreline",
          id(),
          code("kind", DefectKind.class),
          code("severity", Severity.class),
          code("status", DefectStatus.class),
          lane("NOT NULL"),
          number("length_m"),
          number("width_m"),
          number("depth_m"),
          day("found_on"),
          text("found_by"),
          text("photo"),
          text("note"));

  static final Table FINDING =
      event(
          "finding",
          "What else a patrol saw, drawn at its place on the centreline",
          id(),
          code("kind", FindingKind.class),
          code("side", Side.class),
          day("found_on"),
          text("found_by"),
          text("note"));

  static final Table PATCH =
      event(
          "patch",
          "Repairs that were done, drawn at their middle on the centreline",
          id(),
          text("work"),
          lane(""),
          day("done_on"),
          optionalNumber("tonnes"),
          optionalNumber("crew_hours"),
          // Text, because money is exact and GeoPackage has no decimal type.
          new Column("cost", "TEXT", "CHECK (cost NOT GLOB '*[^0-9.eE+-]*' AND cost <> '')"));

  static final Table ATTRIBUTE =
      new Table(
          "road_attribute",
          "Facts that hold over a stretch of a route or connector, drawn along it",
          Table.Shape.LINES,
          List.of(
              references("route_id", "roadway", "id"),
              number("from_along_m"),
              number("to_along_m"),
              text("name"),
              text("value"),
              optionalDay("valid_from"),
              optionalDay("valid_to"),
              optionalText("entered_route"),
              optionalText("entered_milepost_from"),
              optionalText("entered_milepost_to")),
          "ROW.route_id || ' ' || ROW.name || ' from ' || ROW.from_along_m || ' m'",
          List.of(ENDS_IN_ORDER),
          true);

  static final Table YARD =
      new Table(
          "yard",
          "Where crews start, for the map; the agency setting is what counts",
          Table.Shape.POINT,
          List.of(id(), text("name")),
          BY_ID,
          List.of(),
          true);

  static final Table PLANT =
      new Table(
          "plant",
          "Where mix comes from, for the map; the agency setting is what counts",
          Table.Shape.POINT,
          List.of(id(), text("name"), text("opens"), text("closes"), number("daily_tonnes")),
          BY_ID,
          List.of(),
          true);

  static final Table CREW_DAY =
      new Table(
          "crew_day",
          "One crew's planned day",
          Table.Shape.NONE,
          List.of(day("work_date"), text("crew_id"), text("plant_id"), whole("trucks")),
          "ROW.work_date || ' ' || ROW.crew_id",
          List.of("UNIQUE (work_date, crew_id)"),
          true);

  static final Table WORK_ZONE =
      new Table(
          "work_zone",
          "Planned work zones along the road, with crew, date and order",
          Table.Shape.LINES,
          List.of(
              new Column("crew_day_fid", "INTEGER", "NOT NULL REFERENCES crew_day(fid)"),
              whole("stop_order"),
              day("work_date"),
              text("crew_id"),
              references("route_id", "roadway", "id"),
              code("side", Side.class),
              number("from_along_m"),
              number("to_along_m"),
              whole("repairs")),
          "ROW.work_date || ' ' || ROW.crew_id || ' stop ' || ROW.stop_order",
          List.of("UNIQUE (crew_day_fid, stop_order)", ENDS_IN_ORDER),
          true);

  static final Table ZONE_REPAIR =
      new Table(
          "zone_repair",
          "The repairs of each work zone, in the order of the road",
          Table.Shape.NONE,
          List.of(
              new Column("work_zone_fid", "INTEGER", "NOT NULL REFERENCES work_zone(fid)"),
              whole("repair_order"),
              new Column("defect_id", "TEXT", "NOT NULL REFERENCES defect(id)"),
              whole("part"),
              whole("parts")),
          "ROW.defect_id || CASE WHEN ROW.parts > 1 THEN '#' || ROW.part || '/' || ROW.parts ELSE"
              + " '' END",
          List.of("UNIQUE (work_zone_fid, repair_order)", "UNIQUE (defect_id, part)"),
          true);

  static final Table RENEWAL_DECISION =
      new Table(
          "renewal_decision",
          "What an engineer decided on a section that may be overlaid, drawn along the road",
          Table.Shape.LINES,
          List.of(
              new Column("section_id", "TEXT", "NOT NULL UNIQUE CHECK (section_id <> '')"),
              references("route_id", "roadway", "id"),
              number("from_along_m"),
              number("to_along_m"),
              code("decision", EngineerDecision.Kind.class),
              optionalYear("overlay_year"),
              optionalYear("not_before"),
              said("reason"),
              said("decided_by"),
              day("decided_on")),
          "ROW.section_id",
          List.of(
              "CHECK (from_along_m < to_along_m)",
              "CHECK (overlay_year IS NULL OR decision IN ('accepted', 'limits_changed'))",
              "CHECK ((not_before IS NOT NULL) = (decision = 'deferred'))"),
          true);

  static final Table HELD_DEFECT =
      new Table(
          "held_defect",
          "Defects that planning set aside for an overlay that is agreed",
          Table.Shape.NONE,
          List.of(
              new Column("defect_id", "TEXT", "NOT NULL UNIQUE REFERENCES defect(id)"),
              references("section_id", "renewal_decision", "section_id"),
              text("reason")),
          "ROW.defect_id",
          List.of(),
          true);

  static final Table HAND_RULE = HandTables.HAND_RULE;
  static final Table PLAN_BEFORE = HandTables.PLAN_BEFORE;

  static final Table SETTING =
      new Table(
          "setting",
          "The agency's settings as JSON text",
          Table.Shape.NONE,
          List.of(
              new Column("setting_key", "TEXT", "NOT NULL UNIQUE CHECK (setting_key <> '')"),
              text("json")),
          "ROW.setting_key",
          List.of(),
          true);

  static final Table IMPORT_RUN =
      new Table(
          "import_run",
          "What each imported file gave",
          Table.Shape.NONE,
          List.of(
              new Column("at", "DATETIME", "NOT NULL"),
              text("who"),
              text("kind"),
              text("source"),
              whole("rows_seen"),
              whole("rows_kept"),
              whole("rows_refused"),
              text("problems_json")),
          "ROW.source",
          List.of(),
          false);

  static final Table CHANGE_LOG =
      new Table(
          "change_log",
          "Who changed which row when, with the row before and after as JSON",
          Table.Shape.NONE,
          List.of(
              new Column("edit", "INTEGER", ""),
              new Column("at", "DATETIME", "NOT NULL"),
              text("who"),
              text("why"),
              text("table_name"),
              new Column("row_fid", "INTEGER", "NOT NULL"),
              text("row_key"),
              text("action"),
              optionalText("before_json"),
              optionalText("after_json")),
          "ROW.fid",
          List.of(),
          false);

  static final Table LANEMEND_STORE =
      new Table(
          "lanemend_store",
          "The layout's version; user_version belongs to the GeoPackage standard",
          Table.Shape.NONE,
          List.of(whole("schema_version"), new Column("made_at", "DATETIME", "NOT NULL")),
          "ROW.fid",
          List.of(),
          false);

  static final List<Table> ALL =
      List.of(
          ROADWAY,
          ROUTE,
          POST,
          CONNECTOR,
          DEFECT,
          FINDING,
          PATCH,
          ATTRIBUTE,
          YARD,
          PLANT,
          CREW_DAY,
          WORK_ZONE,
          ZONE_REPAIR,
          RENEWAL_DECISION,
          HELD_DEFECT,
          HAND_RULE,
          PLAN_BEFORE,
          PavementTables.SURVEYED_DISTRESS,
          PavementTables.PAVEMENT_LAYER,
          ChosenTreatmentShape.CHOSEN_TREATMENT,
          SETTING,
          EditTables.FORMER_PLACE,
          EditTables.REVIEW,
          FieldTables.PHOTO_CONTENT,
          FieldTables.FIELD_ENTRY,
          FieldTables.PHOTO,
          FieldTables.ENTRY_RECEIVED,
          LearningTables.PLANNED_WORK,
          LearningTables.LEARNED_FACTOR,
          IMPORT_RUN,
          CHANGE_LOG,
          EditTables.UNDONE,
          LANEMEND_STORE);

  static final List<String> INDEXES =
      List.of(
          "CREATE INDEX defect_by_place ON defect(route_id, from_along_m)",
          "CREATE INDEX finding_by_place ON finding(route_id, from_along_m)",
          "CREATE INDEX patch_by_place ON patch(route_id, from_along_m)",
          "CREATE INDEX road_attribute_by_place ON road_attribute(route_id, name, from_along_m)",
          "CREATE INDEX calibration_post_by_place ON calibration_post(route_id, edition, along_m)",
          "CREATE INDEX renewal_decision_by_place ON renewal_decision(route_id, from_along_m)",
          "CREATE INDEX held_defect_by_section ON held_defect(section_id)",
          "CREATE INDEX surveyed_distress_by_place ON surveyed_distress(route_id, from_along_m)",
          "CREATE INDEX pavement_layer_by_place ON pavement_layer(route_id, from_along_m)",
          "CREATE INDEX work_zone_by_route ON work_zone(route_id)",
          "CREATE INDEX former_place_by_row ON former_place(table_name, row_fid)",
          "CREATE INDEX review_by_row ON review(table_name, row_fid)",
          "CREATE INDEX photo_by_defect ON photo(defect_id)",
          "CREATE INDEX photo_by_patch ON photo(patch_id)",
          "CREATE INDEX photo_by_entry ON photo(entry_id)",
          "CREATE INDEX change_log_by_row ON change_log(table_name, row_key)",
          "CREATE INDEX change_log_by_edit ON change_log(edit)");

  private Tables() {}

  /** An event table: a point layer with the place's columns behind the event's own. */
  private static Table event(String name, String about, Column... own) {
    Stream<Column> place =
        Stream.of(
            references("route_id", "roadway", "id"),
            number("from_along_m"),
            number("to_along_m"),
            optionalText("entered_route"),
            optionalText("entered_milepost_from"),
            optionalText("entered_milepost_to"),
            optionalNumber("entered_longitude_deg"),
            optionalNumber("entered_latitude_deg"));
    return new Table(
        name,
        about,
        Table.Shape.POINT,
        Stream.concat(Stream.of(own), place).toList(),
        BY_ID,
        List.of(ENDS_IN_ORDER),
        true);
  }
}
