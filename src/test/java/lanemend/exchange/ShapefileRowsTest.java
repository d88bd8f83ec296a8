package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import lanemend.network.SourceLine;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Shapefiles as GDAL writes them, read back beside the GeoJSON they were made from. */
class ShapefileRowsTest {
  private static final String ROADS =
      """
      {"type": "FeatureCollection", "features": [
      {"type": "Feature", "properties": {"route": "SR 12", "class": "arterial", "speed": 55, "one_way": "no", "surface": "asphalt, Straße"},
       "geometry": {"type": "LineString", "coordinates": [[-93.1, 44.0], [-93.075, 44.0], [-93.07, 44.01]]}},
      {"type": "Feature", "properties": {"route": "CR 3", "class": "local", "speed": 45, "one_way": "yes", "surface": "gravel"},
       "geometry": {"type": "MultiLineString", "coordinates": [[[-93.0, 44.1], [-93.0, 44.2]], [[-93.0, 44.3], [-93.0, 44.4], [-93.01, 44.45]]]}},
      {"type": "Feature", "properties": {"route": "CR 4", "class": "local", "speed": null, "one_way": null, "surface": null},
       "geometry": {"type": "LineString", "coordinates": [[-93.2, 44.1], [-93.25, 44.2]]}}
      ]}
      """;

  @TempDir Path folder;

  private Path geoJson;

  @BeforeEach
  void given() {
    geoJson = SmallCounty.write(folder, "roads.geojson", ROADS);
  }

