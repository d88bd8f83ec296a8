package lanemend.renewal.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Entered;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Lane;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.MilepostMap;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import org.junit.jupiter.api.Test;

class ExposureBuilderTest {
  private static final double CELL = 160.9344;
  private static final LocalDate FROM = LocalDate.of(2010, 1, 1);
  private static final LocalDate TO = LocalDate.of(2020, 1, 1);

  /** Mileposts play no part here: cells are cut by along. */
  private static final MilepostMap NO_POSTS =
      new MilepostMap() {
        @Override
        public Milepost at(double alongM) {
          return Milepost.of(alongM / 1609.344);
        }

        @Override
        public MilepostLookup find(Milepost milepost) {
          return new MilepostLookup.Found(milepost.miles() * 1609.344);
        }

        @Override
        public boolean calibrated() {
          return false;
        }

        @Override
        public List<CalibrationPost> posts() {
          return List.of();
        }
      };

  private static Route road(double lengthM) {
    CenterlinePart part =
        new CenterlinePart(
            new double[] {0, lengthM}, new double[] {0, 0}, new double[] {0, lengthM});
    return new Route(
        "SR 7",
        "SR 7",
        "",
        RoadClass.COLLECTOR,
        List.of(part),
        NO_POSTS,
        new Edition(1, LocalDate.EPOCH, null));
  }

  private static RoadAttribute surfaced(double from, double to, String year) {
    return new RoadAttribute("SR 7", from, to, "last_surfacing", year, LocalDate.EPOCH, null);
  }

  private static RoadAttribute twoLanes() {
    return new RoadAttribute("SR 7", 0, 1e6, "lanes", "2", LocalDate.EPOCH, null);
  }

  private static PastPatch work(
      String id, String work, double from, double to, String lane, LocalDate on, Double tonnes) {
    Place place = new Place("SR 7", from, to, 0, 0, Entered.byMilepost("SR 7", "0", null));
    Lane in = lane == null ? null : Lane.parse(lane).orElseThrow();
    return new PastPatch(id, work, place, in, on, tonnes, null, null);
  }

  private static Exposure build(
      double lengthM, List<RoadAttribute> attributes, List<PastPatch> patches) {
    return ExposureBuilder.build(
        List.of(road(lengthM)),
        new RoadAttributes(attributes),
        patches,
        new Families(List.of()),
        List.of(),
        ExposureSettings.standard(FROM, TO));
  }

  @Test
  void recordsThatStartLateCutTheFirstYearsOfTheSurface() {
    // Given one cell surfaced in 2000 (its middle, by the rule) and records 2010 to 2019
    Exposure e = build(CELL, List.of(twoLanes(), surfaced(0, CELL, "2000")), List.of());
    CellHistories h = e.histories();
    // then each of its two lanes was watched from age 9.5 to age 19.5
    assertEquals(2, h.size());
    assertEquals("L1", h.cell(0).lane());
    assertEquals("R1", h.cell(1).lane());
    assertEquals(9.5, h.fromAge(h.firstSpell(0)), 0.01);
    assertEquals(19.5, h.toAge(h.firstSpell(0)), 0.01);
    assertEquals(19.5, h.ageNow(0), 0.01);
    assertEquals(10.0, h.yearsWatched(1), 0.01);
  }

  @Test
  void aResurfacingStartsTheAgeAnewInItsLaneOnly() {
    // Given a resurfacing of the right lane on 2015-01-01 and repairs before and after it
    Exposure e =
        build(
            CELL,
            List.of(twoLanes(), surfaced(0, CELL, "2000")),
            List.of(
                work("a", "blade patch", 10, 40, "R1", LocalDate.of(2014, 1, 1), 8.0),
                work("b", "Resurfacing", 0, CELL, "R1", LocalDate.of(2015, 1, 1), 90.0),
                work("c", "hand_patch", 50, 50, "R1", LocalDate.of(2016, 1, 1), null)));
    CellHistories h = e.histories();
    int right = 1;
    // then the right lane has two spells, and the second repair is one year old, not sixteen
    assertEquals(2, h.firstSpell(2) - h.firstSpell(1));
    assertEquals(0, h.fromAge(h.firstSpell(right) + 1));
    assertEquals(5.0, h.ageNow(right), 0.01);
    assertEquals(13.5, h.repairAge(h.firstRepair(right)), 0.01);
    assertEquals(1.0, h.repairAge(h.firstRepair(right) + 1), 0.01);
    assertTrue(Double.isNaN(h.repairTonnes(h.firstRepair(right) + 1)));
    // and the left lane keeps its one spell
    assertEquals(1, h.firstSpell(1) - h.firstSpell(0));
    assertEquals(10, h.yearsWatched(0), 0.01);
    assertEquals(10, h.yearsWatched(1), 0.01);
  }

