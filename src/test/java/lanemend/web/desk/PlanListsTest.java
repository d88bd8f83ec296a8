package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.List;
import lanemend.county.KeptProof;
import lanemend.crewdays.PlanProof;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan's lists, chosen, sorted and handed on, and what is proven of its cost. */
class PlanListsTest {
  @TempDir Path folder;
  private SmallDesk desk;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  @Test
  void whatIsLeftOutIsChosenAndSortedAndTheFileHasTheSameRows() {
    // Given a plan that leaves a repair out by hand beside what does not fit
    leaveOut("the road is to be closed");
    JsonNode all = desk.get("/api/plan/left-out?sort=-severity").json();
    assertEquals(view().path("leftOut").size(), all.path("total").asInt());
    int rank = 3;
    for (JsonNode row : all.path("rows")) {
      int now = List.of("low", "medium", "high").indexOf(row.path("severity").asText());
      assertTrue(now <= rank, all.toString());
      rank = now;
    }
    String why = "?why=" + SmallDesk.coded(all.path("reasons").get(0).path("why").asText());
    int chosen = desk.get("/api/plan/left-out" + why).json().path("total").asInt();
    assertEquals(all.path("reasons").get(0).path("repairs").asInt(), chosen);
    String csv = desk.get("/api/exports/left-out/csv" + why).whole().body();
    assertEquals(chosen + 1, csv.lines().count(), csv);
    JsonNode place = desk.get("/api/exports/left-out/geojson").json().path("features").get(0);
    assertEquals("Point", place.at("/geometry/type").asText());
    assertEquals(400, desk.get("/api/plan/left-out?sort=colour").status());
  }

  private void leaveOut(String reason) {
    JsonNode view = view();
    JsonNode day = view.path("days").get(0);
    String path = day.path("date").asText() + "/" + SmallDesk.coded(day.path("crew").asText());
    String repair = desk.get("/api/plan/days/" + path).json().at("/zones/0/repairs/0/id").asText();
    SmallDesk.Answer kept =
        desk.send(
            "POST",
            "/api/plan/rules",
            "{\"kind\": \"leave_out\", \"repair\": \""
                + repair
                + "\", \"crew\": null, \"date\": null, \"reason\": \""
                + reason
                + "\"}",
            "If-Match",
            view.path("state").asText());
    assertEquals(200, kept.status(), kept.whole().body());
  }

  private JsonNode view() {
    return desk.get("/api/plan").json();
  }

  @Test
  void crewDaysAreHandedOnByCrewAndFromADate() {
    JsonNode days = view().path("days");
    String crew = days.get(0).path("crew").asText();
    int of = 0;
    for (JsonNode d : days) {
      of += d.path("crew").asText().equals(crew) ? 1 : 0;
    }
    String asked = "/api/exports/crew-days/csv?crew=" + SmallDesk.coded(crew);
    assertEquals(of + 1, desk.get(asked).whole().body().lines().count());
    assertEquals(1, desk.get(asked + "&from=2199-01-01").whole().body().lines().count());
    assertEquals(400, desk.get(asked + "&from=tomorrow").status());
    JsonNode features = desk.get("/api/exports/crew-days/geojson").json().path("features");
    assertEquals(days.size(), features.size());
  }

  @Test
  void whatIsProvenOfTheKeptPlanStandsBesideItAndGoesWithIt() {
    // Given the bound that belongs to the plan that is kept, a quarter below its cost
    desk.store()
        .write(
            "tester", "plan prove", change -> KeptProof.put(change, new PlanProof(80, 0, 60, 9)));
    JsonNode proof = view().path("proof");
    assertTrue(proof.path("said").asText().contains("at most 25.0 %"), proof.toString());
    assertEquals("25 %", proof.path("gap").path("shown").asText());
    // When the plan is changed in a way that proves nothing, then it says so no longer
    leaveOut("not before spring");
    assertTrue(view().path("proof").isNull());
  }
}
