package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import lanemend.network.SourceLine;
import lanemend.patching.PatchSettings;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Ten thousand damaged files, spread over every reader. Whatever is done to a file, nothing but an
 * {@link ExchangeException} may come out, every row is taken or refused, and every refusal says
 * where and what was expected. Readers are given no store, so that a refused file cannot touch it.
 */
class MutatedFilesTest {
  private static final int FILES = 10_000;
  private static final long SEED = 20_260_501;
  private static final ObjectMapper JSON =
      JsonMapper.builder().enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS).build();
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);

  @TempDir Path folder;
  private SmallCounty county;
  private final Map<String, byte[]> samples = new LinkedHashMap<>();
  private final Map<String, Function<Path, Read<?>>> readers = new LinkedHashMap<>();
  private int whole;
  private int counted;
  private int partly;
  private int unharmed;

  private void sample(String name, String text, Function<Path, Read<?>> reader) {
    sample(name, text.getBytes(StandardCharsets.UTF_8), reader);
  }

  private void sample(String name, byte[] bytes, Function<Path, Read<?>> reader) {
    samples.put(name, bytes);
    readers.put(name, reader);
  }

  @BeforeEach
  void samples() throws IOException, SQLException {
    county = new SmallCounty(folder);
    Function<Path, Read<?>> roads = file -> RoadReader.read(RoadSource.of(file));
    sample("roads.geojson", SmallCounty.ROADS, roads);
    sample(
        "roads.csv",
        """
        route,class,speed,one_way,level,wkt
        SR 12,arterial,55,no,0,"LINESTRING (-93.1 44, -93 44.1)"
        SR 30,local,30 km/h,-1,1,"MULTILINESTRING ((-93.1 44, -93 44.1), (-92 44, -92 44.2))"
        ,collector,,,,"LINESTRING Z (-93.1 44 200, -93 44.1 201)"
        """,
        roads);
    sample("roads.gpkg", geoPackage(), roads);
    sample(
        "posts.csv",
        SmallCounty.POSTS,
        file -> county.events.posts(PostReader.read(file, FieldMap.NONE)).read());
    Function<Path, Read<?>> defects =
        file -> county.events.defects(DefectReader.read(file, FieldMap.NONE, TODAY), Set.of());
    sample("defects.csv", DEFECTS, defects);
    sample("defects.geojson", DEFECT_FEATURES, defects);
    sample(
        "findings.csv",
        """
        id,kind,route,milepost,longitude,latitude,side,found_on,found_by,note
        F1,sign,SR 12,5.1 ahead,,,left,2026-01-01,Kim,leans
        F2,culvert,,,-93.05,44.0001,,2026-01-02,,"two
        lines"
        """,
        file -> county.events.findings(FindingReader.read(file, FieldMap.NONE, TODAY), Set.of()));
    sample(
        "patches.csv",
        """
        id,work,route,milepost,milepost_to,lane,done_on,tons,crew_hours,cost
        P1,blade_patch,SR 12,1,1.1,R1,2020-06-01,10.5,12,1234.50
        P2,resurfacing,SR 12,1,2,,2019-06-01,,,2E+4
        """,
        file -> county.events.patches(PatchReader.read(file, FieldMap.NONE, TODAY), Set.of()));
    sample(
        "attributes.csv",
        """
        route,direction,milepost_from,milepost_to,name,value,valid_from,valid_to
        SR 12,,,,posted_speed_mph,55,2020-01-01,2030-01-01
        SR 12,,0.1234,5.1 back,soil,"clay, wet",,
        US 9,NB,,1,lane_width_ft,11.5,,
        """,
        file -> county.events.attributes(AttributeReader.read(file, FieldMap.NONE)));
    sample("agency.json", SettingsFilesTest.AGENCY, file -> settings(agency(file)));
    sample(
        "county.json",
        """
        {"name": "Alder County", "roads": {"file": "roads.geojson", "fields": {"route": "ref|name"},
         "classes": {"primary": "arterial"}},
         "posts": "posts.csv", "defects": ["posts.csv"]}
        """,
        file -> settings(CountyManifest.read(folder)));
  }

  private static Object agency(Path file) {
    PatchOverrides.read(file, PatchSettings.standard());
    return AgencyReader.read(file, SmallCounty.CRS);
  }

  /** A settings file is one row: taken whole, or an exception has been thrown. */
  private static Read<?> settings(Object whole) {
    return new Read<>(List.of(whole), List.of(), 1, List.of(), List.of());
  }

  private static final String DEFECTS =
      """
      id,route,direction,milepost,milepost_to,longitude,latitude,lane,kind,severity,length_ft,width_ft,depth_in,found_on,found_by,photo,note,status
      D1,SR 12,,5.1 back,,,,R1,pothole,high,2.5,3.3,1.75,2026-04-01,Kim,a.jpg,"quoted ""note"" and
      a second line",planned
      D2,SR 12,,2.6,2.5,,,L1,alligator_cracking,low,,7,,2026-04-02,,,,
      D3,,,,,-93.049,44.00001,R0,edge_break,medium,40,1.1,0.5,2026-04-03,,,note,open
      ,US 9,NB,1.5,,,,R2,rutting,low,100,3,1,2026-04-03,,,,deferred_to_overlay
      """;

  private static final String DEFECT_FEATURES =
      """
      {"type": "FeatureCollection", "features": [
      {"type": "Feature", "id": 7, "geometry": {"type": "Point", "coordinates": [-93.05, 44.0]},
       "properties": {"lane": "L1", "kind": "rutting", "severity": "low", "length_m": 12, "width_m": 1.2, "depth_mm": 25, "found_on": "2026-04-30"}},
      {"type": "Feature", "geometry": null,
       "properties": {"id": "D8", "route": "SR 12", "milepost": 1.5, "lane": "R1", "kind": "shoving", "severity": "high", "length_m": 12, "width_m": 1.2, "found_on": "2026-04-30", "note": null}}
      ]}
      """;

  private byte[] geoPackage() throws SQLException, IOException {
    Path file = folder.resolve("sample.gpkg");
    try (Connection db = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = db.createStatement()) {
      s.execute("PRAGMA page_size = 512");
      s.execute(
          "CREATE TABLE gpkg_spatial_ref_sys (srs_id INTEGER PRIMARY KEY, organization TEXT,"
              + " organization_coordsys_id INTEGER, definition TEXT)");
      s.execute("INSERT INTO gpkg_spatial_ref_sys VALUES (4326, 'EPSG', 4326, 'x')");
      s.execute("CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT)");
      s.execute("INSERT INTO gpkg_contents VALUES ('roads', 'features')");
      s.execute(
          "CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT,"
              + " geometry_type_name TEXT, srs_id INTEGER)");
      s.execute("INSERT INTO gpkg_geometry_columns VALUES ('roads', 'geom', 'LINESTRING', 4326)");
      s.execute("CREATE TABLE roads (fid INTEGER PRIMARY KEY, geom BLOB, route TEXT, class TEXT)");
      // GeoPackage header, then WKB of LINESTRING (1 1, 2 2), little-endian.
      String one = "000000000000F03F";
      String two = "0000000000000040";
      s.execute(
          "INSERT INTO roads VALUES (1, x'47500001E6100000" // GP, version, flags, srs 4326
              + "01"
              + "02000000"
              + "02000000"
              + one
              + one
              + two
              + two
              + "', 'SR 12', 'local')");
    }
    return Files.readAllBytes(file);
  }

  @Test
  void theSamplesThemselvesAreGood() {
    samples.forEach(
        (name, bytes) -> {
          Read<?> read = readers.get(name).apply(SmallCounty.write(folder, name, bytes));
          assertEquals("", SmallCounty.texts(read.problems()), name);
          assertFalse(read.rows().isEmpty(), name);
        });
  }

  @Test
  void tenThousandDamagedFilesEndInRowsRefusalsOrOneClearError() {
    assertTimeout(Duration.ofMinutes(5), this::damageAll);
    System.out.println(
        FILES
            + " damaged files: "
            + unharmed
            + " read clean, "
            + partly
            + " with rows refused, "
            + whole
            + " refused whole; rows counted again in "
            + counted);
    // The damage must bite in every way, or the test would prove little.
    assertTrue(whole > FILES / 10 && partly > FILES / 10 && unharmed > FILES / 100);
    assertTrue(counted > FILES / 10);
  }

  private void damageAll() {
    List<String> names = List.copyOf(samples.keySet());
    Mutator mutator = new Mutator(SEED);
    for (int i = 0; i < FILES; i++) {
      String name = names.get(i % names.size());
      String which = name + " number " + i;
      byte[] damaged = mutator.damage(samples.get(name));
      Path file = SmallCounty.write(folder, name, damaged);
      long start = System.nanoTime();
      try {
        Read<?> read = readers.get(name).apply(file);
        check(read, which);
        checkCount(read, damaged, name, which);
      } catch (ExchangeException e) {
        whole++;
        e.problems().forEach(p -> checkProblem(p, which, true));
      } catch (RuntimeException e) {
        fail(which + " of seed " + SEED + ": " + e, e);
      }
      long seconds = (System.nanoTime() - start) / 1_000_000_000L;
      assertTrue(seconds < 10, which + " took " + seconds + " s");
      restore(name);
    }
  }

  /** The manifest's test needs the other files whole. */
  private void restore(String name) {
    SmallCounty.write(folder, name, samples.get(name));
  }

  private void check(Read<?> read, String which) {
    assertEquals(read.rowsSeen(), (long) read.rows().size() + read.problems().size(), which);
    read.problems().forEach(p -> checkProblem(p, which, false));
    for (Object row : read.rows()) {
      if (row instanceof SourceLine line) {
        assertTrue(line.longitude().length >= 2, which);
      }
    }
    if (read.clean()) {
      unharmed++;
    } else {
      partly++;
    }
  }

  /** Rows counted again without the reader, where that can be done simply. */
  private void checkCount(Read<?> read, byte[] damaged, String name, String which) {
    String text = new String(damaged, StandardCharsets.UTF_8).replaceFirst("^\uFEFF", "");
    if (name.endsWith(".csv") && !text.contains("\"")) {
      List<String> lines =
          text.lines().dropWhile(String::isBlank).skip(1).filter(l -> !l.matches("[, ]*")).toList();
      assertEquals(lines.size(), read.rowsSeen(), which);
      counted++;
    } else if (name.endsWith(".geojson") && !text.contains("Multi")) {
      try {
        assertEquals(JSON.readTree(text).get("features").size(), read.rowsSeen(), which);
        counted++;
      } catch (IOException e) {
        fail(which + " was read but is not JSON", e);
      }
    }
  }

  private static void checkProblem(RowProblem p, String which, boolean wholeFile) {
    assertFalse(p.file().isBlank(), which);
    assertFalse(p.expected().isBlank(), which + ": " + p.text());
    assertTrue(wholeFile || p.line() > 0, which + ": " + p.text());
    for (String trace : List.of("Exception", "java.", "lanemend.", "\n\tat ")) {
      assertFalse(p.text().contains(trace), which + ": " + p.text());
    }
  }
}
