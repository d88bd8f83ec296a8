package lanemend.exchange;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalDouble;
import lanemend.measure.Conversion;

/**
 * Past repairs from CSV or GeoJSON points; {@link EventLocator} finds their places. Touches nothing
 * but the file it reads.
 */
public final class PatchReader {
  private static final double MOST_TONNES = 1_000_000;

  private PatchReader() {}

  /**
   * Reads the file.
   *
   * @param today the latest day a repair can have been done
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawPatch> read(Path file, FieldMap map, LocalDate today) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(file, source, map, "milepost|longitude", "work", "done_on");
    EventCells events = new EventCells();
    Gather<RawPatch> gather = new Gather<>();
    gather.run(source, map, cells -> patch(cells, events, today));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  private static RawPatch patch(Cells cells, EventCells events, LocalDate today) {
    OptionalDouble tonnes =
        cells.size("tons", Conversion.T_PER_SHORT_TON, "tonnes", 1, MOST_TONNES);
    OptionalDouble hours = cells.number("crew_hours", 0, 1_000_000);
    String id = events.id(cells, "P-");
    return new RawPatch(
        cells.row().origin(),
        id,
        cells.required("work", "what was done, such as hand_patch or resurfacing"),
        events.place(cells, "milepost", "milepost_to"),
        EventCells.lane(cells, false),
        cells.pastDate("done_on", today),
        tonnes.isPresent() ? Double.valueOf(tonnes.getAsDouble()) : null,
        hours.isPresent() ? Double.valueOf(hours.getAsDouble()) : null,
        cost(cells),
        PlannedCells.read(cells, id));
  }

  private static BigDecimal cost(Cells cells) {
    OptionalDouble cost = cells.number("cost", 0, 1e12);
    if (cost.isEmpty()) {
      return null;
    }
    BigDecimal exact = new BigDecimal(cells.line("cost"));
    if (exact.scale() > 4) {
      cells.wrong("cost", exact.toString(), "an amount with at most four decimals");
      return null;
    }
    return exact.scale() < 0 ? exact.setScale(0) : exact;
  }
}
