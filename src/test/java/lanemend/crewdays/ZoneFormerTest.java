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

  private static double cost(List<ZoneFormer.Span> cut, ZoneFormer.ZoneCost cost) {
    double sum = 0;
    for (ZoneFormer.Span span : cut) {
      sum += alone(span.rightFrom(), span.rightTo(), cost);
    }
    return sum;
  }

  /** A zone of one side with the drive to it; 0 where there is none. */
  private static double alone(int from, int to, ZoneFormer.ZoneCost cost) {
    return from == to ? 0 : drive(from, cost) + cost.zone(from, to);
  }

  private static double drive(int at, ZoneFormer.ZoneCost cost) {
    return at == 0 ? 0 : cost.link(at);
  }

  /** Every way to cut n repairs, by the bits of a number. */
  private static double leastOfAll(int n, ZoneFormer.ZoneCost cost) {
    double least = Double.POSITIVE_INFINITY;
    for (int bits = 0; bits < 1 << (n - 1); bits++) {
      List<ZoneFormer.Span> cut = new ArrayList<>();
      int from = 0;
      for (int i = 1; i <= n; i++) {
        if (i == n || (bits >> (i - 1) & 1) != 0) {
          cut.add(new ZoneFormer.Span(from, i, 0, 0));
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
      List<ZoneFormer.Span> cut = ZoneFormer.cut(n, cost);
      assertEquals(leastOfAll(n, cost), cost(cut, cost), 1e-9, "trial " + trial);
      assertEquals(0, cut.get(0).rightFrom());
      assertEquals(n, cut.get(cut.size() - 1).rightTo());
    }
  }

  /** Places of two rows and made-up costs of zones of both sides, some infinite. */
  private record Sides(
      double[] rightM, double[] leftM, double reachM, Map<ZoneFormer.Span, Double> of)
      implements ZoneFormer.BothCost {

    /** Given rows along one road, zones of either kind no longer than the reach. */
    static Sides random(Random random, int rights, int lefts) {
      double[] r = random.doubles(rights, 0, 100).sorted().toArray();
      double[] l = random.doubles(lefts, 0, 100).sorted().toArray();
      double reach = 10 + random.nextInt(60);
      Map<ZoneFormer.Span, Double> of = new HashMap<>();
      for (int i = 0; i < rights; i++) {
        for (int j = 0; j < lefts; j++) {
          for (int to = i + 1; to <= rights; to++) {
            for (int end = j + 1; end <= lefts; end++) {
              double length = Math.max(r[to - 1], l[end - 1]) - Math.min(r[i], l[j]);
              boolean zone = length <= reach && random.nextInt(5) > 0;
              of.put(
                  new ZoneFormer.Span(i, to, j, end),
                  zone ? 5 + random.nextInt(60) : Double.POSITIVE_INFINITY);
            }
          }
        }
      }
      return new Sides(r, l, reach, of);
    }

    static ZoneFormer.ZoneCost row(Random random, double[] atM, double reachM) {
      ZoneFormer.ZoneCost made = ZoneFormerTest.random(random, atM.length);
      return new ZoneFormer.ZoneCost() {
        @Override
        public double zone(int from, int to) {
          return made.zone(from, to);
        }

        @Override
        public double link(int at) {
          return made.link(at);
        }

        @Override
        public boolean hopeless(int from, int to) {
          return atM[to - 1] - atM[from] > reachM;
        }
      };
    }

    @Override
    public double zone(ZoneFormer.Span span, double apart) {
      return of.get(span);
    }

    @Override
    public boolean hopeless(ZoneFormer.Span span) {
      return Math.max(rightM[span.rightTo() - 1], leftM[span.leftTo() - 1])
              - Math.min(rightM[span.rightFrom()], leftM[span.leftFrom()])
          > reachM;
    }

    @Override
    public boolean leftBeyond(int right, int left) {
      return leftM[left] > rightM[right] + reachM;
    }

    @Override
    public boolean rightBeyond(int left, int right) {
      return rightM[right] > leftM[left] + reachM;
    }
  }

  /** Every way to cut what is left of two rows into zones of one side and of both. */
  private static double leastOfAll(
      int i, int j, ZoneFormer.ZoneCost right, ZoneFormer.ZoneCost left, Sides both) {
    int rights = both.rightM().length;
    int lefts = both.leftM().length;
    if (i == rights && j == lefts) {
      return 0;
    }
    double least = Double.POSITIVE_INFINITY;
    for (int to = i; to <= rights; to++) {
      for (int end = j; end <= lefts; end++) {
        double zone = zone(new ZoneFormer.Span(i, to, j, end), right, left, both);
        if (zone < Double.POSITIVE_INFINITY) {
          least = Math.min(least, zone + leastOfAll(to, end, right, left, both));
        }
      }
    }
    return least;
  }

  /** One zone with the drives to it; infinite where it is none. */
  private static double zone(
      ZoneFormer.Span s, ZoneFormer.ZoneCost right, ZoneFormer.ZoneCost left, Sides both) {
    boolean ofRight = s.rightTo() > s.rightFrom();
    boolean ofLeft = s.leftTo() > s.leftFrom();
    if (ofRight && ofLeft) {
      return drive(s.rightFrom(), right) + drive(s.leftFrom(), left) + both.zone(s, 0);
    }
    if ((!ofRight && !ofLeft)
        || (ofRight && right.hopeless(s.rightFrom(), s.rightTo()))
        || (ofLeft && left.hopeless(s.leftFrom(), s.leftTo()))) {
      return Double.POSITIVE_INFINITY;
    }
    return alone(s.rightFrom(), s.rightTo(), right) + alone(s.leftFrom(), s.leftTo(), left);
  }

  @Test
  void theCutOfTwoSidesIsTheCheapestOfAllCuts() {
    Random random = new Random(12);
    int joined = 0;
    for (int trial = 0; trial < 300; trial++) {
      int rights = 1 + random.nextInt(5);
      int lefts = 1 + random.nextInt(5);
      Sides both = Sides.random(random, rights, lefts);
      ZoneFormer.ZoneCost right = Sides.row(random, both.rightM(), both.reachM());
      ZoneFormer.ZoneCost left = Sides.row(random, both.leftM(), both.reachM());

      List<ZoneFormer.Span> cut = ZoneFormer.cut(rights, right, lefts, left, both);

      double sum = 0;
      int i = 0;
      int j = 0;
      for (ZoneFormer.Span span : cut) {
        // then each row is cut from its start to its end
        assertEquals(i, span.rightFrom());
        assertEquals(j, span.leftFrom());
        i = span.rightTo();
        j = span.leftTo();
        sum += zone(span, right, left, both);
        joined += span.rightTo() > span.rightFrom() && span.leftTo() > span.leftFrom() ? 1 : 0;
      }
      assertEquals(rights, i);
      assertEquals(lefts, j);
      assertEquals(leastOfAll(0, 0, right, left, both), sum, 1e-9, "trial " + trial);
    }
    assertTrue(joined > 100, "zones of both sides: " + joined);
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
      List<ZoneFormer.Span> cut = new ArrayList<>();
      int from = 0;
      for (WorkZone zone : zones) {
        cut.add(new ZoneFormer.Span(from, from + zone.repairs().size(), 0, 0));
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
