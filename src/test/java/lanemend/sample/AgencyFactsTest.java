package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A larger county has more of everything it works with. */
class AgencyFactsTest {

  private static JsonNode agency(int defects) {
    SampleSize size = SampleSize.withDefects(defects);
    return AgencyFacts.write(Roads.build(size, new Dice(3)), size.districts());
  }

  @Test
  void yardsPlantsCrewsAndMachinesGrowWithTheDefects() {
    JsonNode agency = agency(1_600);
    assertEquals(8, agency.get("yards").size(), "two yards for each of four districts");
    assertEquals(2, agency.get("plants").size(), "a plant for each three districts");
    assertEquals(12, agency.get("crews").size());
    assertEquals(4 * agency(400).get("equipment").size(), agency.get("equipment").size());
  }

  @Test
  void everyCrewHasAYardAndNoTwoYardsLieTogether() {
    JsonNode agency = agency(1_600);
    Set<String> ids = new HashSet<>();
    Set<String> places = new HashSet<>();
    agency
        .get("yards")
        .forEach(
            y -> {
              ids.add(y.get("id").asText());
              places.add(y.get("longitude").asText() + " " + y.get("latitude").asText());
            });
    assertEquals(8, ids.size());
    assertEquals(8, places.size());
    agency.get("crews").forEach(c -> assertTrue(ids.contains(c.get("yard").asText())));
  }

  @Test
  void aCountyOfFewDefectsIsSmallerAndStillHasItsThreeCrews() {
    assertEquals(150, SampleSize.withDefects(50).roadMiles());
    assertEquals(3, agency(50).get("crews").size());
    assertEquals(6_000, SampleSize.withDefects(10_000).roadMiles());
  }
}
