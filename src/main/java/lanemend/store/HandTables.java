package lanemend.store;

import java.util.List;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.ZoneSide;

/**
 * Tables of what people settled about the plan, and of the plan before the one that is kept. A
 * {@code repair_id} is a defect's id, or that of a part of its repair such as {@code D-17#1/2}.
 */
final class HandTables {
  static final Table HAND_RULE =
      new Table(
          "hand_rule",
          "What somebody settled about the plan by hand; planning keeps to it",
          Table.Shape.NONE,
          List.of(
              Column.code("kind", HandRule.Kind.class),
              Column.optionalText("repair_id"),
              Column.text("zone_key"),
              Column.text("crew_id"),
              Column.optionalDay("work_date"),
              Column.said("reason")),
          "ROW.kind || ' ' || coalesce(ROW.repair_id, ROW.crew_id || ' ' || ROW.work_date)",
          List.of(
              "UNIQUE (kind, repair_id)",
              "CHECK ((repair_id IS NULL) = (kind IN ('lock_day', 'close_day')))",
              "CHECK ((zone_key <> '') = (kind = 'pin'))",
              "CHECK ((work_date IS NULL) = (kind = 'leave_out'))"),
          true);

  static final Table PLAN_BEFORE =
      new Table(
          "plan_before",
          "The plan that was kept before this one, a row for each repair",
          Table.Shape.NONE,
          List.of(
              Column.day("work_date"),
              Column.text("crew_id"),
              Column.text("plant_id"),
              Column.whole("trucks"),
              Column.whole("stop_order"),
              Column.text("route_id"),
              Column.code("side", ZoneSide.class),
              Column.whole("repair_order"),
              new Column("repair_id", "TEXT", "NOT NULL UNIQUE")),
          "ROW.repair_id",
          List.of(),
          true);

  private HandTables() {}
}
