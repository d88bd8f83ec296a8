package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

class RoadAttributesTest {

  private static RoadAttribute posted(double from, double to, String kmh) {
    return new RoadAttribute("SR 1", from, to, "posted_speed_kmh", kmh, LocalDate.EPOCH, null);
  }

  @Test
  void theStretchThatStartsLastWinsWhereTwoOverlap() {
    // Given a whole road at 90 km/h with a village at 50 in its middle
    RoadAttributes roads =
        new RoadAttributes(List.of(posted(0, 10_000, "90"), posted(4_000, 5_000, "50")));
    // then each place has the closer statement
    assertEquals(90, speed(roads, 3_999));
    assertEquals(50, speed(roads, 4_500));
    assertEquals(90, speed(roads, 5_001));
  }

  @Test
  void nothingIsKnownOutsideTheStretchesOrOfAnotherRoute() {
    RoadAttributes roads = new RoadAttributes(List.of(posted(100, 200, "50")));
    assertTrue(roads.number("SR 1", 99, AttributeName.POSTED_SPEED_KMH).isEmpty());
    assertTrue(roads.number("SR 1", 201, AttributeName.POSTED_SPEED_KMH).isEmpty());
    assertTrue(roads.number("SR 2", 150, AttributeName.POSTED_SPEED_KMH).isEmpty());
  }

  @Test
  void aStretchThatHasEndedNoLongerHolds() {
    RoadAttribute ended =
        new RoadAttribute(
            "SR 1", 0, 100, "one_way", "yes", LocalDate.EPOCH, LocalDate.of(2020, 1, 1));
    assertFalse(new RoadAttributes(List.of(ended)).flag("SR 1", 50, AttributeName.ONE_WAY));
  }

  private static double speed(RoadAttributes roads, double along) {
    return roads.number("SR 1", along, AttributeName.POSTED_SPEED_KMH).orElseThrow();
  }

  @Test
  void manyNestedStretchesAgreeWithAPlainScan() {
    // Given random nested stretches, when read anywhere, then a plain scan gives the same
    java.util.SplittableRandom random = new java.util.SplittableRandom(7);
    java.util.List<RoadAttribute> rows = new java.util.ArrayList<>();
    for (int i = 0; i < 60; i++) {
      double from = i * 10;
      rows.add(posted(from, from + random.nextDouble(300), String.valueOf(i)));
    }
    RoadAttributes roads = new RoadAttributes(rows);
    double[] got = new double[200];
    double[] wanted = new double[200];
    for (int k = 0; k < 200; k++) {
      double along = random.nextDouble(900);
      got[k] = roads.number("SR 1", along, AttributeName.POSTED_SPEED_KMH).orElse(-1);
      wanted[k] =
          rows.stream()
              .filter(r -> r.fromAlongM() <= along && along <= r.toAlongM())
              .mapToDouble(r -> Double.parseDouble(r.value()))
              .max()
              .orElse(-1);
    }
    assertArrayEquals(wanted, got);
  }
}
