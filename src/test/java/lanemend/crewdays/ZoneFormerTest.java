package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Work zones: the exact cut against every cut there is. */
class ZoneFormerTest {

  /** Made-up costs of spans, some infinite. */
  private static ZoneFormer.ZoneCost random(Random random, int n) {
    double[][] zone = new double[n + 1][n + 1];
    double[] link = new double[n + 1];
    for (int i = 0; i < n; i++) {
      link[i] = random.nextInt(20);
      for (int j = i + 1; j <= n; j++) {
        boolean alone = j == i + 1;
        zone[i][j] =
            !alone && random.nextInt(4) == 0
                ? Double.POSITIVE_INFINITY
                : 10 + random.nextInt(30) * Math.sqrt(j - i);
      }
    }
    return new ZoneFormer.ZoneCost() {
      @Override
      public double zone(int from, int to) {
        return zone[from][to];
      }

      @Override
      public double link(int at) {
        return link[at];
      }

      @Override
      public boolean hopeless(int from, int to) {
        return false;
      }
    };
  }

  private static double cost(List<int[]> cut, ZoneFormer.ZoneCost cost) {
    double sum = 0;
    for (int[] span : cut) {
      sum += (span[0] == 0 ? 0 : cost.link(span[0])) + cost.zone(span[0], span[1]);
    }
    return sum;
  }

  /** Every way to cut n repairs, by the bits of a number. */
  private static double leastOfAll(int n, ZoneFormer.ZoneCost cost) {
    double least = Double.POSITIVE_INFINITY;
    for (int bits = 0; bits < 1 << (n - 1); bits++) {
      List<int[]> cut = new ArrayList<>();
      int from = 0;
      for (int i = 1; i <= n; i++) {
        if (i == n || (bits >> (i - 1) & 1) != 0) {
          cut.add(new int[] {from, i});
          from = i;
        }
      }
      least = Math.min(least, cost(cut, cost));
    }
    return least;
  }

  @Test
  void theCutIsTheCheapestOfAllCuts() {
    Random random = new Random(11);
    for (int trial = 0; trial < 300; trial++) {
      int n = 1 + random.nextInt(12);
      ZoneFormer.ZoneCost cost = random(random, n);
      List<int[]> cut = ZoneFormer.cut(n, cost);
      assertEquals(leastOfAll(n, cost), cost(cut, cost), 1e-9, "trial " + trial);
      assertEquals(0, cut.get(0)[0]);
      assertEquals(n, cut.get(cut.size() - 1)[1]);
    }
  }

  @Test
  void aRepairThatFitsNoZoneIsRefused() {
    ZoneFormer.ZoneCost none =
        new ZoneFormer.ZoneCost() {
          @Override
          public double zone(int from, int to) {
            return Double.POSITIVE_INFINITY;
          }

          @Override
          public double link(int at) {
            return 0;
          }

          @Override
          public boolean hopeless(int from, int to) {
            return false;
          }
        };
    assertThrows(IllegalArgumentException.class, () -> ZoneFormer.cut(2, none));
  }

  /** The whole shaper, with real zone costs, against every cut; hopeless spans are cut off. */
  @Test
  void zonesOfRealRepairsAreTheCheapestOfAllCuts() {
    Random random = new Random(3);
    Agency agency = TestCounty.agency();
    Zones zoning = new Zones(agency.plan(), TestCounty.CONES);
    for (int trial = 0; trial < 20; trial++) {
      List<PatchDesign> row = new ArrayList<>();
      int n = 2 + random.nextInt(9);
      for (int i = 0; i < n; i++) {
        row.add(
            TestCounty.repair(
                "D" + i,
                "SR 1",
                Side.RIGHT,
                random.nextInt(3000),
                20,
                random.nextBoolean() ? Treatment.HAND_PATCH : Treatment.CRACK_TREATMENT,
                0.4,
                30 + random.nextInt(100)));
      }
      row.sort(Zones.ALONG);
      Map<String, Integer> places = new HashMap<>();
      row.forEach(r -> places.put(r.defect().id(), places.size()));
      CountyLegs legs =
          CountyLegs.of(
              TestCounty.CROW, agency, row.stream().map(r -> r.defect().place()).toList());
      CrewFit fit = new CrewFit(agency, CrewKind.all(agency), new CrewCalendar(agency), legs);
      ZoneShaper shaper = new ZoneShaper(agency, zoning, fit);
      ZoneFormer.ZoneCost cost = shaper.rowCost(row, places);
      List<WorkZone> zones = shaper.shape(row, places);
      List<int[]> cut = new ArrayList<>();
      int from = 0;
      for (WorkZone zone : zones) {
        cut.add(new int[] {from, from + zone.repairs().size()});
        from += zone.repairs().size();
      }
      assertEquals(leastOfAll(n, cost), cost(cut, cost), 1e-9, "trial " + trial);
    }
  }

  @Test
  void patchesCloseTogetherShareASetUpAndFarOnesDoNot() {
    List<WorkZone> zones = zones(100, 130, 700, 5000, 5100);
    assertEquals(2, zones.size());
    assertArrayEquals(new int[] {3, 2}, zones.stream().mapToInt(z -> z.repairs().size()).toArray());
    // 20 up + 3 x 45 + shifts (3 + 20 m and 3 + 560 m at 8 km/h) + 15 down.
    double shifts = 6 + (20 + 560) / (8000 / 60.0);
    assertEquals(20 + 135 + shifts + 15, zones.get(0).workMinutes(), 1e-9);
    assertEquals(610, zones.get(0).lengthM(), 1e-9);
  }

  @Test
  void theLongestZoneOfTheRoadClassIsKept() {
    for (WorkZone zone : zones(0, 200, 400, 600, 780, 800, 1000)) {
      assertTrue(zone.lengthM() <= 800);
    }
  }

  @Test
  void workTooLongForADayIsSplit() {
    // Eight patches of 120 minutes on 200 m cannot be one day of 600 minutes.
    List<PatchDesign> row = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      row.add(
          TestCounty.repair(
              "D" + i, "SR 1", Side.RIGHT, 25 * i, 10, Treatment.CRACK_TREATMENT, 0, 120));
    }
    List<WorkZone> zones = shape(row);
    assertEquals(2, zones.size());
    assertTrue(zones.stream().allMatch(z -> z.workMinutes() <= 600));
  }

  private static List<WorkZone> zones(double... alongM) {
    List<PatchDesign> row = new ArrayList<>();
    for (double along : alongM) {
      row.add(TestCounty.repair("D" + row.size(), along, Treatment.CRACK_TREATMENT, 0));
    }
    return shape(row);
  }

  private static List<WorkZone> shape(List<PatchDesign> row) {
    Agency agency = TestCounty.agency();
    CountyLegs legs =
        CountyLegs.of(TestCounty.CROW, agency, row.stream().map(r -> r.defect().place()).toList());
    CrewFit fit = new CrewFit(agency, CrewKind.all(agency), new CrewCalendar(agency), legs);
    Map<String, Integer> places = new HashMap<>();
    row.forEach(r -> places.put(r.defect().id(), places.size()));
    return new ZoneShaper(agency, new Zones(agency.plan(), TestCounty.CONES), fit)
        .shape(row, places);
  }
}
