package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.BitSet;
import java.util.Random;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.referencing.CRS;
import org.geotools.referencing.crs.DefaultGeographicCRS;
import org.junit.jupiter.api.Test;

/** The map's plane and what is found on it. */
class MapPlaneTest {

  @Test
  void itIsTheWebsMercatorAsGeoToolsHasIt() throws Exception {
    // Oracle: GeoTools' EPSG:3857, whose half circumference is pi x 6,378,137 m.
    MathTransform oracle =
        CRS.findMathTransform(DefaultGeographicCRS.WGS84, CRS.decode("EPSG:3857", true), true);
    double half = Math.PI * 6_378_137;
    Random random = new Random(3);
    for (int i = 0; i < 200; i++) {
      double lon = 360 * random.nextDouble() - 180;
      double lat = 170 * random.nextDouble() - 85;
      double[] at = {lon, lat};
      oracle.transform(at, 0, at, 0, 1);
      assertEquals((at[0] + half) / (2 * half), Mercator.x(lon), 1e-12);
      assertEquals((half - at[1]) / (2 * half), Mercator.y(lat), 1e-12);
      assertEquals(lon, Mercator.lon(Mercator.x(lon)), 1e-9);
      assertEquals(lat, Mercator.lat(Mercator.y(lat)), 1e-9);
    }
  }

  @Test
  void aRectangleFindsWhatLookingAtEveryPointFinds() {
    Random random = new Random(5);
    for (int n : new int[] {0, 1, 2, 50, 3_000}) {
      Dots dots = new Dots(n);
      for (int i = 0; i < n; i++) {
        // Crowded in places, as defects are.
        dots.add(0.3 + Math.pow(random.nextDouble(), 4) / 9, 0.4 + random.nextDouble() / 50);
      }
      for (int k = 0; k < 60; k++) {
        double west = 0.28 + 0.15 * random.nextDouble();
        double east = west + 0.1 * random.nextDouble();
        double north = 0.39 + 0.04 * random.nextDouble();
        double south = north + 0.02 * random.nextDouble();
        BitSet wanted = new BitSet();
        for (int i = 0; i < n; i++) {
          wanted.set(
              i, dots.x(i) >= west && dots.x(i) < east && dots.y(i) >= north && dots.y(i) < south);
        }
        BitSet found = new BitSet();
        dots.within(west, north, east, south, found::set);
        assertEquals(wanted, found);
      }
    }
  }
}
