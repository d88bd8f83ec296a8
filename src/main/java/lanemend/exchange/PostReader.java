package lanemend.exchange;

import java.nio.file.Path;
import java.util.OptionalDouble;
import lanemend.measure.Conversion;

/** Mileposts' places from CSV or GeoJSON points. Touches nothing but the file it reads. */
public final class PostReader {
  private static final double LONGEST_ROUTE_M = 10_000_000;

  private PostReader() {}

  /**
   * Reads the file.
   *
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<RawPost> read(Path file, FieldMap map) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(
        file, source, map, "route", "milepost", "longitude|distance_ft|distance_m");
    EventCells events = new EventCells();
    Gather<RawPost> gather = new Gather<>();
    gather.run(source, map, cells -> post(cells, events));
    return gather.read(RowSource.nameOf(file), EventCells.DERIVED);
  }

  private static RawPost post(Cells cells, EventCells events) {
    String route = cells.required("route", "the route the post stands on");
    double back = cells.number("milepost", -1_000, 100_000).orElse(Double.NaN);
    if (!cells.filled("milepost")) {
      cells.wrong("milepost", "", "the post's number in miles");
    }
    double ahead = cells.number("ahead", -1_000, 100_000).orElse(back);
    OptionalDouble distance =
        cells.size("distance_ft", Conversion.M_PER_FT, "distance_m", 1, LONGEST_ROUTE_M);
    double[] at = events.at(cells);
    if (at == null && distance.isEmpty() && cells.ok()) {
      cells.wrong("longitude", "", "longitude and latitude, or a distance from the route's start");
    }
    return new RawPost(
        cells.row().origin(),
        route,
        cells.line("direction"),
        back,
        ahead,
        at == null ? OptionalDouble.empty() : OptionalDouble.of(at[0]),
        at == null ? OptionalDouble.empty() : OptionalDouble.of(at[1]),
        distance);
  }
}
