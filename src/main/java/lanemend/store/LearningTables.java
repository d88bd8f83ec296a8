package lanemend.store;

import static lanemend.store.Column.code;
import static lanemend.store.Column.day;
import static lanemend.store.Column.number;
import static lanemend.store.Column.optionalDay;
import static lanemend.store.Column.optionalNumber;
import static lanemend.store.Column.said;
import static lanemend.store.Column.text;
import static lanemend.store.Column.whole;

import java.util.List;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.patching.LearnedFactor;

/** What was planned of work that was done, and the factors somebody accepted from the two. */
final class LearningTables {
  static final Table PLANNED_WORK =
      new Table(
          "planned_work",
          "What was planned of a past patch, as the sheet had it or its file said",
          Table.Shape.NONE,
          List.of(
              new Column("patch_id", "TEXT", "NOT NULL UNIQUE REFERENCES patch(id)"),
              text("crew_id"),
              code("basis", DoneRepair.Basis.class),
              optionalDay("planned_on"),
              optionalNumber("tonnes"),
              optionalNumber("minutes"),
              number("mix_factor"),
              number("minutes_factor"),
              optionalNumber("hour_cost"),
              number("hour_cost_factor"),
              optionalNumber("truck_hour_cost"),
              optionalNumber("mix_price")),
          "ROW.patch_id",
          List.of("CHECK (mix_factor > 0 AND minutes_factor > 0 AND hour_cost_factor > 0)"),
          true);

  /** {@code treatment} is empty for the cost of an hour, {@code crew_id} for all crews. */
  static final Table LEARNED_FACTOR =
      new Table(
          "learned_factor",
          "What designed minutes, mix and crew rates are multiplied by, learned from done work",
          Table.Shape.NONE,
          List.of(
              code("measure", LearnedFactor.Measure.class),
              text("treatment"),
              text("crew_id"),
              number("factor"),
              number("low"),
              number("high"),
              whole("records"),
              said("accepted_by"),
              day("accepted_on")),
          "ROW.measure || CASE WHEN ROW.treatment <> '' THEN ' ' || ROW.treatment ELSE '' END"
              + " || CASE WHEN ROW.crew_id <> '' THEN ' ' || ROW.crew_id ELSE '' END",
          List.of(
              "UNIQUE (measure, treatment, crew_id)",
              "CHECK (factor > 0 AND low > 0 AND low <= high)",
              "CHECK ((treatment = '') = (measure = 'hour_cost'))"),
          true);

  private LearningTables() {}
}
