package lanemend.store;

import java.sql.SQLException;
import java.util.Locale;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.patching.LearnedFactor;
import lanemend.patching.Treatment;

/** Planned work and learned factors in their tables. */
final class LearningShapes {
  static final RowShape<PlannedWork> PLANNED =
      new RowShape<>() {
        @Override
        public Table table() {
          return LearningTables.PLANNED_WORK;
        }

        @Override
        public String key(PlannedWork w) {
          return w.patchId();
        }

        @Override
        public Object[] values(PlannedWork w, Roads roads) {
          DoneRepair.Planned p = w.planned();
          return new Object[] {
            w.patchId(),
            w.crewId(),
            Column.code(p.basis()),
            p.on() == null ? null : p.on().toString(),
            p.tonnes(),
            p.minutes(),
            p.mixFactor(),
            p.minutesFactor(),
            p.hourCost(),
            p.hourCostFactor(),
            p.truckHourCost(),
            p.mixPrice()
          };
        }

        @Override
        public PlannedWork read(Row row) throws SQLException {
          return new PlannedWork(
              row.text("patch_id"),
              row.text("crew_id"),
              new DoneRepair.Planned(
                  row.code("basis", DoneRepair.Basis.class),
                  row.day("planned_on"),
                  row.optionalNumber("tonnes"),
                  row.optionalNumber("minutes"),
                  row.number("mix_factor"),
                  row.number("minutes_factor"),
                  row.optionalNumber("hour_cost"),
                  row.number("hour_cost_factor"),
                  row.optionalNumber("truck_hour_cost"),
                  row.optionalNumber("mix_price")));
        }
      };

  static final RowShape<LearnedFactor> FACTOR =
      new RowShape<>() {
        @Override
        public Table table() {
          return LearningTables.LEARNED_FACTOR;
        }

        @Override
        public String key(LearnedFactor f) {
          return f.key();
        }

        @Override
        public Object[] values(LearnedFactor f, Roads roads) {
          return new Object[] {
            Column.code(f.measure()),
            f.treatment() == null ? "" : Column.code(f.treatment()),
            f.crewId(),
            f.factor(),
            f.low(),
            f.high(),
            f.records(),
            f.by(),
            f.on().toString()
          };
        }

        @Override
        public LearnedFactor read(Row row) throws SQLException {
          String treatment = row.text("treatment");
          try {
            return new LearnedFactor(
                row.code("measure", LearnedFactor.Measure.class),
                treatment.isEmpty() ? null : Treatment.valueOf(treatment.toUpperCase(Locale.ROOT)),
                row.text("crew_id"),
                row.number("factor"),
                row.number("low"),
                row.number("high"),
                (int) row.whole("records"),
                row.text("accepted_by"),
                row.day("accepted_on"));
          } catch (IllegalArgumentException e) {
            throw row.odd("factor", e.getMessage(), "a factor that fits together");
          }
        }
      };

  private LearningShapes() {}
}
