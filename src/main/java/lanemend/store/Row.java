package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.network.CenterlinePart;
import lanemend.network.Lane;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.io.ParseException;

/** One row as it is being read. Any program may have written it, so what is odd is named. */
final class Row {
  private final Table table;
  private final ResultSet row;

  Row(Table table, ResultSet row) {
    this.table = table;
    this.row = row;
  }

  String text(String column) throws SQLException {
    String text = row.getString(column);
    return text == null ? "" : text;
  }

  String optionalText(String column) throws SQLException {
    return row.getString(column);
  }

  long whole(String column) throws SQLException {
    return row.getLong(column);
  }

  double number(String column) throws SQLException {
    double value = row.getDouble(column);
    if (row.wasNull()) {
      throw odd(column, "nothing", "a number");
    }
    return value;
  }

  Double optionalNumber(String column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? null : Double.valueOf(value);
  }

  LocalDate day(String column) throws SQLException {
    String text = row.getString(column);
    try {
      return text == null ? null : LocalDate.parse(text);
    } catch (DateTimeException e) {
      throw odd(column, text, "a day such as 2026-05-31");
    }
  }

  <E extends Enum<E>> E code(String column, Class<E> choices) throws SQLException {
    String text = text(column);
    try {
      return Enum.valueOf(choices, text.toUpperCase(Locale.ROOT));
    } catch (IllegalArgumentException e) {
      throw odd(column, text, "one of " + List.of(choices.getEnumConstants()));
    }
  }

  Lane lane() throws SQLException {
    String text = row.getString("lane");
    return text == null
        ? null
        : Lane.parse(text).orElseThrow(() -> odd("lane", text, "a lane such as R1"));
  }

  List<CenterlinePart> parts() throws SQLException {
    try {
      return GeoBlob.parts(geometry());
    } catch (ParseException e) {
      throw odd("geom", e.getMessage(), "lines with growing measures");
    }
  }

  /** {x, y} of a point. */
  double[] point() throws SQLException {
    try {
      Envelope box = GeoBlob.bounds(geometry());
      if (box.isNull() || box.getWidth() + box.getHeight() > 0) {
        throw odd("geom", "a geometry that is no point", "a point");
      }
      return new double[] {box.getMinX(), box.getMinY()};
    } catch (ParseException e) {
      throw odd("geom", e.getMessage(), "a point");
    }
  }

  Place place() throws SQLException {
    double[] xy = point();
    return new Place(
        text("route_id"),
        number("from_along_m"),
        number("to_along_m"),
        xy[0],
        xy[1],
        new Entered(
            optionalText("entered_route"),
            optionalText("entered_milepost_from"),
            optionalText("entered_milepost_to"),
            optionalNumber("entered_longitude_deg"),
            optionalNumber("entered_latitude_deg")));
  }

  private byte[] geometry() throws SQLException {
    byte[] blob = row.getBytes("geom");
    if (blob == null) {
      throw odd("geom", "nothing", "a geometry");
    }
    return blob;
  }

  StoreException odd(String column, String found, String expected) {
    String key;
    try {
      key = row.getString("row_key");
    } catch (SQLException e) {
      key = "?";
    }
    return new StoreException(
        table.name()
            + " '"
            + key
            + "' column "
            + column
            + ": found '"
            + found
            + "', expected "
            + expected);
  }
}
