package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Severity;
import mil.nga.geopackage.GeoPackage;
import mil.nga.geopackage.GeoPackageManager;
import mil.nga.geopackage.features.user.FeatureDao;
import mil.nga.geopackage.features.user.FeatureResultSet;
import mil.nga.sf.GeometryEnvelope;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The store seen by programs that know nothing of Lanemend: GDAL and mil.nga's Java reader. */
class OtherReadersTest {
  @TempDir Path folder;
  private Path file;

  /** What a layer holds, by our own reading. */
  private record Layer(long count, double minX, double maxX, double minY, double maxY) {}

  @BeforeEach
  void aFilledStore() {
    file = folder.resolve("county.gpkg");
    Filled.store(file).close();
  }

  private Map<String, Layer> ourLayers() {
    Map<String, Layer> layers = new LinkedHashMap<>();
    try (Store store = Store.open(file)) {
      store.inSession(
          session ->
              session.run(
                  () -> {
                    for (Table t : Tables.ALL) {
                      if (t.spatial()) {
                        try (var r =
                            session
                                .statement(
                                    "SELECT count(*), min(ST_MinX(geom)), max(ST_MaxX(geom)),"
                                        + " min(ST_MinY(geom)), max(ST_MaxY(geom)) FROM "
                                        + t.name())
                                .executeQuery()) {
                          r.next();
                          layers.put(
                              t.name(),
                              new Layer(
                                  r.getLong(1),
                                  r.getDouble(2),
                                  r.getDouble(3),
                                  r.getDouble(4),
                                  r.getDouble(5)));
                        }
                      }
                    }
                    return null;
                  }));
    }
    return layers;
  }

  @Test
  void gdalReadsEveryLayerWithItsCountAndExtent() throws Exception {
    Map<String, Layer> ours = ourLayers();
    assertEquals(13, ours.size());
    String said = gdal("ogrinfo", "-ro", "-al", "-so", file.toString());
    for (Map.Entry<String, Layer> e : ours.entrySet()) {
      int start = said.indexOf("Layer name: " + e.getKey() + "\n");
      assertTrue(start >= 0, "GDAL finds no layer " + e.getKey() + " in\n" + said);
      int end = said.indexOf("Layer name: ", start + 1);
      String layer = said.substring(start, end < 0 ? said.length() : end);
      assertTrue(layer.contains("Feature Count: " + e.getValue().count() + "\n"), layer);
      Layer l = e.getValue();
      assertTrue(
          layer.contains(
              String.format(
                  java.util.Locale.ROOT,
                  "Extent: (%.6f, %.6f) - (%.6f, %.6f)",
                  l.minX(),
                  l.minY(),
                  l.maxX(),
                  l.maxY())),
          layer);
      assertTrue(layer.contains("UTM zone 15N") || layer.contains("UTM Zone 15"), layer);
    }
    assertTrue(said.contains("Geometry: Measured Multi Line String"), said);
    assertTrue(said.contains("found_on: Date"), said);
    // The attribute tables are seen too.
    assertTrue(said.contains("Layer name: change_log"), said);
  }

  @Test
  void gdalReadsTheMeasuresOfARoute() throws Exception {
    String csv =
        gdal(
            "ogr2ogr",
            "-f",
            "CSV",
            "-lco",
            "GEOMETRY=AS_WKT",
            "-lco",
            "SEPARATOR=SEMICOLON",
            "/vsistdout/",
            file.toString(),
            "route");
    String[] names = csv.lines().findFirst().orElseThrow().split(";");
    List<String[]> rows = csv.lines().skip(1).map(l -> l.split(";")).toList();
    assertEquals(Filled.ROUTES, rows.size());
    for (String[] row : rows) {
      String wkt = row[List.of(names).indexOf("WKT")];
      assertTrue(wkt.contains("MULTILINESTRING M "), wkt.substring(0, 30));
      String lastVertex = wkt.substring(wkt.lastIndexOf(',') + 1, wkt.indexOf("))")).strip();
      double lastMeasure =
          Double.parseDouble(lastVertex.substring(lastVertex.lastIndexOf(' ') + 1));
      double length = Double.parseDouble(row[List.of(names).indexOf("length_m")]);
      assertEquals(length, lastMeasure, 1e-6);
    }
  }

