package lanemend.crewdays;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.Edition;
import lanemend.network.HaulGraph;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.TravelRules;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/** Crew days over a real haul graph: a straight road of 40 km, 80 km/h. */
class HaulTest {
  private static final TravelRules EIGHTY =
      new TravelRules() {
        @Override
        public double speedKmh(Route route, double alongM) {
          return 80;
        }

        @Override
        public double speedKmh(Connector connector) {
          return 80;
        }

        @Override
        public boolean oneWay(Route route, double alongM) {
          return false;
        }

        @Override
        public boolean oneWay(Connector connector) {
          return false;
        }

        @Override
        public int level(Route route, double alongM) {
          return 0;
        }

        @Override
        public int level(Connector connector) {
          return 0;
        }

        @Override
        public double[] breaks(Route route) {
          return new double[0];
        }
      };

  private static Haul road() {
    CenterlinePart line =
        new CenterlinePart(new double[] {0, 40_000}, new double[] {0, 0}, new double[] {0, 40_000});
    Route route =
        new Route(
            "SR 1",
            "SR 1",
            "",
            RoadClass.COLLECTOR,
            List.of(line),
            PiecewiseMileposts.uncalibrated(40_000),
            new Edition(1, LocalDate.of(2020, 1, 1), null));
    Network network =
        new Network("test", new LinkedHashMap<>(Map.of(route.id(), route)), List.of());
    return Haul.over(HaulGraph.build(network, EIGHTY));
  }

  @Test
  void fromAndToStandInTheirOwnRowsAndColumns() {
    Haul.Place yard = new Haul.Place("yard", 0, 50, "", 0);
    Haul.Place near = new Haul.Place("near", 0, 0, "SR 1", 8_000);
    Haul.Place far = new Haul.Place("far", 0, 0, "SR 1", 32_000);
    Haul.Legs legs = road().between(List.of(yard), List.of(near, far));
    assertEquals(1, legs.minutes().length);
    // 8 and 32 km at 80 km/h.
    assertArrayEquals(new double[] {6, 24}, legs.minutes()[0], 1e-9);
    assertArrayEquals(new double[] {8, 32}, legs.km()[0], 1e-9);
  }

  @Test
  void aPlanOverTheRoadPassesTheChecker() {
    Agency agency = TestCounty.agency();
    List<PatchDesign> repairs =
        List.of(
            TestCounty.repair("D1", 4_995, Treatment.BLADE_PATCH, 20),
            TestCounty.repair("D2", 5_100, Treatment.HAND_PATCH, 0.6),
            TestCounty.repair("D3", 30_000, Treatment.CRACK_TREATMENT, 0));
    Haul haul = road();
    Plan plan =
        new CrewDayPlanner(haul, agency, TestCounty.CONES)
            .plan(repairs, SearchBudget.iterations(200, 1), PlanProgress.NONE)
            .plan();
    assertEquals(0, plan.leftOut().size());
    assertEquals(List.of(), new PlanChecker(agency, haul, TestCounty.CONES).check(plan, repairs));
  }
}
