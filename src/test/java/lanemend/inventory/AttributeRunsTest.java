package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import lanemend.network.Assembly;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.ConnectorRun;
import lanemend.network.LineRun;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import org.junit.jupiter.api.Test;

class AttributeRunsTest {

  private static RoadAttribute fact(
      String road, double from, double to, String name, String value) {
    return new RoadAttribute(road, from, to, name, value, LocalDate.EPOCH, null);
  }

  @Test
  void neighboursThatSayTheSameBecomeOneStretch() {
    // Given a route drawn in four lines, the third without a speed, and one haul road
    Connector lane =
        new Connector(
            "connector 1",
            "",
            RoadClass.LOCAL,
            new CenterlinePart(new double[] {0, 80}, new double[] {0, 0}, new double[] {0, 80}));
    Assembly assembly =
        new Assembly(
            new Network("", Map.of(), List.of(lane)),
            List.of(
                new LineRun("SR 1", 100, 250, Map.of("posted_speed_kmh", "90", "lanes", "2")),
                new LineRun("SR 1", 0, 100, Map.of("posted_speed_kmh", "90", "lanes", "2")),
                new LineRun("SR 1", 250, 300, Map.of("lanes", "2")),
                new LineRun("SR 1", 300, 400, Map.of("posted_speed_kmh", "90", "lanes", "3"))),
            List.of(new ConnectorRun("connector 1", Map.of("one_way", "yes"))),
            List.of());

    // when its facts are gathered, then equal neighbours are one and holes stay holes
    assertEquals(
        List.of(
            fact("SR 1", 0, 300, "lanes", "2"),
            fact("SR 1", 300, 400, "lanes", "3"),
            fact("SR 1", 0, 250, "posted_speed_kmh", "90"),
            fact("SR 1", 300, 400, "posted_speed_kmh", "90"),
            fact("connector 1", 0, 80, "one_way", "yes")),
        AttributeRuns.of(assembly));
  }
}
