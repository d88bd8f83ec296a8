package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import lanemend.inventory.EventTable;
import lanemend.inventory.Segment;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Locator;
import lanemend.network.Network;

/** Homogeneous pieces by route and milepost, a column for each event table laid over each other. */
public final class SegmentExport {
  private final PlaceColumns places;
  private final UnitSystem units;

  /**
   * @param units of the values written
   */
  public SegmentExport(Network network, Locator locator, UnitSystem units) {
    this.places = new PlaceColumns(network, locator);
    this.units = units;
  }

  /**
   * Writes segments; {@code .geojson} as GeoJSON lines, anything else as CSV.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void write(Path target, List<EventTable> tables, List<Segment> segments) {
    boolean us = units == UnitSystem.US_CUSTOMARY;
    ExportTable<Segment> table =
        new ExportTable<Segment>()
            .column("route", s -> places.name(s.routeId()))
            .column("direction", s -> places.direction(s.routeId()))
            .column("milepost_from", s -> places.milepost(s.routeId(), s.fromAlongM()))
            .column("milepost_to", s -> places.milepost(s.routeId(), s.toAlongM()))
            .column(
                us ? "length_ft" : "length_m",
                s -> (Double) (us ? s.lengthM() / Conversion.M_PER_FT : s.lengthM()));
    for (EventTable t : tables) {
      table.column(
          shownName(t.name(), units),
          s -> s.value(t.name()).map(v -> shownValue(t.name(), v, units)).orElse(null));
    }
    table
        .shape(s -> places.stretch(s.routeId(), s.fromAlongM(), s.toAlongM()))
        .write(target, segments);
  }

  /** The name under which a reader of these units knows a table: {@code posted_speed_mph}. */
  public static String shownName(String table, UnitSystem units) {
    return AttributeUnits.shownName(table, units);
  }

  /** A table's value as a reader of these units expects it. */
  public static String shownValue(String table, String value, UnitSystem units) {
    return AttributeUnits.shown(table, value, units).value();
  }

  /** The table that a reader's name means: {@code posted_speed_kmh} for the US name. */
  public static String keptName(String shown) {
    return AttributeUnits.keptName(shown);
  }
}
