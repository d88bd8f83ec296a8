package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Plain words made into a filter. */
class FilterWordsTest {
  private static final List<String> ROADS = List.of("SR 7", "SR 71", "Old Mill Road");

  private static String read(String words) {
    return FilterWords.read(words, ROADS);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      textBlock =
          """
          high potholes | severity = 'high' AND kind = 'pothole'
          high or medium, open | severity IN ('high', 'medium') AND status = 'open'
          on SR 71 | route = 'SR 71'
          SR 7 milepost 9 to 3.5 | route = 'SR 7' AND milepost_to >= 3.5 AND milepost <= 9
          alligator cracking on old mill road | kind = 'alligator_cracking' AND route = 'Old Mill Road'
          deeper than 2 in | depth_in > 2
          longer than 3 m and wider than 4 ft | length_m > 3 AND width_ft > 4
          found since 2026-04-30 | found_on >= '2026-04-30'
          edge breaks | kind = 'edge_break'
          """)
  void wordsOfOneKindAreAlternativesOthersAllHold(String words, String filter) {
    assertEquals(filter, read(words));
  }

  @Test
  void noWordsChooseEverything() {
    assertEquals("", read("  "));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          high ponies | 6
          deeper than 2 | 14
          deeper than two in | 13
          on SR 9 | 4
          milepost 3 to | 14
          found yesterday | 7
          since 2026-13-01 | 7
          """)
  void aWordThatMeansNothingIsRefusedWithItsPlace(String words, int position) {
    Problem problem = assertThrows(Problem.class, () -> read(words));
    assertEquals(position, problem.body().more().get("position"), problem.getMessage());
  }
}
