package lanemend.inventory;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FactsInTimeTest {
  private static final LocalDate SPRING = LocalDate.of(2026, 3, 1);
  private static final LocalDate SUMMER = LocalDate.of(2026, 7, 1);
  private static final LocalDate AUTUMN = LocalDate.of(2026, 10, 1);

  private static RoadAttribute kmh(double from, double to, int value, LocalDate on, LocalDate end) {
    String text = String.valueOf(value);
    return new RoadAttribute("SR 1", from, to, "posted_speed_kmh", text, on, end);
  }

  private static String at(List<RoadAttribute> facts, double along, LocalDate day) {
    return new RoadAttributes(facts, day)
        .text("SR 1", along, AttributeName.POSTED_SPEED_KMH)
        .orElse("");
  }

  @Test
  void aFactThatIsToComeDoesNotHoldYet() {
    List<RoadAttribute> facts =
        List.of(kmh(0, 1_000, 90, null, null), kmh(200, 400, 50, AUTUMN, null));
    assertEquals("90", at(facts, 300, SUMMER));
    assertEquals("50", at(facts, 300, AUTUMN));
  }

  @Test
  void aLaterFactStandsInPlaceOfAnOlderAlsoWhereTheOlderStartsFartherAlong() {
    // Given an old village limit from 200 m on, and since summer another limit over all
    List<RoadAttribute> facts =
        List.of(kmh(200, 400, 50, SPRING, null), kmh(0, 1_000, 70, SUMMER, null));
    assertEquals("50", at(facts, 300, SPRING));
    assertEquals("70", at(facts, 300, SUMMER));
    // when both began together, the closer statement holds
    List<RoadAttribute> together =
        List.of(kmh(200, 400, 50, SPRING, null), kmh(0, 1_000, 70, SPRING, null));
    assertEquals("50", at(together, 300, SUMMER));
  }

  @Test
  void afterATimeOfItsOwnTheOlderFactHoldsAgain() {
    // Given a limit for the summer's work only
    List<RoadAttribute> facts =
        List.of(kmh(0, 1_000, 90, null, null), kmh(200, 400, 50, SUMMER, AUTUMN));
    assertEquals("50", at(facts, 300, SUMMER));
    assertEquals("90", at(facts, 300, AUTUMN));
  }

  @Test
  void cutFactsAgreeWithAReadingOfTheRulePlaceByPlace() {
    Random random = new Random(5);
    for (int round = 0; round < 300; round++) {
      List<RoadAttribute> facts = new ArrayList<>();
      for (int i = 0; i < 12; i++) {
        int from = random.nextInt(20);
        LocalDate on = SPRING.plusDays(random.nextInt(4));
        LocalDate end = random.nextInt(3) == 0 ? on.plusDays(2) : null;
        facts.add(kmh(from, from + 1 + random.nextInt(8), i, on, end));
      }
      LocalDate day = SPRING.plusDays(random.nextInt(6));
      RoadAttributes read = new RoadAttributes(facts, day);
      for (double along = 0.5; along < 30; along++) {
        double here = along;
        // Of what holds here, what began last; of those, what starts last; of those, the last said.
        Optional<RoadAttribute> wanted =
            facts.stream()
                .filter(f -> f.holdsOn(day) && f.fromAlongM() <= here && here <= f.toAlongM())
                .max(
                    Comparator.comparing(RoadAttribute::validFrom)
                        .thenComparingDouble(RoadAttribute::fromAlongM)
                        .thenComparingInt(facts::indexOf));
        assertEquals(
            wanted.map(RoadAttribute::value),
            read.text("SR 1", here, AttributeName.POSTED_SPEED_KMH),
            String.format(Locale.ROOT, "round %d at %.1f", round, here));
      }
    }
  }
}