  @Test
  void aShortGapBetweenEqualYearsIsInferredAndALongOneAsked() {
    // Given 30 cells: 2005, two cells without a year, 2005, then ten cells without, then 2012
    List<RoadAttribute> attributes =
        List.of(
            twoLanes(),
            surfaced(0, 5 * CELL, "2005"),
            surfaced(7 * CELL, 12 * CELL, "2005"),
            surfaced(22 * CELL, 30 * CELL, "2012"));
    List<PastPatch> patches =
        List.of(
            work("in gap", "hand_patch", 6 * CELL, 6 * CELL, "R1", LocalDate.of(2015, 1, 1), 1.0),
            work("asked", "hand_patch", 15 * CELL, 15 * CELL, "R1", LocalDate.of(2015, 1, 1), 1.0));
    Exposure e = build(30 * CELL, attributes, patches);
    // then the two cells (under half a mile, equal neighbours) are inferred with the rule said
    assertEquals(1, e.inferred().size());
    assertEquals(2005, e.inferred().get(0).year());
    assertEquals(2 * CELL, e.inferred().get(0).toAlongM() - e.inferred().get(0).fromAlongM(), 1e-6);
    // and the ten cells are one question, their repair left out by name
    assertEquals(1, e.toAsk().size());
    assertEquals(1, e.toAsk().get(0).repairs());
    assertEquals(10 * CELL, e.toAsk().get(0).toAlongM() - e.toAsk().get(0).fromAlongM(), 1e-6);
    assertEquals("asked", e.unused().get(0).patchId());
    assertEquals(1, e.histories().allRepairs());
  }

  @Test
  void unequalNeighboursAreAskedHoweverShortTheGap() {
    List<RoadAttribute> attributes =
        List.of(twoLanes(), surfaced(0, 5 * CELL, "2005"), surfaced(6 * CELL, 9 * CELL, "2006"));
    Exposure e = build(9 * CELL, attributes, List.of());
    assertTrue(e.inferred().isEmpty());
    assertEquals(1, e.toAsk().size());
  }

  @Test
  void aDatedResurfacingOfTheAttributesYearIsTheSameSurfacing() {
    // Given the attribute says 2015 and the records hold that very job, of April
    Exposure e =
        build(
            CELL,
            List.of(twoLanes(), surfaced(0, CELL, "2015")),
            List.of(work("r", "resurfacing", 0, CELL, null, LocalDate.of(2015, 4, 1), null)));
    // then there is one spell from April 2015 and the years before it count for nothing
    assertEquals(2, e.histories().firstSpell(2));
    assertEquals(4.75, e.histories().ageNow(0), 0.01);
    assertEquals(4.75, e.histories().yearsWatched(0), 0.01);
  }

  @Test
  void everyPastPatchIsCountedOrNamed() {
    // Given work of every sort
    List<PastPatch> patches = new ArrayList<>();
    patches.add(work("ok", "hand_patch", 5, 5, "R1", LocalDate.of(2012, 1, 1), 1.0));
    patches.add(work("no lane", "hand_patch", 5, 5, null, LocalDate.of(2012, 1, 1), 1.0));
    patches.add(work("lane 4", "hand_patch", 5, 5, "R4", LocalDate.of(2012, 1, 1), 1.0));
    patches.add(work("crack", "crack treatment", 5, 5, "R1", LocalDate.of(2012, 1, 1), 0.0));
    patches.add(work("shoulder", "hand_patch", 5, 5, "R0", LocalDate.of(2012, 1, 1), 1.0));
    patches.add(work("early", "hand_patch", 5, 5, "R1", LocalDate.of(2009, 12, 31), 1.0));
    patches.add(work("late", "hand_patch", 5, 5, "R1", LocalDate.of(2020, 1, 1), 1.0));
    patches.add(work("tiny", "resurfacing", 0, 20, "R1", LocalDate.of(2012, 1, 1), 1.0));
    Exposure e = build(CELL, List.of(twoLanes(), surfaced(0, CELL, "2000")), patches);
    // then three count (two under a remark), five are named
    assertEquals(3, e.histories().allRepairs());
    assertEquals(
        List.of("crack", "shoulder", "early", "late", "tiny"),
        e.unused().stream().map(Exposure.Unused::patchId).toList());
    assertEquals(2, e.remarks().size());
  }

