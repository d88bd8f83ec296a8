package lanemend.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.function.ToDoubleFunction;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.io.ParseException;
import org.sqlite.Function;

/**
 * The SQL functions the standard's R-tree triggers call (OGC 12-128r19 annex F.3, 'GeoPackage
 * SQLite Extension'). SQLite has none of them; every program that writes a GeoPackage brings its
 * own, so they are given to each connection. Null for null and for what is no geometry.
 */
final class SpatialFunctions {

  private SpatialFunctions() {}

  static void addTo(Connection connection) throws SQLException {
    add(connection, "ST_MinX", Envelope::getMinX);
    add(connection, "ST_MaxX", Envelope::getMaxX);
    add(connection, "ST_MinY", Envelope::getMinY);
    add(connection, "ST_MaxY", Envelope::getMaxY);
    Function.create(
        connection,
        "ST_IsEmpty",
        new Function() {
          @Override
          protected void xFunc() throws SQLException {
            Envelope box = bounds(value_blob(0));
            if (box == null) {
              result();
            } else {
              result(box.isNull() ? 1 : 0);
            }
          }
        },
        1,
        Function.FLAG_DETERMINISTIC);
  }

  private static void add(Connection connection, String name, ToDoubleFunction<Envelope> side)
      throws SQLException {
    Function.create(
        connection,
        name,
        new Function() {
          @Override
          protected void xFunc() throws SQLException {
            Envelope box = bounds(value_blob(0));
            if (box == null || box.isNull()) {
              result();
            } else {
              result(side.applyAsDouble(box));
            }
          }
        },
        1,
        Function.FLAG_DETERMINISTIC);
  }

  private static Envelope bounds(byte[] blob) {
    if (blob == null) {
      return null;
    }
    try {
      return GeoBlob.bounds(blob);
    } catch (ParseException e) {
      return null;
    }
  }
}
