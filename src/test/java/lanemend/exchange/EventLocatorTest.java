package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalInt;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.RoadAttribute;
import lanemend.network.Side;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EventLocatorTest {
  @TempDir Path folder;
  private SmallCounty county;

  @BeforeEach
  void county() {
    county = new SmallCounty(folder);
  }

  /** Place columns are route,direction,milepost,milepost_to,longitude,latitude. */
  private Read<Defect> defect(String place, String length) {
    String text =
        "id,route,direction,milepost,milepost_to,longitude,latitude,lane,kind,severity,length_m,"
            + "width_m,depth_mm,found_on\nD1,"
            + place
            + ",R1,pothole,low,"
            + length
            + ",1,50,2026-01-01\n";
    Read<RawDefect> raw =
        DefectReader.read(
            SmallCounty.write(folder, "d.csv", text), FieldMap.NONE, LocalDate.of(2026, 5, 1));
    return county.events.defects(raw, Set.of());
  }

  private Defect placed(String place, String length) {
    Read<Defect> read = defect(place, length);
    assertEquals("", SmallCounty.texts(read.problems()));
    return read.rows().get(0);
  }

  private String refusal(String place) {
    Read<Defect> read = defect(place, "4");
    assertEquals(1, read.problems().size());
    return read.problems().get(0).text();
  }

  @Test
  void aMilepostIsFoundBetweenItsPosts() {
    // Given posts 0 at 0 m and 5.2 at 8368.6 m / milepost 2.6 lies half way: 4184.3 m.
    Defect d = placed("sr  12,,2.6,,,", "4");
    assertEquals("SR 12", d.place().routeId());
    assertEquals(4182.3, d.place().fromAlongM(), 1e-6);
    assertEquals(4186.3, d.place().toAlongM(), 1e-6);
    assertEquals(Entered.byMilepost("SR 12", "2.6", null), d.place().entered());
  }

  @Test
  void aLengthIsCutAtTheEndOfTheRoad() {
    Defect d = placed("SR 12,,0,,,", "100");
    assertEquals(0, d.place().fromAlongM());
    assertEquals(50, d.place().toAlongM(), 1e-9);
    assertEquals(100, d.lengthM());
  }

  @Test
  void twoMilepostsGiveTheStretchInEitherOrder() {
    Defect d = placed("SR 12,,2.6,2.5,,", "");
    // 0.1 of 5.2 miles over 8368.6 m.
    assertEquals(8368.6 * 0.1 / 5.2, d.lengthM(), 1e-6);
    assertEquals(d.place().toAlongM(), placed("SR 12,,2.6,,,", "1").place().middleAlongM(), 1e-6);
    assertTrue(
        defect("SR 12,,2.6,2.5,,", "900")
            .problems()
            .get(0)
            .text()
            .contains("a length no greater than the stretch between the two mileposts"));
  }

  @Test
  void anAmbiguousMilepostNamesItsChoices() {
    assertEquals(
        "d.csv:2 milepost: found '5.1', expected '5.100 back' or '5.100 ahead', as the number"
            + " occurs twice on SR 12",
        refusal("SR 12,,5.1,,,"));
    double back = placed("SR 12,,5.1 back,,,", "1").place().middleAlongM();
    double ahead = placed("SR 12,,5.1 AHEAD,,,", "1").place().middleAlongM();
    assertTrue(back < 8368.6 && ahead > 8368.6);
  }

  @Test
  void aMilepostThatDoesNotExistSaysWhy() {
    assertEquals(
        "d.csv:2 milepost: found '8.2', expected a milepost of SR 12; milepost 8.200 does not"
            + " exist: the equation 8.000 back = 8.500 ahead skips it",
        refusal("SR 12,,8.2,,,"));
    assertTrue(refusal("SR 12,,99,,,").contains("milepost 99.000 is off the road"));
  }

  @Test
  void anUnknownRouteOffersTheNearestSpellings() {
    assertEquals(
        "d.csv:2 route: found 'SR-12', expected a route of the network; nearest spellings: SR 12",
        refusal("SR-12,,1,,,"));
    assertEquals(
        "d.csv:2 route: found 'Quarry Lane', expected a route of the network; none is spelt like"
            + " it",
        refusal("Quarry Lane,,1,,,"));
  }

  @Test
  void aDividedRoadNeedsItsRoadway() {
    assertEquals(
        "d.csv:2 direction: found nothing, expected which roadway of US 9, one of NB, SB",
        refusal("US 9,,1,,,"));
    assertEquals(
        "d.csv:2 direction: found 'EB', expected a roadway of US 9, one of NB, SB",
        refusal("US 9,EB,1,,,"));
    assertEquals("US 9 NB", placed("US 9,nb,1,,,", "1").place().routeId());
    assertEquals("US 9 SB", placed("US 9 SB,,1,,,", "1").place().routeId());
    // The direction a patrol drove on an undivided road does no harm.
    assertEquals("SR 12", placed("SR 12,EB,1,,,", "1").place().routeId());
  }

  @Test
  void aPointClearlyOnOneRoadIsTaken() {
    Defect d = placed(",,,,-93.05,44.00005", "10");
    assertEquals("SR 12", d.place().routeId());
    assertEquals(10, d.place().toAlongM() - d.place().fromAlongM(), 1e-9);
    assertEquals(Entered.byPoint(null, -93.05, 44.00005), d.place().entered());
  }

  @Test
  void aPointOnRoadsThatRunTogetherAsksWhichOneAndTheNameDecides() {
    String text = refusal(",,,,-93.09,44");
    assertTrue(
        text.startsWith(
            "d.csv:2 longitude: found '-93.09 44', expected a point clearly on one road; write one"
                + " of: SR 12 milepost 0."),
        text);
    assertTrue(text.contains("; SR 30 milepost 0."), text);
    assertEquals("SR 30", placed("SR 30,,,,-93.09,44", "1").place().routeId());
  }

  @Test
  void aPointBetweenRoadwaysIsTakenOnTheNearerWhenItIsClear() {
    // The roadways are 0.001 degree apart, 80 m at this latitude.
    assertEquals("US 9 SB", placed("US 9,,,,-92.951,44.05", "1").place().routeId());
    assertTrue(refusal("US 9,,,,-92.9505,44.05").contains("within 30 m of US 9"));
  }

  @Test
  void aPointAtACrossingAsksWhichRoad() {
    assertTrue(refusal(",,,,-93.02,44").contains("a point clearly on one road; write one of: "));
    assertEquals("Mill Road", placed("Mill Road,,,,-93.02,44", "1").place().routeId());
  }

  @Test
  void aPointOffTheRoadIsRefusedWithTheNearest() {
    String text = refusal(",,,,-93.05,44.01");
    assertTrue(
        text.contains("expected a point within 30 m of a road; nearest: SR 12 milepost"), text);
    assertTrue(text.contains("(1.1 km)"), text);
    assertTrue(refusal(",,,,10,10").contains("none is within 5 km"));
  }

  @Test
  void coordinatesThatContradictTheMilepostAreRefused() {
    assertEquals("SR 12", placed("SR 12,,2.6,,-93.0478,44.0001", "1").place().routeId());
    String text = refusal("SR 12,,2.6,,-93.02,44.0001");
    assertTrue(
        text.contains("expected coordinates within 100 m of milepost 2.6 (they are 2.2 km away)"),
        text);
  }

  @Test
  void aLaneTheRoadDoesNotHaveIsRefused() {
    EventLocator narrow =
        new EventLocator(county.network, county.locator, (route, along) -> OptionalInt.of(2));
    String text =
        """
        id,route,milepost,lane,kind,severity,length_m,width_m,depth_mm,found_on
        D1,SR 12,1,R3,pothole,low,1,1,50,2026-01-01
        D2,SR 12,1,R2,pothole,low,1,1,50,2026-01-01
        """;
    Read<RawDefect> raw =
        DefectReader.read(
            SmallCounty.write(folder, "d.csv", text), FieldMap.NONE, LocalDate.of(2026, 5, 1));
    assertEquals(
        "d.csv:2 lane: found 'R3', expected a lane of the road, which has 2 here",
        SmallCounty.texts(narrow.defects(raw, Set.of()).problems()));
    assertEquals(
        "d.csv:3 id: found 'D2', expected an id that is not in the store yet",
        narrow.defects(raw, Set.of("D2")).problems().get(1).text());
  }

  @Test
  void aFindingsSideIsToldByItsPointWhenThePointTells() {
    String text =
        """
        kind,route,milepost,longitude,latitude,side,found_on
        sign,,,-93.05,44.0001,,2026-01-01
        sign,,,-93.05,43.9999,,2026-01-01
        sign,,,-93.05,44.00001,,2026-01-01
        culvert,SR 12,3,,,left,2026-01-01
        """;
    Read<Finding> read =
        county.events.findings(
            FindingReader.read(
                SmallCounty.write(folder, "f.csv", text), FieldMap.NONE, LocalDate.of(2026, 5, 1)),
            Set.of());
    // SR 12 is drawn from west to east, so north of it is left.
    assertEquals(Side.LEFT, read.rows().get(0).side());
    assertEquals(Side.RIGHT, read.rows().get(1).side());
    assertEquals("side", read.problems().get(0).field());
    assertEquals(4, read.problems().get(0).line());
  }

  @Test
  void factsCoverTheWholeRoadWhenNoMilepostsAreGiven() {
    String text =
        """
        route,direction,milepost_from,milepost_to,name,value
        SR 12,,,,aadt,3000
        SR 12,,2.6,0,surface,asphalt
        SR 12,,1,1,surface,asphalt
        US 9,,,,lanes,2
        """;
    Read<RoadAttribute> read =
        county.events.attributes(
            AttributeReader.read(SmallCounty.write(folder, "a.csv", text), FieldMap.NONE));
    RoadAttribute whole = read.rows().get(0);
    assertEquals(0, whole.fromAlongM());
    assertEquals(county.network.routes().get("SR 12").lengthM(), whole.toAlongM());
    assertEquals(0, read.rows().get(1).fromAlongM());
    assertEquals(4184.3, read.rows().get(1).toAlongM(), 1e-6);
    assertEquals(2, read.problems().size());
    assertEquals(4, read.rowsSeen());
  }
}