  @Test
  void aLongPatchCountsInEachCellItCoversByHalfAndSharesItsTonnes() {
    // Given a patch from 0.5 to 2.5 cells: half of cell 0, all of cell 1, half of cell 2
    Exposure e =
        build(
            3 * CELL,
            List.of(twoLanes(), surfaced(0, 3 * CELL, "2000")),
            List.of(
                work(
                    "long",
                    "blade_patch",
                    0.5 * CELL,
                    2.5 * CELL,
                    "R1",
                    LocalDate.of(2012, 1, 1),
                    40.0)));
    CellHistories h = e.histories();
    // then 10, 20 and 10 tonnes
    assertEquals(3, h.allRepairs());
    assertEquals(10, h.repairTonnes(h.firstRepair(1)), 1e-9);
    assertEquals(20, h.repairTonnes(h.firstRepair(3)), 1e-9);
    assertEquals(10, h.repairTonnes(h.firstRepair(5)), 1e-9);
  }

  @Test
  void whereRoutesRunTogetherThePavementCountsOnce() {
    // Given SR 7 of ten cells along x, and SR 9 that runs its last four cells the other way and
    // then turns off for three of its own
    Route first = road("SR 7", new double[] {0, 6 * CELL, 10 * CELL}, new double[] {0, 0, 0});
    Route second =
        road("SR 9", new double[] {10 * CELL, 6 * CELL, 6 * CELL}, new double[] {0, 0, 3 * CELL});
    List<RoadAttribute> attributes = new ArrayList<>();
    for (String id : List.of("SR 7", "SR 9")) {
      attributes.add(new RoadAttribute(id, 0, 1e6, "lanes", "2", LocalDate.EPOCH, null));
      attributes.add(
          new RoadAttribute(id, 0, 1e6, "last_surfacing", "2000", LocalDate.EPOCH, null));
    }
    // when a repair in SR 9's right lane, one and a half cells from its start, is recorded
    Place place =
        new Place("SR 9", 1.5 * CELL, 1.5 * CELL, 0, 0, Entered.byMilepost("SR 9", "0", null));
    PastPatch patch =
        new PastPatch(
            "p",
            "hand_patch",
            place,
            Lane.parse("R1").orElseThrow(),
            LocalDate.of(2015, 1, 1),
            1.0,
            null,
            null);
    CellHistories h =
        ExposureBuilder.build(
                List.of(first, second),
                new RoadAttributes(attributes),
                List.of(patch),
                new Families(List.of()),
                List.of(),
                ExposureSettings.standard(FROM, TO))
            .histories();
    // then there are 10 + 3 cells of two lanes, and the repair is SR 7's, in the lane on the other
    // hand of the cell 8.5 from its start
    assertEquals(26, h.size());
    for (int i = 0; i < h.size(); i++) {
      boolean here =
          h.cell(i).routeId().equals("SR 7")
              && h.cell(i).number() == 8
              && h.cell(i).lane().equals("L1");
      assertEquals(here ? 1 : 0, h.repairs(i), h.cell(i).toString());
    }
  }

  private static Route road(String id, double[] x, double[] y) {
    double[] along = new double[x.length];
    for (int k = 1; k < x.length; k++) {
      along[k] = along[k - 1] + Math.hypot(x[k] - x[k - 1], y[k] - y[k - 1]);
    }
    return new Route(
        id,
        id,
        "",
        RoadClass.COLLECTOR,
        List.of(new CenterlinePart(x, y, along)),
        NO_POSTS,
        new Edition(1, LocalDate.EPOCH, null));
  }

  @Test
  void familiesAreBandsAndCategoriesOfAttributes() {
    RoadAttributes attributes =
        new RoadAttributes(
            List.of(
                new RoadAttribute("SR 7", 0, 99, "surface", "chip", LocalDate.EPOCH, null),
                new RoadAttribute("SR 7", 0, 50, "aadt", "1000", LocalDate.EPOCH, null),
                new RoadAttribute("SR 7", 51, 60, "aadt", "70", LocalDate.EPOCH, null)));
    Families families = Families.surfaceByTraffic();
    assertEquals("surface chip, aadt 1000-5000", families.at("SR 7", 10, attributes));
    assertEquals("surface chip, aadt under 1000", families.at("SR 7", 55, attributes));
    assertEquals("surface chip, aadt unknown", families.at("SR 7", 70, attributes));
  }
}
