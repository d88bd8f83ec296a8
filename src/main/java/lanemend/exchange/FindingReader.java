package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import lanemend.inventory.FindingKind;
import lanemend.network.Side;

/**
 * A patrol's other findings from CSV or GeoJSON points; {@link EventLocator} finds their places.
 * Touches nothing but the file it reads.
 */
public final class FindingReader {
  private FindingReader() {}

  /**
   * Reads the file.
   *
   * @param today the latest day a finding can have been made
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawFinding> read(Path file, FieldMap map, LocalDate today) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(file, source, map, "milepost|longitude", "kind", "found_on");
    EventCells events = new EventCells();
    Gather<RawFinding> gather = new Gather<>();
    gather.run(source, map, cells -> finding(cells, events, today));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  /** A patrol's note, whose left and right are as driven. */
  static RawFinding noted(Cells cells, EventCells events, LocalDate today) {
    RawFinding f = finding(cells, events, today);
    return new RawFinding(
        f.origin(),
        f.id(),
        f.kind(),
        f.place(),
        f.side(),
        true,
        f.foundOn(),
        f.foundBy(),
        f.note());
  }

  private static RawFinding finding(Cells cells, EventCells events, LocalDate today) {
    WrittenPlace place = events.place(cells, "milepost", "milepost_to");
    return new RawFinding(
        cells.row().origin(),
        events.id(cells, "F-"),
        cells.requiredWord("kind", FindingKind.class),
        place,
        side(cells, place),
        /* sideAsDriven= */ false,
        cells.pastDate("found_on", today),
        cells.line("found_by"),
        cells.text("note"));
  }

  private static Optional<Side> side(Cells cells, WrittenPlace place) {
    String text = cells.line("side").toLowerCase(Locale.ROOT);
    return switch (text) {
      case "left", "l" -> Optional.of(Side.LEFT);
      case "right", "r" -> Optional.of(Side.RIGHT);
      default -> {
        boolean coordinatesTell = text.isEmpty() && place.longitude().isPresent();
        if (!coordinatesTell) {
          cells.wrong("side", text, "left or right, seen along growing mileposts");
        }
        yield Optional.empty();
      }
    };
  }
}
