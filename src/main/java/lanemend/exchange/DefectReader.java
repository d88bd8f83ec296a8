package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;

/**
 * Defects from CSV or GeoJSON points; {@link EventLocator} finds their places. Touches nothing but
 * the file it reads.
 */
public final class DefectReader {
  private static final double LONGEST_M = 5_000;
  private static final double WIDEST_M = 30;
  private static final double DEEPEST_M = 1;

  /** Without a depth the mix for these cannot be worked out, and zero would be a guess. */
  private static final Set<DefectKind> NEED_DEPTH =
      EnumSet.of(DefectKind.POTHOLE, DefectKind.RUTTING, DefectKind.DEPRESSION);

  private DefectReader() {}

  /**
   * Reads the file.
   *
   * @param today the latest day a defect can have been found
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawDefect> read(Path file, FieldMap map, LocalDate today) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(
        file,
        source,
        map,
        "milepost|longitude",
        "lane",
        "kind",
        "severity",
        "length_ft|length_m|milepost_to",
        "width_ft|width_m",
        "found_on");
    EventCells events = new EventCells();
    Gather<RawDefect> gather = new Gather<>();
    gather.run(source, map, cells -> defect(cells, events, today, /* laneNeeded= */ true));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  /** A patrol's note, which may leave the lane to the track. */
  static RawDefect noted(Cells cells, EventCells events, LocalDate today) {
    return defect(cells, events, today, /* laneNeeded= */ false);
  }

  private static RawDefect defect(
      Cells cells, EventCells events, LocalDate today, boolean laneNeeded) {
    WrittenPlace place = events.place(cells, "milepost", "milepost_to");
    DefectKind kind = cells.requiredWord("kind", DefectKind.class);
    OptionalDouble length = cells.size("length_ft", Conversion.M_PER_FT, "length_m", 1, LONGEST_M);
    OptionalDouble width = cells.size("width_ft", Conversion.M_PER_FT, "width_m", 1, WIDEST_M);
    OptionalDouble depth = cells.size("depth_in", Conversion.M_PER_IN, "depth_mm", 1e-3, DEEPEST_M);
    if (place.milepostTo().isEmpty()) {
      aboveZero(cells, "length_ft", "length_m", length, "a length above 0, or milepost_to");
    }
    aboveZero(cells, "width_ft", "width_m", width, "a width above 0");
    if (kind != null && NEED_DEPTH.contains(kind)) {
      String wanted = "a depth above 0 for " + kind.name().toLowerCase(Locale.ROOT);
      aboveZero(cells, "depth_in", "depth_mm", depth, wanted);
    }
    DefectStatus status = cells.word("status", DefectStatus.class);
    return new RawDefect(
        cells.row().origin(),
        events.id(cells, "D-"),
        place,
        EventCells.lane(cells, laneNeeded),
        kind,
        cells.requiredWord("severity", Severity.class),
        length.isPresent() && length.getAsDouble() == 0 ? OptionalDouble.empty() : length,
        width.orElse(0),
        depth.orElse(0),
        cells.pastDate("found_on", today),
        cells.line("found_by"),
        cells.line("photo"),
        status == null ? DefectStatus.OPEN : status,
        cells.text("note"));
  }

  private static void aboveZero(
      Cells cells, String us, String metric, OptionalDouble value, String wanted) {
    if (value.orElse(0) > 0 || (value.isEmpty() && (cells.filled(us) || cells.filled(metric)))) {
      return;
    }
    String field = cells.filled(metric) ? metric : us;
    cells.wrong(field, cells.line(field), wanted);
  }
}
