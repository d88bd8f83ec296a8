package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;

/**
 * A condition survey from CSV: a row for each kind and severity of distress in each sample unit, or
 * one row of kind {@code none} for a sample without any. {@link PavementLocator} finds the places.
 * Touches nothing but the file it reads.
 */
public final class SurveyReader {
  private static final double M2_PER_FT2 = Conversion.M_PER_FT * Conversion.M_PER_FT;
  private static final double MOST_M2 = 100_000;
  private static final List<String> QUANTITIES =
      List.of("quantity_ft2", "quantity_m2", "quantity_ft", "quantity_m", "quantity_count");

  private SurveyReader() {}

  /**
   * Reads the file.
   *
   * @param today the latest day a survey can have been made
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawDistress> read(Path file, FieldMap map, LocalDate today) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(
        file,
        source,
        map,
        "sample",
        "route",
        "milepost_from",
        "milepost_to",
        "surveyed_on",
        "kind");
    EventCells events = new EventCells();
    Gather<RawDistress> gather = new Gather<>();
    gather.run(source, map, cells -> distress(cells, events, today));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  private static RawDistress distress(Cells cells, EventCells events, LocalDate today) {
    OptionalDouble area = cells.size("area_ft2", M2_PER_FT2, "area_m2", 1, MOST_M2);
    OptionalDouble width = cells.size("width_ft", Conversion.M_PER_FT, "width_m", 1, 30);
    if (area.isPresent() == width.isPresent() && cells.ok()) {
      cells.wrong(
          "area_ft2",
          area.isPresent() ? "an area and a width" : "",
          "the sample's area_ft2 or area_m2, or its width_ft or width_m");
    }
    positive(cells, "area_ft2", area);
    positive(cells, "width_ft", width);
    DistressKind kind = cells.requiredWord("kind", DistressKind.class);
    return new RawDistress(
        cells.row().origin(),
        events.id(cells, "C-"),
        cells.required("sample", "the name of the sample unit, such as 7-12"),
        stretch(cells, true),
        area,
        width,
        RoadFacts.yesNo(cells, "additional").equals("yes"),
        cells.pastDate("surveyed_on", today),
        cells.line("surveyed_by"),
        kind,
        severity(cells, kind),
        kind == null ? 0 : quantity(cells, kind));
  }

  private static void positive(Cells cells, String field, OptionalDouble value) {
    if (value.isPresent() && !(value.getAsDouble() > 0)) {
      cells.wrong(field, "0", "a size above 0");
    }
  }

  /** A stretch between two mileposts. */
  static WrittenPlace stretch(Cells cells, boolean bothEnds) {
    String route = cells.required("route", "the route it lies on");
    String from = cells.line("milepost_from");
    String to = cells.line("milepost_to");
    EventCells.checkMilepost(cells, "milepost_from", from);
    EventCells.checkMilepost(cells, "milepost_to", to);
    if (bothEnds && from.isEmpty()) {
      cells.wrong("milepost_from", "", MilepostText.WANTED);
    }
    if (bothEnds && to.isEmpty()) {
      cells.wrong("milepost_to", "", MilepostText.WANTED);
    }
    return EventCells.place(route, cells.line("direction"), from, to, null, null);
  }

  private static Severity severity(Cells cells, DistressKind kind) {
    boolean graded = kind == null || kind.graded();
    if (!graded && !cells.filled("severity")) {
      return Severity.LOW;
    }
    Severity severity = cells.requiredWord("severity", Severity.class);
    // Two severities of what has none would stand as two distresses.
    return graded ? severity : Severity.LOW;
  }

  private static double quantity(Cells cells, DistressKind kind) {
    List<String> filled = QUANTITIES.stream().filter(cells::filled).toList();
    String wanted =
        switch (kind.measure()) {
          case AREA -> "quantity_ft2 or quantity_m2";
          case LENGTH -> "quantity_ft or quantity_m";
          case COUNT -> "quantity_count";
        };
    if (kind == DistressKind.NONE) {
      if (!filled.isEmpty()) {
        cells.wrong(filled.get(0), cells.text(filled.get(0)), "nothing beside the kind none");
      }
      return 0;
    }
    OptionalDouble quantity =
        switch (kind.measure()) {
          case AREA -> cells.size("quantity_ft2", M2_PER_FT2, "quantity_m2", 1, MOST_M2);
          case LENGTH -> cells.size("quantity_ft", Conversion.M_PER_FT, "quantity_m", 1, MOST_M2);
          case COUNT -> cells.number("quantity_count", 0, 10_000);
        };
    if (cells.ok() && (quantity.isEmpty() || filled.size() != 1)) {
      cells.wrong(
          wanted.substring(0, (wanted + " ").indexOf(' ')),
          String.join(" and ", filled),
          wanted + " alone, as " + PavementNames.of(kind) + " is measured");
    } else if (cells.ok() && !(quantity.getAsDouble() > 0)) {
      cells.wrong(filled.get(0), "0", "more than 0, or the kind none");
    }
    return quantity.orElse(0);
  }
}
