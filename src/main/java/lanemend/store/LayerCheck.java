package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeSet;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.operation.valid.IsValidOp;

/** Whether a layer's geometries are sound and its R-tree and stated extent agree with them. */
final class LayerCheck {
  /** GDAL writes extents with 15 digits only. */
  private static final double EXTENT_SLACK_M = 0.001;

  private final Session session;
  private final Table table;
  private final Troubles found;
  private final Map<Long, Envelope> bounds = new HashMap<>();

  private LayerCheck(Session session, Table table, Troubles found) {
    this.session = session;
    this.table = table;
    this.found = found;
  }

  static void check(Session session, Table table, Troubles found) throws SQLException {
    LayerCheck check = new LayerCheck(session, table, found);
    check.geometries();
    check.index();
    check.extent();
  }

  static String rebuilt(Table table) {
    return "built the R-tree of " + table.name() + " anew";
  }

  /** Makes the index afresh. */
  static void rebuild(Session session, Table table) throws SQLException {
    session.execute("DROP TABLE IF EXISTS " + table.rtree());
    session.execute(GeoPackageSchema.createRtree(table));
    session.execute(GeoPackageSchema.fillRtree(table.rtree(), table.name()));
  }

  private void geometries() throws SQLException {
    String sql =
        "SELECT fid, geom, " + table.keyOf("t") + " AS row_key FROM " + table.name() + " t";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        byte[] blob = r.getBytes("geom");
        String wrong = blob == null ? missing() : wrong(r.getLong("fid"), blob);
        if (wrong != null) {
          String name = table.name() + " '" + r.getString("row_key") + "'";
          long fid = r.getLong("fid");
          if (Redraw.possible(table)) {
            found.add(
                name + " " + wrong,
                "drew " + name + " where its columns say",
                s -> Redraw.row(s, table, fid));
          } else {
            found.add(name + " " + wrong);
          }
        }
      }
    }
  }

  /** A stretch that lies wholly in a gap of its road has no line; a point or road must have one. */
  private String missing() {
    return DrawingCheck.DRAWN_ALONG.contains(table) ? null : "has no geometry";
  }

  private String wrong(long fid, byte[] blob) {
    try {
      Geometry g = GeoBlob.geometry(blob);
      Envelope box = GeoBlob.bounds(blob);
      if (!box.isNull()) {
        bounds.put(fid, box);
      }
      if (g.isEmpty()) {
        return "has an empty geometry";
      }
      if (!g.getGeometryType().equalsIgnoreCase(table.geometry().typeName)) {
        return "is a " + g.getGeometryType() + " in a layer of " + table.geometry().typeName;
      }
      if (GeoBlob.srsId(blob) != session.srsId()) {
        return "is in reference system "
            + GeoBlob.srsId(blob)
            + ", the layer in "
            + session.srsId();
      }
      if (!box.equals(g.getEnvelopeInternal())) {
        return "has a geometry that its own bounds do not fit";
      }
      if (table.geometry().measured) {
        GeoBlob.parts(blob);
      }
      IsValidOp valid = new IsValidOp(g);
      return valid.isValid() ? null : "has " + valid.getValidationError().getMessage();
    } catch (ParseException e) {
      return "has a broken geometry: " + e.getMessage();
    }
  }

  private void index() throws SQLException {
    String there = "SELECT 1 FROM sqlite_master WHERE name = ?";
    try (ResultSet r = session.statement(there, table.rtree()).executeQuery()) {
      if (!r.next()) {
        // Said by MetadataCheck.
        return;
      }
    }
    TreeSet<Long> missing = new TreeSet<>(bounds.keySet());
    String sql = "SELECT id, minx, maxx, miny, maxy FROM " + table.rtree();
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        long fid = r.getLong(1);
        Envelope box = bounds.get(fid);
        if (box == null) {
          index(" has row " + fid + ", which the layer has not");
        } else if (!agrees(r.getDouble(2), box.getMinX(), true)
            || !agrees(r.getDouble(3), box.getMaxX(), false)
            || !agrees(r.getDouble(4), box.getMinY(), true)
            || !agrees(r.getDouble(5), box.getMaxY(), false)) {
          index(" has row " + fid + " in another place than the layer");
        }
        missing.remove(fid);
      }
    }
    for (long fid : missing) {
      index(" lacks row " + fid);
    }
  }

  private void index(String wrong) {
    found.add(table.name() + "'s R-tree" + wrong, rebuilt(table), s -> rebuild(s, table));
  }

  /** SQLite keeps R-tree sides as 32-bit floats, rounded outward by at most a few steps. */
  private static boolean agrees(double indexed, double side, boolean low) {
    double slack = 4 * (double) Math.ulp((float) side);
    return low
        ? indexed <= side && indexed >= side - slack
        : indexed >= side && indexed <= side + slack;
  }

  private void extent() throws SQLException {
    Envelope all = new Envelope();
    bounds.values().forEach(all::expandToInclude);
    String sql = "SELECT min_x, max_x, min_y, max_y FROM gpkg_contents WHERE table_name = ?";
    try (ResultSet r = session.statement(sql, table.name()).executeQuery()) {
      if (!r.next()) {
        // Said by MetadataCheck.
        return;
      }
      Envelope said =
          r.getObject(1) == null
              ? new Envelope()
              : new Envelope(r.getDouble(1), r.getDouble(2), r.getDouble(3), r.getDouble(4));
      said.expandBy(EXTENT_SLACK_M);
      if (!all.isNull() && !said.contains(all)) {
        found.add(
            "gpkg_contents gives layer " + table.name() + " too small an extent",
            "worked out the extent of " + table.name() + " anew",
            s -> Extents.anew(s, table));
      }
    }
  }
}
