package lanemend.exchange;

import java.time.LocalDate;
import java.util.OptionalDouble;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.measure.Conversion;

/**
 * Columns of a patches file that say what had been planned of a patch and which crew did it, so
 * that production, mix and cost can be learned from records of before.
 */
final class PlannedCells {
  private static final double MOST_TONNES = 1_000_000;
  private static final double MOST_MONEY = 1e9;
  private static final double LEAST_FACTOR = 0.001;
  private static final double MOST_FACTOR = 1000;

  private PlannedCells() {}

  /** What the row says of the plan; null when all these columns are blank. */
  static PlannedWork read(Cells cells, String patchId) {
    String crew = cells.line("crew");
    LocalDate on = cells.date("planned_on");
    OptionalDouble tonnes =
        cells.size("planned_tons", Conversion.T_PER_SHORT_TON, "planned_tonnes", 1, MOST_TONNES);
    OptionalDouble hours = cells.number("planned_hours", 0, 1_000_000);
    OptionalDouble hourCost = cells.number("crew_hour_cost", 0, MOST_MONEY);
    OptionalDouble trucks = cells.number("truck_hour_cost", 0, MOST_MONEY);
    Double price = mixPrice(cells);
    double mix = factor(cells, "learned_mix");
    double minutes = factor(cells, "learned_minutes");
    double cost = factor(cells, "learned_hour_cost");
    boolean nothing =
        crew.isEmpty()
            && on == null
            && tonnes.isEmpty()
            && hours.isEmpty()
            && hourCost.isEmpty()
            && trucks.isEmpty()
            && price == null;
    return nothing
        ? null
        : new PlannedWork(
            patchId,
            crew,
            new DoneRepair.Planned(
                DoneRepair.Basis.FILE,
                on,
                boxed(tonnes, 1),
                boxed(hours, 60),
                mix,
                minutes,
                boxed(hourCost, 1),
                cost,
                boxed(trucks, 1),
                price));
  }

  private static Double mixPrice(Cells cells) {
    OptionalDouble perTon = cells.number("mix_price_per_ton", 0, MOST_MONEY);
    return perTon.isPresent()
        ? boxed(perTon, 1 / Conversion.T_PER_SHORT_TON)
        : boxed(cells.number("mix_price_per_tonne", 0, MOST_MONEY), 1);
  }

  private static double factor(Cells cells, String field) {
    return cells.number(field, LEAST_FACTOR, MOST_FACTOR).orElse(1);
  }

  private static Double boxed(OptionalDouble value, double by) {
    return value.isPresent() ? Double.valueOf(value.getAsDouble() * by) : null;
  }
}