  @Test
  void whatGdalWritesIsReadLoggedAndIndexed() throws Exception {
    Stored<Defect> before = defect("D-1");
    Stored<Defect> moved = defect("D-2");
    Stored<Defect> removed = defect("D-8");
    // GDAL's own writer, as a desktop GIS uses it: an attribute, a geometry, a deletion.
    gdal(
        "ogrinfo",
        file.toString(),
        "-sql",
        "UPDATE defect SET status = 'deferred_to_overlay', note = 'seen from the truck'"
            + " WHERE id = 'D-1'");
    gdal(
        "ogrinfo",
        file.toString(),
        "-sql",
        "UPDATE defect SET geom = (SELECT geom FROM defect WHERE id = 'D-3') WHERE id = 'D-2'");
    gdal("ogrinfo", file.toString(), "-sql", "DELETE FROM defect WHERE id = 'D-8'");

    Defect after = defect("D-1").value();
    assertEquals(DefectStatus.DEFERRED_TO_OVERLAY, after.status());
    assertEquals("seen from the truck", after.note());
    // The rest of the row is what it was, to the last bit.
    assertEquals(before.value().place(), after.place());
    assertEquals(before.value().lengthM(), after.lengthM());
    try (Store store = Store.open(file)) {
      assertTrue(store.read(s -> s.defects().find("D-8")).isEmpty());
      assertEquals(2, defectVersion(store, "D-1"));
      assertEquals(2, defectVersion(store, "D-2"));
      for (Stored<Defect> d : List.of(before, moved, removed)) {
        LoggedChange last =
            store.read(
                s -> {
                  List<LoggedChange> all = s.history("defect", d.value().id());
                  return all.get(all.size() - 1);
                });
        assertEquals("another program", last.who());
        assertEquals(2, store.read(s -> s.history("defect", d.value().id())).size());
      }
      // The R-tree agrees; the one thing wrong is the defect drawn at another's place.
      List<String> found = StoreCheck.check(store);
      assertEquals(1, found.size(), found.toString());
      assertTrue(found.get(0).startsWith("defect 'D-2' is drawn "), found.get(0));
    }
  }

  @Test
  void rowsGdalAppendsAreReadAndIndexed() throws Exception {
    Path csv = folder.resolve("more.csv");
    Defect like = defect("D-1").value();
    Files.writeString(
        csv,
        "id,kind,severity,status,lane,length_m,width_m,depth_m,found_on,route_id,from_along_m,"
            + "to_along_m,x,y\n"
            + String.join(
                ",",
                "G-1",
                "pothole",
                "high",
                "open",
                "R1",
                "1.5",
                "0.6",
                "0.08",
                "2026-05-04",
                like.place().routeId(),
                String.valueOf(like.place().fromAlongM()),
                String.valueOf(like.place().toAlongM()),
                String.valueOf(like.place().x()),
                String.valueOf(like.place().y()))
            + "\n",
        StandardCharsets.UTF_8);
    gdal(
        "ogr2ogr",
        "-append",
        "-update",
        "-nln",
        "defect",
        "-oo",
        "X_POSSIBLE_NAMES=x",
        "-oo",
        "Y_POSSIBLE_NAMES=y",
        "-oo",
        "AUTODETECT_TYPE=YES",
        "-a_srs",
        "EPSG:32615",
        file.toString(),
        csv.toString());

    Defect added = defect("G-1").value();
    assertEquals(0.08, added.depthM());
    assertEquals(like.place().fromAlongM(), added.place().fromAlongM(), 1e-9);
    assertEquals("", added.foundBy());
    assertEquals(List.of(), StoreCheck.check(file));
  }