  private static void ogr(String... words) {
    List<String> all = new ArrayList<>(List.of("ogr2ogr"));
    all.addAll(List.of(words));
    try {
      Process p = new ProcessBuilder(all).redirectErrorStream(true).start();
      String said = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertTrue(p.waitFor(1, TimeUnit.MINUTES));
      assertEquals(0, p.exitValue(), said);
    } catch (IOException e) {
      Assumptions.abort("GDAL's ogr2ogr is not installed");
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private Path shapefile(String name, String... options) {
    Path shp = folder.resolve(name + ".shp");
    List<String> words = new ArrayList<>(List.of("-f", "ESRI Shapefile"));
    words.addAll(List.of(options));
    words.add(shp.toString());
    words.add(geoJson.toString());
    ogr(words.toArray(String[]::new));
    return shp;
  }

  private static Read<SourceLine> read(Path file) {
    return RoadReader.read(RoadSource.of(file));
  }

  private void same(Read<SourceLine> found, double tolerance) {
    Read<SourceLine> wanted = read(geoJson);
    assertEquals(List.of(), found.problems());
    assertEquals(wanted.rows().size(), found.rows().size());
    for (int i = 0; i < wanted.rows().size(); i++) {
      SourceLine a = wanted.rows().get(i);
      SourceLine b = found.rows().get(i);
      assertEquals(a.routeNames(), b.routeNames());
      assertEquals(a.roadClass(), b.roadClass());
      assertEquals(a.oneWay(), b.oneWay());
      assertEquals(a.attributes(), b.attributes());
      assertEquals(a.longitude().length, b.longitude().length);
      for (int v = 0; v < a.longitude().length; v++) {
        assertEquals(a.longitude()[v], b.longitude()[v], tolerance);
        assertEquals(a.latitude()[v], b.latitude()[v], tolerance);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    // UTM zone 15 in metres, Minnesota South in US survey feet, Web Mercator, degrees of NAD 83
    "EPSG:26915",
    "EPSG:26851",
    "EPSG:3857",
    "EPSG:4269",
    "EPSG:4326"
  })
  void roadsComeInFromAnySystemTheirPrjNames(String system) {
    same(read(shapefile("roads", "-t_srs", system)), 1e-6);
  }

  @ParameterizedTest
  @CsvSource({"UTF-8", "ISO-8859-1", "CP1252", "CP850"})
  void lettersAreReadAsTheCpgFileOrTheTableSays(String encoding) throws IOException {
    Path shp = shapefile("roads", "-lco", "ENCODING=" + encoding);
    same(read(shp), 1e-9);
    // Without its .cpg file, by the language driver in the table where there is one
    if (encoding.equals("CP1252") || encoding.equals("ISO-8859-1")) {
      Files.deleteIfExists(folder.resolve("roads.cpg"));
      same(read(shp), 1e-9);
    }
  }

  @Test
  void heightsAndMeasuresAreLeft() {
    same(read(shapefile("flat", "-dim", "XYZ")), 1e-9);
    same(read(shapefile("measured", "-dim", "XYM")), 1e-9);
  }

  @Test
  void defectsComeInFromPointsWithMappedNames() {
    geoJson =
        SmallCounty.write(
            folder,
            "found.geojson",
            """
            {"type": "FeatureCollection", "features": [
            {"type": "Feature", "properties": {"id": "D-1", "lane": "R1", "what": "rutting", "severity": "high", "len_ft": 60, "wid_ft": 8.5, "deep_in": 2, "seen": "2026-04-30"},
             "geometry": {"type": "Point", "coordinates": [-93.05, 44.0]}},
            {"type": "Feature", "properties": {"id": "D-2", "lane": "R1", "what": "rut", "severity": "high", "len_ft": 60, "wid_ft": 8.5, "deep_in": 2, "seen": "2026-04-30"},
             "geometry": {"type": "Point", "coordinates": [-93.05, 44.0]}},
            {"type": "Feature", "properties": {"id": "D-3", "lane": "R1", "what": "rutting", "severity": "high", "len_ft": 60, "wid_ft": 8.5, "deep_in": 2, "seen": "2026-04-30"},
             "geometry": null}
            ]}
            """);
    Path shp = shapefile("found", "-t_srs", "EPSG:26915", "-nlt", "POINT");
    FieldMap map =
        FieldMap.parse(
            List.of(
                "kind=what",
                "length_ft=len_ft",
                "width_ft=wid_ft",
                "depth_in=deep_in",
                "found_on=seen"));
    Read<RawDefect> read = DefectReader.read(shp, map, LocalDate.of(2026, 5, 1));
    assertEquals(1, read.rows().size());
    RawDefect d = read.rows().get(0);
    assertEquals("D-1", d.id());
    assertEquals(-93.05, d.place().longitude().getAsDouble(), 1e-6);
    assertEquals(8.5 * 0.3048, d.widthM(), 1e-9);
    assertEquals(LocalDate.of(2026, 4, 30), d.foundOn());
    assertEquals(
        List.of("kind", "milepost"), read.problems().stream().map(RowProblem::field).toList());
    assertEquals(3, read.problems().get(1).line());
  }

  private String refusal(Path file) {
    return assertThrows(ExchangeException.class, () -> read(file)).getMessage();
  }

  @Test
  void whatIsMissingOrBrokenIsSaidAndTheRestIsTaken() throws IOException {
    Path shp = shapefile("roads");
    byte[] whole = Files.readAllBytes(shp);
    // Cut in the last record
    Files.write(shp, Arrays.copyOf(whole, whole.length - 10));
    Read<SourceLine> cut = read(shp);
    assertEquals(3, cut.rows().size());
    assertEquals(
        "roads.shp:3: found 'it ends in the middle of a record', expected records 3 to 3, which"
            + " are lost with it",
        cut.problems().get(0).text());
    // A geometry whose counts do not fit
    byte[] counts = whole.clone();
    counts[100 + 8 + 40] = 99;
    Files.write(shp, counts);
    assertTrue(read(shp).problems().get(0).text().contains("whose counts fit its length"));
    Files.write(shp, "not a shapefile".getBytes(StandardCharsets.UTF_8));
    assertTrue(refusal(shp).contains("does not begin as a shapefile does"), refusal(shp));
    Files.write(shp, whole);
    Files.delete(folder.resolve("roads.dbf"));
    assertTrue(refusal(shp).contains("the .dbf file of its attributes"), refusal(shp));
    assertTrue(refusal(folder.resolve("none.shp")).contains("no .dbf file"));
  }

  @Test
  void withoutAPrjFileTheUserHasToSay() throws IOException {
    Path shp = shapefile("roads", "-t_srs", "EPSG:26915");
    Files.delete(folder.resolve("roads.prj"));
    Read<SourceLine> read = read(shp);
    assertEquals(0, read.rows().size());
    assertTrue(read.problems().get(0).text().contains("need their system named"));
    assertTrue(read.notes().get(0).contains("no .prj file"));
  }

  /** Any bytes changed anywhere: rows are taken or refused, and nothing else happens. */
  @Test
  void aDamagedFileNeverBreaksTheReading() throws IOException {
    Path shp = shapefile("roads");
    Random random = new Random(5);
    for (String ending : List.of(".shp", ".dbf")) {
      Path part = folder.resolve("roads" + ending);
      byte[] whole = Files.readAllBytes(part);
      for (int round = 0; round < 300; round++) {
        byte[] damaged =
            round % 3 == 0 ? Arrays.copyOf(whole, random.nextInt(whole.length)) : whole.clone();
        for (int i = 0; i < 1 + random.nextInt(4) && damaged.length > 0; i++) {
          damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
        }
        Files.write(part, damaged);
        try {
          Read<SourceLine> read = read(shp);
          assertTrue(read.rowsSeen() >= read.rows().size());
        } catch (ExchangeException e) {
          assertEquals(1, e.getMessage().lines().count(), e.getMessage());
        }
      }
      Files.write(part, whole);
    }
  }
}
