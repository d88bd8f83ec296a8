package lanemend.exchange;

import java.util.Map;
import java.util.function.Function;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.inventory.PastPatch;
import lanemend.measure.Conversion;

/** What {@link PlannedCells} reads, written. */
final class PlannedColumns {
  private PlannedColumns() {}

  static void add(ExportTable<PastPatch> table, Map<String, PlannedWork> works, boolean us) {
    double ton = us ? Conversion.T_PER_SHORT_TON : 1;
    table.column("crew", p -> works.containsKey(p.id()) ? works.get(p.id()).crewId() : null);
    column(table, works, "planned_on", DoneRepair.Planned::on);
    column(table, works, us ? "planned_tons" : "planned_tonnes", p -> by(p.tonnes(), 1 / ton));
    column(table, works, "planned_hours", p -> by(p.minutes(), 1.0 / 60));
    column(table, works, "crew_hour_cost", DoneRepair.Planned::hourCost);
    column(table, works, "truck_hour_cost", DoneRepair.Planned::truckHourCost);
    column(
        table, works, us ? "mix_price_per_ton" : "mix_price_per_tonne", p -> by(p.mixPrice(), ton));
    column(table, works, "learned_mix", p -> other(p.mixFactor()));
    column(table, works, "learned_minutes", p -> other(p.minutesFactor()));
    column(table, works, "learned_hour_cost", p -> other(p.hourCostFactor()));
  }

  private static void column(
      ExportTable<PastPatch> table,
      Map<String, PlannedWork> works,
      String name,
      Function<DoneRepair.Planned, Object> value) {
    table.column(
        name, p -> works.containsKey(p.id()) ? value.apply(works.get(p.id()).planned()) : null);
  }

  private static Double by(Double value, double factor) {
    return value == null ? null : Double.valueOf(value * factor);
  }

  /** Blank where nothing learned was in it. */
  private static Double other(double factor) {
    return factor == 1 ? null : Double.valueOf(factor);
  }
}