  /** GDAL's update of features (and not SQL that it hands on), as a GIS saves an edited layer. */
  @Test
  void featuresGdalUpdatesAreReadLoggedAndIndexed() throws Exception {
    Stored<Defect> before = defect("D-1");
    Stored<Defect> other = defect("D-3");
    Path edited = folder.resolve("edited.gpkg");
    gdal(
        "ogr2ogr",
        "-f",
        "GPKG",
        "-nln",
        "defect",
        "-where",
        "id IN ('D-1', 'D-3')",
        "-preserve_fid",
        edited.toString(),
        file.toString(),
        "defect");
    gdal("ogrinfo", edited.toString(), "-sql", "UPDATE defect SET severity = 'low', note = 'seen'");
    gdal(
        "ogrinfo",
        edited.toString(),
        "-sql",
        "UPDATE defect SET geom = (SELECT geom FROM defect WHERE id = 'D-3') WHERE id = 'D-1'");
    gdal(
        "ogr2ogr",
        "-upsert",
        "-nln",
        "defect",
        "-preserve_fid",
        file.toString(),
        edited.toString(),
        "defect");

    Defect after = defect("D-1").value();
    assertEquals(Severity.LOW, after.severity());
    assertEquals("seen", after.note());
    assertEquals(other.value().place().x(), after.place().x());
    assertEquals(before.value().place().fromAlongM(), after.place().fromAlongM());
    try (Store store = Store.open(file)) {
      assertTrue(defectVersion(store, "D-1") > before.version());
      List<String> found = StoreCheck.check(store);
      assertEquals(1, found.size(), found.toString());
      assertTrue(found.get(0).startsWith("defect 'D-1' is drawn "), found.get(0));
      // Whoever read it before does not write over GDAL's change.
      assertThrows(
          StaleRowException.class,
          () -> store.write("ann", "done", c -> c.defects().update(before, before.value())));
    }
  }

  @Test
  void milNgasReaderReadsEveryFeatureTable() {
    Map<String, Layer> ours = ourLayers();
    try (GeoPackage theirs = GeoPackageManager.open(file.toFile())) {
      assertEquals(
          List.copyOf(ours.keySet()).stream().sorted().toList(),
          theirs.getFeatureTables().stream().sorted().toList());
      for (Map.Entry<String, Layer> e : ours.entrySet()) {
        FeatureDao rows = theirs.getFeatureDao(e.getKey());
        double minX = Double.POSITIVE_INFINITY;
        double maxY = Double.NEGATIVE_INFINITY;
        FeatureResultSet all = rows.queryForAll();
        // Not getCount(): it cuts its SQL at the first 'from', which some of our columns hold.
        long count = 0;
        while (all.moveToNext()) {
          count++;
          GeometryEnvelope box = all.getRow().getGeometry().getOrBuildEnvelope();
          minX = Math.min(minX, box.getMinX());
          maxY = Math.max(maxY, box.getMaxY());
        }
        all.close();
        assertEquals(e.getValue().count(), count, e.getKey());
        assertEquals(e.getValue().minX(), minX, e.getKey());
        assertEquals(e.getValue().maxY(), maxY, e.getKey());
        boolean point = rows.getGeometryType().getName().equals("POINT");
        assertEquals(point ? 0 : 1, rows.getGeometryColumns().getM(), e.getKey());
      }
      assertTrue(theirs.getAttributesTables().contains("change_log"));
    }
  }

  private Stored<Defect> defect(String id) {
    try (Store store = Store.open(file)) {
      return store.read(s -> s.defects().find(id)).orElseThrow();
    }
  }

  private static long defectVersion(Store store, String id) {
    return store.read(s -> s.defects().find(id)).orElseThrow().version();
  }

  /** Runs a GDAL tool; skips the test where it is not installed (.ci/run installs gdal-bin). */
  private String gdal(String... command) throws IOException, InterruptedException {
    Path said = folder.resolve("gdal.txt");
    Process p;
    try {
      p =
          new ProcessBuilder(new ArrayList<>(List.of(command)))
              .redirectError(folder.resolve("gdal-says.txt").toFile())
              .redirectOutput(said.toFile())
              .start();
    } catch (IOException e) {
      Assumptions.abort("GDAL's " + command[0] + " (Debian gdal-bin) is not installed");
      return "";
    }
    assertTrue(p.waitFor(60, TimeUnit.SECONDS), "GDAL does not end");
    String text = Files.readString(said);
    // GDAL 3.6, of 2023, remarks that it may not know all of version 1.4; nothing else may be odd.
    List<String> remarks =
        Files.readAllLines(folder.resolve("gdal-says.txt")).stream()
            .filter(l -> !l.isBlank() && !l.contains("may only be partially supported"))
            .toList();
    assertEquals(List.of(), remarks);
    assertEquals(0, p.exitValue(), text);
    return text;
  }
}
