package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalDouble;
import lanemend.inventory.PavementLayer;
import lanemend.measure.Conversion;

/**
 * Thicknesses of the pavement's layers from CSV, by core or as built; {@link PavementLocator} finds
 * their places. Touches nothing but the file it reads.
 */
public final class LayerReader {
  private LayerReader() {}

  /**
   * Reads the file.
   *
   * @param today no layer was measured or built after its year
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawLayer> read(Path file, FieldMap map, LocalDate today) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(file, source, map, "route", "layer", "year", "source");
    EventCells events = new EventCells();
    Gather<RawLayer> gather = new Gather<>();
    gather.run(source, map, cells -> layer(cells, events, today));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  private static RawLayer layer(Cells cells, EventCells events, LocalDate today) {
    OptionalDouble thickness =
        cells.size("thickness_in", Conversion.M_PER_IN, "thickness_mm", 1e-3, 2);
    if (cells.ok() && !(thickness.orElse(0) > 0)) {
      cells.wrong(
          "thickness_in",
          thickness.isPresent() ? "0" : "",
          "a thickness above 0 (thickness_in or thickness_mm)");
    }
    OptionalDouble year = RoadFacts.whole(cells, "year", 1900, today.getYear());
    if (year.isEmpty() && !cells.filled("year")) {
      cells.wrong("year", "", "the year it was measured or built");
    }
    PavementLayer.Source from = cells.requiredWord("source", PavementLayer.Source.class);
    return new RawLayer(
        cells.row().origin(),
        events.id(cells, "L-"),
        // A core stands for its place, so both its mileposts are asked for.
        SurveyReader.stretch(cells, from == PavementLayer.Source.CORE),
        cells.requiredWord("layer", PavementLayer.Course.class),
        thickness.orElse(0),
        (int) year.orElse(0),
        from);
  }
}
