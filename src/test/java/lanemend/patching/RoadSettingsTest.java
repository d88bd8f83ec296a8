package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import org.junit.jupiter.api.Test;

class RoadSettingsTest {
  private static final double KMH_PER_MPH = 1.609344;

  private static Route road(String direction, RoadClass roadClass) {
    return new Route(
        ("SR 4 " + direction).strip(),
        "SR 4",
        direction,
        roadClass,
        List.of(
            new CenterlinePart(
                new double[] {0, 5_000}, new double[] {0, 0}, new double[] {0, 5_000})),
        PiecewiseMileposts.uncalibrated(5_000),
        new Edition(1, LocalDate.EPOCH, null));
  }

  private static RoadAttribute fact(String name, String value) {
    return new RoadAttribute("SR 4", 0, 5_000, name, value, LocalDate.EPOCH, null);
  }

  @Test
  void whatIsRecordedIsTakenAndNothingIsAssumed() {
    // Given a road of which everything is known
    RoadSettings known =
        new RoadSettings(
            new RoadAttributes(
                List.of(
                    fact("posted_speed_kmh", "88.5"),
                    fact("lanes", "3"),
                    fact("lane_width_m", "3.35"),
                    fact("shoulder_width_m", "1.8"),
                    fact("aadt", "2350"),
                    fact("truck_share", "0.12"),
                    fact("urban", "yes"))));
    RoadSetting at = known.at(road("", RoadClass.ARTERIAL), 2_000);
    assertEquals(88.5, at.postedKmh());
    assertEquals(3, at.lanes());
    assertEquals(2350, at.aadt());
    assertTrue(at.urban());
    assertFalse(at.oneDirection());
    assertEquals(List.of(), at.assumed());
  }

  @Test
  void whatIsNotRecordedIsTheUsualOfTheClassAndIsSaid() {
    // Given a local road of which nothing is known, then 35 mph (common practice, no source) is
    // taken, and the sheet can say each of the six things assumed
    RoadSetting at =
        new RoadSettings(new RoadAttributes(List.of())).at(road("", RoadClass.LOCAL), 2_000);
    assertEquals(35 * KMH_PER_MPH, at.postedKmh(), 1e-9);
    assertEquals(6, at.assumed().size(), at.assumed().toString());
    assertTrue(at.assumed().contains("posted speed 35 mph (56 km/h)"), at.assumed().toString());
    assertTrue(at.assumed().contains("300 vehicles/day"), at.assumed().toString());
  }

  @Test
  void aRoadwayOfADividedRoadRunsInOneDirection() {
    assertTrue(
        new RoadSettings(new RoadAttributes(List.of()))
            .at(road("NB", RoadClass.FREEWAY), 0)
            .oneDirection());
  }
}
