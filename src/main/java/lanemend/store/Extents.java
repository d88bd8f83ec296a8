package lanemend.store;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.IdentityHashMap;
import java.util.Map;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.io.ParseException;

/**
 * What {@code gpkg_contents} says of the layers a change touched: when, and how far they reach.
 * Rows that came widen the extent; only when one goes that reached its edge is it worked out anew,
 * since that reads the whole layer.
 */
final class Extents {
  private final IdentityHashMap<Table, Envelope> grown = new IdentityHashMap<>();
  private final IdentityHashMap<Table, Envelope> before = new IdentityHashMap<>();
  private final IdentityHashMap<Table, Boolean> anew = new IdentityHashMap<>();

  void grow(Table table, Object[] values) {
    Envelope box = grown.computeIfAbsent(table, t -> new Envelope());
    if (table.spatial() && values[0] instanceof byte[] blob) {
      try {
        box.expandToInclude(GeoBlob.bounds(blob));
      } catch (ParseException e) {
        throw new IllegalStateException("a geometry written here cannot be read back", e);
      }
    }
  }

  /** A row is about to be taken away or written over. */
  void leave(Session session, Table table, long fid) throws SQLException {
    grown.computeIfAbsent(table, t -> new Envelope());
    if (!table.spatial() || anew.containsKey(table)) {
      return;
    }
    Envelope said = before.get(table);
    if (said == null) {
      said = said(session, table);
      before.put(table, said);
    }
    String sql = "SELECT geom FROM " + table.name() + " WHERE fid = ?";
    try (ResultSet r = session.statement(sql, fid).executeQuery()) {
      byte[] geometry = r.next() ? r.getBytes(1) : null;
      if (geometry != null && !inside(said, GeoBlob.bounds(geometry))) {
        anew.put(table, true);
      }
    } catch (ParseException e) {
      // Not of this program's writing; the layer's other rows tell how far it reaches.
      anew.put(table, true);
    }
  }

  /** True when all around is left as it is without the box. */
  private static boolean inside(Envelope all, Envelope box) {
    return box.isNull()
        || (all.getMinX() < box.getMinX()
            && box.getMaxX() < all.getMaxX()
            && all.getMinY() < box.getMinY()
            && box.getMaxY() < all.getMaxY());
  }

  /** Any rows may have gone. */
  void shrink(Table table) {
    grown.computeIfAbsent(table, t -> new Envelope());
    anew.put(table, true);
  }

  void write(Session session, String at) throws SQLException {
    for (Map.Entry<Table, Envelope> e : grown.entrySet()) {
      Table table = e.getKey();
      session
          .statement(
              "UPDATE gpkg_contents SET last_change = ? WHERE table_name = ?", at, table.name())
          .executeUpdate();
      if (table.spatial() && anew.containsKey(table)) {
        set(session, table, whole(session, table));
      } else if (table.spatial() && !e.getValue().isNull()) {
        Envelope box = new Envelope(e.getValue());
        box.expandToInclude(said(session, table));
        set(session, table, box);
      }
    }
  }

  /** Works the stated extent out from the rows, whatever it was. */
  static void anew(Session session, Table table) throws SQLException {
    if (table.spatial()) {
      set(session, table, whole(session, table));
    }
  }

  private static Envelope whole(Session session, Table table) throws SQLException {
    return box(
        session.statement(
            "SELECT min(ST_MinX(geom)), max(ST_MaxX(geom)), min(ST_MinY(geom)), max(ST_MaxY(geom))"
                + " FROM "
                + table.name()));
  }

  private static Envelope said(Session session, Table table) throws SQLException {
    return box(
        session.statement(
            "SELECT min_x, max_x, min_y, max_y FROM gpkg_contents WHERE table_name = ?",
            table.name()));
  }

  private static Envelope box(PreparedStatement query) throws SQLException {
    try (ResultSet r = query.executeQuery()) {
      if (!r.next() || r.getObject(1) == null) {
        return new Envelope();
      }
      return new Envelope(r.getDouble(1), r.getDouble(2), r.getDouble(3), r.getDouble(4));
    }
  }

  private static void set(Session session, Table table, Envelope box) throws SQLException {
    boolean none = box.isNull();
    session
        .statement(
            "UPDATE gpkg_contents SET min_x = ?, max_x = ?, min_y = ?, max_y = ?"
                + " WHERE table_name = ?",
            none ? null : box.getMinX(),
            none ? null : box.getMaxX(),
            none ? null : box.getMinY(),
            none ? null : box.getMaxY(),
            table.name())
        .executeUpdate();
  }
}
