package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.measure.UnitSystem;
import lanemend.network.Assembly;
import lanemend.network.Locator;
import lanemend.network.Route;
import lanemend.network.RouteAssembler;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is exported imports unchanged. */
class ExportRoundTripTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 1);

  @TempDir Path folder;
  private SmallCounty county;

  @BeforeEach
  void county() {
    county = new SmallCounty(folder);
  }

  private EventExport export(UnitSystem units) {
    return new EventExport(county.network, county.locator, units);
  }

  private List<Defect> defects(Path file) {
    Read<Defect> read =
        county.events.defects(DefectReader.read(file, FieldMap.NONE, TODAY), Set.of());
    assertEquals("", SmallCounty.texts(read.problems()));
    assertEquals(List.of(), read.notes());
    return read.rows();
  }

  private List<Defect> sampleDefects() {
    return defects(
        SmallCounty.write(
            folder,
            "in.csv",
            """
            id,route,direction,milepost,milepost_to,longitude,latitude,lane,kind,severity,length_ft,width_ft,depth_in,found_on,found_by,photo,note,status
            D1,SR 12,,5.1 back,,,,R1,pothole,high,2.5,3.3,1.75,2026-04-01,Kim,a.jpg,"=SUM(A1), ""quoted"" and
            on two lines",planned
            D2,SR 12,,2.6,2.5,,,L1,alligator_cracking,low,,7,,2026-04-02,@lee,,-5 below,
            D3,,,,,-93.04912345678,44.00001,R0,edge_break,medium,40,1.1,0.5,2026-04-03,,,'tis,open
            D4,US 9,NB,1.5,,,,R2,rutting,low,100,3,1,2026-04-03,,,,deferred_to_overlay
            D5,US 9,,,,-92.951,44.05,R1,shoving,low,10,3,0,2026-04-03,,,,
            D6,SR 30,,,,-93.09,44,R1,ravelling,low,10,3,,2026-04-03,,,,
            """));
  }

  private static void assertSame(Place a, Place b) {
    assertEquals(a.routeId(), b.routeId());
    assertEquals(a.entered(), b.entered());
    assertEquals(a.fromAlongM(), b.fromAlongM(), 1e-9);
    assertEquals(a.toAlongM(), b.toAlongM(), 1e-9);
  }

  @Test
  void defectsComeBackFromCsvAndGeoJsonInBothUnits() {
    List<Defect> before = sampleDefects();
    for (UnitSystem units : UnitSystem.values()) {
      for (String name : List.of("out.csv", "out.geojson")) {
        Path file = folder.resolve(name);
        export(units).defects(file, before);
        List<Defect> after = defects(file);
        assertEquals(before.size(), after.size());
        for (int i = 0; i < before.size(); i++) {
          Defect a = before.get(i);
          Defect b = after.get(i);
          assertSame(a.place(), b.place());
          assertEquals(a.lengthM(), b.lengthM(), 1e-9);
          assertEquals(a.widthM(), b.widthM(), 1e-9);
          assertEquals(a.depthM(), b.depthM(), 1e-9);
          assertEquals(
              List.of(a.id(), a.lane(), a.kind(), a.severity(), a.foundOn(), a.foundBy()),
              List.of(b.id(), b.lane(), b.kind(), b.severity(), b.foundOn(), b.foundBy()));
          assertEquals(
              List.of(a.photo(), a.status(), a.note()), List.of(b.photo(), b.status(), b.note()));
        }
      }
    }
  }

  @Test
  void noTextCellOfAnExportStartsAFormula() throws IOException {
    Path file = folder.resolve("out.csv");
    export(UnitSystem.US_CUSTOMARY).defects(file, sampleDefects());
    String text = Files.readString(file);
    assertTrue(text.contains("\"'=SUM(A1), \"\"quoted\"\" and\non two lines\""), text);
    assertTrue(text.contains(",'@lee,"), text);
    assertTrue(text.contains(",'-5 below,"), text);
    assertTrue(text.contains(",-93.04912345678,44.00001,"), "numbers stay numbers");
  }

  @Test
  void geoJsonIsAsTheStandardHasIt() throws IOException {
    Path file = folder.resolve("out.geojson");
    export(UnitSystem.US_CUSTOMARY).defects(file, sampleDefects());
    JsonNode root = new ObjectMapper().readTree(file.toFile());
    // RFC 7946: section 3.3 a collection of features, section 4 no crs, section 3.1.1 lon first.
    assertEquals("FeatureCollection", root.get("type").asText());
    assertFalse(root.has("crs"));
    for (JsonNode f : root.get("features")) {
      assertEquals("Feature", f.get("type").asText());
      assertNotNull(f.get("properties"));
      assertEquals("Point", f.get("geometry").get("type").asText());
      JsonNode at = f.get("geometry").get("coordinates");
      assertEquals(2, at.size());
      assertTrue(at.get(0).asDouble() < -92 && at.get(1).asDouble() > 43);
      // Section 11.2: no more digits than the data has; seven are a centimetre.
      assertTrue(at.get(0).decimalValue().scale() <= 7);
    }
  }

  @Test
  void findingsPatchesAndFactsComeBack() {
    Path findings =
        SmallCounty.write(
            folder,
            "f.csv",
            """
            id,kind,route,milepost,longitude,latitude,side,found_on,found_by,note
            F1,sign,SR 12,5.1 ahead,,,left,2026-01-01,Kim,leans
            F2,culvert,,,-93.05,44.0001,,2026-01-02,,
            """);
    Path patches =
        SmallCounty.write(
            folder,
            "p.csv",
            """
            id,work,route,milepost,milepost_to,lane,done_on,tons,crew_hours,cost
            P1,blade_patch,SR 12,1,1.1,R1,2020-06-01,10.5,12,1234.50
            P2,resurfacing,SR 12,1,2,,2019-06-01,,,2E+4
            """);
    Path facts =
        SmallCounty.write(
            folder,
            "a.csv",
            """
            route,direction,milepost_from,milepost_to,name,value,valid_from,valid_to
            SR 12,,,,posted_speed_mph,55,2020-01-01,2030-01-01
            SR 12,,0.1234,5.1 back,soil,"clay, wet",,
            US 9,NB,,1,lane_width_ft,11.5,,
            """);
    List<Finding> f = findings(findings);
    List<PastPatch> p = patches(patches);
    List<RoadAttribute> a = facts(facts);
    for (UnitSystem units : UnitSystem.values()) {
      for (String end : List.of(".csv", ".geojson")) {
        export(units).findings(folder.resolve("f-out" + end), f);
        export(units).patches(folder.resolve("p-out" + end), p, Map.of());
        List<Finding> f2 = findings(folder.resolve("f-out" + end));
        List<PastPatch> p2 = patches(folder.resolve("p-out" + end));
        for (int i = 0; i < 2; i++) {
          assertSame(f.get(i).place(), f2.get(i).place());
          assertEquals(f.get(i).side(), f2.get(i).side());
          assertEquals(f.get(i).note(), f2.get(i).note());
          assertSame(p.get(i).place(), p2.get(i).place());
          assertEquals(p.get(i).cost(), p2.get(i).cost());
          assertEquals(p.get(i).lane(), p2.get(i).lane());
          assertEquals(p.get(i).crewHours(), p2.get(i).crewHours());
        }
        assertEquals(p.get(0).tonnes(), p2.get(0).tonnes(), 1e-9);
      }
      export(units).attributes(folder.resolve("a-out.csv"), a);
      List<RoadAttribute> a2 = facts(folder.resolve("a-out.csv"));
      for (int i = 0; i < a.size(); i++) {
        assertEquals(a.get(i).fromAlongM(), a2.get(i).fromAlongM(), 1e-4);
        assertEquals(a.get(i).toAlongM(), a2.get(i).toAlongM(), 1e-4);
        assertEquals(a.get(i).name() + a.get(i).value(), a2.get(i).name() + a2.get(i).value());
        assertEquals(a.get(i).validTo(), a2.get(i).validTo());
      }
    }
  }

  private List<Finding> findings(Path file) {
    Read<Finding> read =
        county.events.findings(FindingReader.read(file, FieldMap.NONE, TODAY), Set.of());
    assertEquals("", SmallCounty.texts(read.problems()));
    return read.rows();
  }

  private List<PastPatch> patches(Path file) {
    Read<PastPatch> read =
        county.events.patches(PatchReader.read(file, FieldMap.NONE, TODAY), Set.of());
    assertEquals("", SmallCounty.texts(read.problems()));
    return read.rows();
  }

  private List<RoadAttribute> facts(Path file) {
    Read<RoadAttribute> read = county.events.attributes(AttributeReader.read(file, FieldMap.NONE));
    assertEquals("", SmallCounty.texts(read.problems()));
    return read.rows();
  }

  @Test
  void roadsAndPostsComeBack() {
    List<RoadAttribute> facts = new ArrayList<>();
    facts.add(new RoadAttribute("SR 12", 0, 4000, "posted_speed_kmh", "88.51392", null, null));
    facts.add(new RoadAttribute("SR 12", 4000, 1e9, "posted_speed_kmh", "72", null, null));
    facts.add(new RoadAttribute("US 9 NB", 0, 1e9, "one_way", "yes", null, null));
    facts.add(new RoadAttribute("SR 12", 0, 1e9, "lanes", "4", null, LocalDate.of(2020, 1, 1)));
    for (String name : List.of("roads-out.csv", "roads-out.geojson")) {
      Path file = folder.resolve(name);
      Path posts = folder.resolve("posts-out.csv");
      new RoadExport(county.network, county.locator, facts, TODAY, UnitSystem.US_CUSTOMARY)
          .write(file);
      export(UnitSystem.US_CUSTOMARY).posts(posts);
      var lines = RoadReader.read(RoadSource.of(file));
      assertEquals("", SmallCounty.texts(lines.problems()));
      assertEquals(List.of(), lines.notes());
      Assembly again = RouteAssembler.assemble(lines.rows(), SmallCounty.CRS);
      assertEquals(county.network.routes().keySet(), again.network().routes().keySet());
      for (Route before : county.network.routes().values()) {
        Route after = again.network().routes().get(before.id());
        assertEquals(before.lengthM(), after.lengthM(), 0.03, before.id());
        assertEquals(before.roadClass(), after.roadClass());
      }
      assertTrue(
          again.runs().stream()
              .anyMatch(
                  r ->
                      r.routeId().equals("SR 12")
                          && Math.abs(r.toAlongM() - 4000) < 0.03
                          && "88.51392".equals(r.attributes().get("posted_speed_kmh"))
                          && !r.attributes().containsKey("lanes")));
      var placed =
          new EventLocator(again.network(), new Locator(again.network()), LaneCounts.UNKNOWN)
              .posts(PostReader.read(posts, FieldMap.NONE));
      assertEquals("", SmallCounty.texts(placed.read().problems()));
      assertEquals(3, placed.byRoute().get("SR 12").size());
      assertEquals(8368.6, placed.byRoute().get("SR 12").get(1).alongM().getAsDouble(), 1e-6);
    }
  }
}
