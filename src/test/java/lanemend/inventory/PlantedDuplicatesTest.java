package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import lanemend.exchange.ClassMap;
import lanemend.exchange.DefectReader;
import lanemend.exchange.EventLocator;
import lanemend.exchange.FieldMap;
import lanemend.exchange.LaneCounts;
import lanemend.exchange.PostReader;
import lanemend.exchange.RoadReader;
import lanemend.exchange.RoadSource;
import lanemend.exchange.SpeedUnit;
import lanemend.network.Assembly;
import lanemend.network.Calibrator;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RouteAssembler;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Duplicates planted in the sample county: a second patrol sees three in ten of the defects again
 * and writes each down a little elsewhere (8 m, one standard deviation), a little larger or smaller
 * and sometimes as another severity. What it finds and what it proposes falsely is counted.
 */
class PlantedDuplicatesTest {
  private static Network network;
  private static Locator locator;
  private static List<Defect> found;

  @BeforeAll
  static void given() {
    Path folder = Path.of("sample-network");
    RoadSource roads =
        new RoadSource(
            folder.resolve("roads.geojson"),
            "",
            "",
            SpeedUnit.MPH,
            FieldMap.parse(
                List.of("class=road_class", "speed=posted_mph", "lane_width_ft=lane_ft")),
            ClassMap.parse(List.of()));
    Assembly assembly =
        RouteAssembler.assemble(RoadReader.read(roads).rows(), ProjectedCrs.utmFor(-107.5, 42));
    EventLocator bare = locatorOf(assembly.network());
    network =
        Calibrator.calibrate(
                assembly.network(),
                bare.posts(PostReader.read(folder.resolve("posts.csv"), FieldMap.NONE)).byRoute())
            .network();
    locator = new Locator(network);
    found =
        locatorOf(network)
            .defects(
                DefectReader.read(
                    folder.resolve("defects.csv"), FieldMap.NONE, LocalDate.of(2026, 12, 31)),
                Set.of())
            .rows();
  }

  private static EventLocator locatorOf(Network network) {
    return new EventLocator(network, new Locator(network), LaneCounts.UNKNOWN);
  }

  /** What the second patrol writes of a defect. */
  private static Defect again(Defect d, String id, Random random) {
    double shift = 8 * random.nextGaussian();
    double length = d.lengthM() * Math.exp(0.2 * random.nextGaussian());
    double middle =
        Math.max(
            length / 2,
            Math.min(
                network.routes().get(d.place().routeId()).lengthM() - length / 2,
                d.place().middleAlongM() + shift));
    Severity worse = d.severity() == Severity.LOW ? Severity.MEDIUM : Severity.HIGH;
    Severity severity = random.nextInt(5) == 0 ? worse : d.severity();
    return locator
        .pointAt(d.place().routeId(), middle, 0)
        .map(
            p ->
                new Defect(
                    id,
                    d.kind(),
                    severity,
                    new Place(
                        d.place().routeId(),
                        middle - length / 2,
                        middle + length / 2,
                        p.x(),
                        p.y(),
                        d.place().entered()),
                    d.lane(),
                    length,
                    d.widthM() * Math.exp(0.15 * random.nextGaussian()),
                    d.depthM(),
                    d.foundOn().plusDays(1 + random.nextInt(30)),
                    "Patrol 9",
                    "",
                    DefectStatus.OPEN,
                    ""))
        .orElse(d);
  }

  @Test
  void mostPlantedDuplicatesAreProposedAndLittleElse() {
    Random random = new Random(20);
    List<Defect> all = new ArrayList<>(found);
    Map<String, String> planted = new HashMap<>();
    for (Defect d : found) {
      if (d.status() == DefectStatus.OPEN && random.nextInt(10) < 3) {
        Defect again = again(d, "again-" + d.id(), random);
        planted.put(again.id(), d.id());
        all.add(again);
      }
    }
    Set<String> hit = new HashSet<>();
    List<DuplicatePair> wrong = new ArrayList<>();
    for (DuplicatePair p : new Duplicates(locator, DuplicateRules.STANDARD).find(all)) {
      if (p.keep().id().equals(planted.get(p.drop().id()))) {
        hit.add(p.drop().id());
      } else {
        wrong.add(p);
      }
    }
    // Measured: see docs/method.md
    double share = (double) hit.size() / planted.size();
    assertTrue(share >= 0.9, share + " of " + planted.size());
    assertTrue(wrong.size() <= planted.size() / 20, wrong.toString());
  }

  @Test
  void withoutDuplicatesNothingIsProposed() {
    assertEquals(List.of(), new Duplicates(locator, DuplicateRules.STANDARD).find(found));
  }
}
