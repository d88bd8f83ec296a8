package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.UnitSystem;
import mil.nga.geopackage.GeoPackage;
import mil.nga.geopackage.GeoPackageManager;
import mil.nga.geopackage.features.user.FeatureDao;
import mil.nga.geopackage.features.user.FeatureResultSet;
import mil.nga.geopackage.features.user.FeatureRow;
import mil.nga.sf.GeometryType;
import mil.nga.sf.Point;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Tables handed on as GeoPackages, read by the National Geospatial-Intelligence Agency's library.
 */
class GeoPackageOutTest {
  @TempDir Path folder;

  @Test
  void defectsAreThereForAReaderThatKnowsNothingOfUs() {
    // Given a defect at a point, 2 ft wide
    SmallCounty county = new SmallCounty(folder);
    Path in =
        SmallCounty.write(
            folder,
            "in.csv",
            """
            id,route,milepost,longitude,latitude,lane,kind,severity,length_ft,width_ft,depth_in,found_on
            A1,SR 12,,-93.0123456,44.0,R1,pothole,high,3,2,1.5,2026-04-02
            A2,SR 12,3.1,,,L1,rutting,low,300,6,1,2026-04-03
            """);
    List<Defect> defects =
        county
            .events
            .defects(DefectReader.read(in, FieldMap.NONE, LocalDate.of(2026, 5, 1)), Set.of())
            .rows();
    // when it is handed on
    Path out = folder.resolve("defects.gpkg");
    new EventExport(county.network, county.locator, UnitSystem.US_CUSTOMARY).defects(out, defects);
    // then another's library finds a layer of points with the same values
    try (GeoPackage theirs = GeoPackageManager.open(out.toFile())) {
      assertEquals(List.of("defects"), theirs.getFeatureTables());
      FeatureDao layer = theirs.getFeatureDao("defects");
      assertEquals(GeometryType.POINT, layer.getGeometryType());
      assertEquals(4326, layer.getSrsId());
      FeatureResultSet rows = layer.queryForAll();
      try {
        rows.moveToNext();
        FeatureRow row = rows.getRow();
        Point at = (Point) row.getGeometry().getGeometry();
        assertEquals(-93.0123456, at.getX(), 0);
        assertEquals("A1", row.getValue("id"));
        assertEquals(2.0, ((Number) row.getValue("width_ft")).doubleValue(), 1e-9);
      } finally {
        rows.close();
      }
      assertEquals(2, layer.count());
      assertEquals(List.of(), theirs.getAttributesTables());
    }
  }

  @Test
  void aTableWithoutPlacesIsAnAttributeTable() {
    Path out = folder.resolve("left-out.gpkg");
    new ExportTable<String>()
        .column("defect", s -> s)
        .column("found_on", s -> LocalDate.of(2026, 4, 2))
        .write(out, List.of("A1", "A2", "A3"));
    try (GeoPackage theirs = GeoPackageManager.open(out.toFile())) {
      assertEquals(List.of("left_out"), theirs.getAttributesTables());
      assertEquals(3, theirs.getAttributesDao("left_out").count());
    }
  }
}
