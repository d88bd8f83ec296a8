package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lanemend.county.County;
import lanemend.crewdays.Assignment;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.PastPatch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan and its sheets, over HTTP as a browser speaks it. */
class PlanApiTest {
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

  private JsonNode plan() {
    return desk.get("/api/plan").json();
  }

  private static ObjectNode json() {
    return Api.JSON.createObjectNode();
  }

  private SmallDesk.Answer change(String path, ObjectNode body, String state) {
    return desk.send("POST", path, body.toString(), "If-Match", "\"" + state + "\"");
  }

  /** A zone that another crew day can take, and that day; every zone is asked for until one can. */
  private record Movable(JsonNode day, String repair, JsonNode to) {}

  private Movable movable() {
    for (JsonNode day : plan().path("days")) {
      for (JsonNode zone : day(day).path("zones")) {
        String repair = zone.path("repair").asText();
        for (JsonNode place :
            desk.get("/api/plan/places?repair=" + SmallDesk.coded(repair)).json()) {
          if (place.path("possible").asBoolean() && !place.path("home").asBoolean()) {
            return new Movable(day, repair, place);
          }
        }
      }
    }
    throw new AssertionError("no zone of the small county can be moved");
  }

  private JsonNode day(JsonNode day) {
    return desk.get("/api/plan/days/" + day.path("date").asText() + "/" + day.path("crew").asText())
        .json();
  }

  private Assignment.Day dayOf(String repair) {
    return County.read(desk.store()).assignment().dayOf(repair).orElseThrow();
  }

  @Test
  void theCalendarHasEveryCrewDayOfThePlanAndItsTotals() {
    JsonNode plan = plan();
    County county = County.read(desk.store());
    assertEquals(county.plan().days().size(), plan.path("days").size());
    assertEquals(county.plan().days().size(), plan.at("/totals/crewDays").asInt());
    int repairs = 0;
    for (JsonNode day : plan.path("days")) {
      repairs += day.path("repairs").asInt();
      assertTrue(day.path("minutesUsed").asInt() <= day.path("shiftMinutes").asInt());
    }
    assertEquals(plan.at("/totals/repairs").asInt(), repairs);
    assertEquals(county.agency().plan().calendarDays(), plan.path("dates").size());
  }

  @Test
  void aMoveIsJudgedThenKeptAndHeldThere() {
    Movable m = movable();
    ObjectNode body = json().put("repair", m.repair()).put("reason", "school holidays");
    body.set("crew", m.to().path("crew"));
    body.set("date", m.to().path("date"));
    JsonNode trial = desk.send("POST", "/api/plan/trials", body.toString()).json();
    assertEquals(m.to().path("difference"), trial.path("difference"));
    Assignment.Day before = dayOf(m.repair());

    SmallDesk.Answer kept = change("/api/plan/moves", body, plan().path("state").asText());

    assertEquals(200, kept.status(), kept.whole().body());
    Assignment.Day after = dayOf(m.repair());
    assertEquals(m.to().path("date").asText(), after.date().toString());
    assertEquals(m.to().path("crew").asText(), after.crewId());
    assertNotEquals(before, after);
    assertEquals("moved", kept.json().at("/changes/changes/0/kind").asText());
    // The cost told beforehand is that of the plan that is kept.
    assertEquals(m.to().path("difference"), kept.json().at("/changes/difference"));
    assertTrue(
        County.read(desk.store()).handRules().pin(m.repair()).isPresent(), "held where it is");
  }

  @Test
  void aMoveThatBreaksALimitIsRefusedWithEachLimitAndNothingIsWritten() {
    JsonNode plan = plan();
    JsonNode first = plan.at("/days/0");
    String repair = day(first).at("/zones/0/repair").asText();
    JsonNode bad = null;
    for (JsonNode place : desk.get("/api/plan/places?repair=" + SmallDesk.coded(repair)).json()) {
      bad = place.path("possible").asBoolean() || bad != null ? bad : place;
    }
    ObjectNode body = json().put("repair", repair);
    body.set("crew", bad.path("crew"));
    body.set("date", bad.path("date"));
    SmallDesk.Answer refused = change("/api/plan/moves", body, plan.path("state").asText());
    assertEquals(422, refused.status());
    assertEquals(bad.path("broken"), refused.json().path("broken"));
    assertEquals(plan.path("version"), plan().path("version"));
  }

  @Test
  void aChangeToAPlanSomebodyElseChangedIsRefused() {
    JsonNode plan = plan();
    ObjectNode lock = json().put("kind", "lock_day");
    lock.set("crew", plan.at("/days/0/crew"));
    lock.set("date", plan.at("/days/0/date"));
    assertEquals(200, change("/api/plan/rules", lock, plan.path("state").asText()).status());
    assertEquals(412, change("/api/plan/rules", lock, plan.path("state").asText()).status());
    assertEquals(428, desk.send("POST", "/api/plan/rules", lock.toString()).status());
  }

  @Test
  void aLockedDayStaysThroughANewPlanUntilItIsTakenBack() throws InterruptedException {
    JsonNode plan = plan();
    JsonNode day = plan.at("/days/0");
    ObjectNode lock = json().put("kind", "lock_day").put("reason", "flagger booked");
    lock.set("crew", day.path("crew"));
    lock.set("date", day.path("date"));
    assertEquals(200, change("/api/plan/rules", lock, plan.path("state").asText()).status());
    assertEquals("flagger booked", plan().at("/days/0/locked").asText());
    Assignment.Day before = dayOf(day(day).at("/zones/0/repair").asText());

    JsonNode run = planned(json().put("iterations", 30));

    assertEquals("kept", run.path("state").asText(), run.toString());
    assertEquals(before, dayOf(day(day).at("/zones/0/repair").asText()));
    ObjectNode release = json();
    release.set("crew", day.path("crew"));
    release.set("date", day.path("date"));
    String state = plan().path("state").asText();
    assertEquals(200, change("/api/plan/releases", release, state).status());
    assertTrue(plan().at("/days/0/locked").isNull());
  }

  private JsonNode planned(ObjectNode wish) throws InterruptedException {
    assertEquals(202, desk.send("POST", "/api/plan/run", wish.toString()).status());
    assertEquals(409, desk.send("POST", "/api/plan/run", wish.toString()).status());
    return ended();
  }

  private JsonNode ended() throws InterruptedException {
    while (true) {
      JsonNode run = desk.get("/api/plan/run").json();
      String state = run.path("state").asText();
      if (!state.equals("running") && !state.equals("ending")) {
        return run;
      }
      Thread.sleep(50);
    }
  }

  @Test
  void planningThatIsStoppedKeepsTheBestSoFar() throws InterruptedException {
    // Given a search that would take an hour
    ObjectNode wish = json().put("seconds", 3600);
    assertEquals(202, desk.send("POST", "/api/plan/run", wish.toString()).status());
    while (desk.get("/api/plan/run").json().path("best").isNull()) {
      Thread.sleep(50);
    }
    JsonNode told = desk.send("DELETE", "/api/plan/run", "{}").json();
    assertEquals("ending", told.path("state").asText());
    JsonNode run = ended();
    assertEquals("kept", run.path("state").asText(), run.toString());
    County county = County.read(desk.store());
    assertEquals(
        List.of(),
        county.plans().checker(county.agency()).check(county.plan(), county.repairs()),
        "the kept plan passes the checker");
    assertEquals(200, desk.get("/api/plan/changes").status());
  }

  @Test
  void aClosedDayIsEmptiedAndTheRestIsDisturbedLittle() throws InterruptedException {
    // Given the last day that is planned, closed for all crews
    JsonNode days = plan().path("days");
    String date = days.get(days.size() - 1).path("date").asText();
    ObjectNode wish = json().put("adjust", true).put("iterations", 200);
    wish.putObject("close").put("date", date).put("reason", "rain");
    Assignment before = County.read(desk.store()).assignment();
    JsonNode run = planned(wish);
    assertEquals("kept", run.path("state").asText(), run.toString());
    JsonNode after = plan();
    after.path("days").forEach(d -> assertNotEquals(date, d.path("date").asText()));
    for (JsonNode d : after.path("dates")) {
      if (d.path("date").asText().equals(date)) {
        assertEquals(after.path("crews").size(), d.path("off").size());
        assertEquals("rain", d.at("/off/0/why").asText());
      }
    }
    // Days close at hand (two calendar days) stay as they were.
    String first = after.path("today").asText();
    Assignment now = County.read(desk.store()).assignment();
    before.days().stream()
        .filter(d -> d.date().toString().equals(first))
        .forEach(d -> assertTrue(now.days().contains(d), d.toString()));
  }

  @Test
  void aWishThatCannotBeIsRefusedInASentence() {
    for (String wish :
        List.of(
            "{\"seconds\": 0}",
            "{\"iterations\": 0}",
            "{\"close\": {\"date\": \"2026-05-06\", \"reason\": \"rain\"}}",
            "{\"from\": \"2026-05-10\", \"until\": \"2026-05-01\"}")) {
      assertEquals(422, desk.send("POST", "/api/plan/run", wish).status(), wish);
    }
    assertEquals(400, desk.send("POST", "/api/plan/run", "{\"from\": \"May 4\"}").status());
    assertEquals("none", desk.get("/api/plan/run").json().path("state").asText());
  }

  @Test
  void aRepairLeftOutIsListedWithItsReasonAndComesBackWhenUrgent() {
    JsonNode plan = plan();
    JsonNode last = plan.path("days").get(plan.path("days").size() - 1);
    String repair = day(last).at("/zones/0/repair").asText();
    ObjectNode out =
        json().put("kind", "leave_out").put("repair", repair).put("reason", "utility cut");
    JsonNode kept = change("/api/plan/rules", out, plan.path("state").asText()).json();
    JsonNode row = plan().at("/leftOut/0");
    assertEquals(repair, row.path("id").asText());
    assertTrue(row.path("why").asText().contains("utility cut"), row.toString());

    ObjectNode back = json().put("repair", repair);
    JsonNode released = change("/api/plan/releases", back, kept.path("state").asText()).json();
    ObjectNode urgent = json().put("repair", repair).put("by", last.path("date").asText());
    SmallDesk.Answer found = change("/api/plan/urgent", urgent, released.path("state").asText());
    assertEquals(200, found.status(), found.whole().body());
    assertFalse(dayOf(repair).date().toString().compareTo(last.path("date").asText()) > 0);
  }

  @Test
  void aSheetIsAPageOfItsOwnAndAPdf() {
    JsonNode day = plan().at("/days/0");
    String path = "/api/sheets/" + day.path("date").asText() + "/" + day.path("crew").asText();
    String page = desk.get(path + "/page").whole().body();
    assertTrue(page.contains("Record of the day"), page.substring(0, 400));
    assertTrue(desk.get(path + "/numbers").whole().body().contains("How each number was reached"));
    assertTrue(desk.get(path + "/pdf").whole().body().startsWith("%PDF-"));
    String policy =
        desk.get(path + "/page")
            .whole()
            .headers()
            .firstValue("Content-Security-Policy")
            .orElseThrow();
    assertTrue(policy.startsWith("default-src 'none'"), policy);
    assertEquals(404, desk.get("/api/sheets/2020-01-01/none/page").status());
  }

  @Test
  void doneWorkBecomesHistoryAndLeavesThePlan() {
    JsonNode day = plan().at("/days/0");
    String path = "/api/sheets/" + day.path("date").asText() + "/" + day.path("crew").asText();
    JsonNode repair = day(day).at("/zones/0/repairs/0");
    String id = repair.path("id").asText();
    int before = County.read(desk.store()).patches().size();
    ObjectNode form = json().put("on", day.path("date").asText());
    form.putArray("repairs")
        .addObject()
        .put("repair", id)
        .put("mix", 2.0)
        .put("hours", 1.5)
        .put("note", "wet base");

    assertEquals(200, desk.send("POST", path + "/done", form.toString()).status());

    County after = County.read(desk.store());
    assertEquals(before + 1, after.patches().size());
    PastPatch patch =
        after.patches().stream().filter(p -> p.id().equals("done-" + id)).findFirst().orElseThrow();
    // 2 short tons of 2,000 lb, a pound being 0.45359237 kg exactly (NIST Handbook 44, appendix C).
    assertEquals(2 * 2000 * 0.45359237 / 1000, patch.tonnes(), 1e-6);
    assertEquals(1.5, patch.crewHours());
    assertEquals(repair.path("treatment").asText().replace(' ', '_'), patch.work());
    var defect = after.defects().stream().filter(d -> d.id().equals(id)).findFirst().orElseThrow();
    assertEquals(DefectStatus.DONE, defect.status());
    assertEquals(defect.place().routeId(), patch.place().routeId());
    assertTrue(defect.note().endsWith("wet base"), defect.note());
    // When the same is sent again, nothing is written twice.
    assertEquals(412, desk.send("POST", path + "/done", form.toString()).status());
    List<String> left = new ArrayList<>();
    day(day)
        .path("zones")
        .forEach(z -> z.path("repairs").forEach(r -> left.add(r.path("id").asText())));
    assertFalse(left.contains(id), left.toString());
    assertEquals(id, desk.get(path).json().at("/recorded/0/repair").asText());
  }

  @Test
  void whenOneRepairCannotBeRecordedNoneIs() {
    JsonNode day = plan().at("/days/0");
    String path = "/api/sheets/" + day.path("date").asText() + "/" + day.path("crew").asText();
    String id = day(day).at("/zones/0/repairs/0/id").asText();
    ObjectNode form = json();
    form.putArray("repairs").addObject().put("repair", id);
    form.withArray("repairs").addObject().put("repair", "no such");
    assertEquals(409, desk.send("POST", path + "/done", form.toString()).status());
    ObjectNode negative = json();
    negative.putArray("repairs").addObject().put("repair", id).put("mix", -1);
    assertEquals(422, desk.send("POST", path + "/done", negative.toString()).status());
    assertEquals(0, desk.get("/api/sheets").json().path("recorded").size());
  }

  @Test
  void answersHaveTheMembersTheirDescriptionHas() {
    JsonNode plan = plan();
    JsonNode day = plan.at("/days/0");
    String at = day.path("date").asText() + "/" + day.path("crew").asText();
    JsonNode shapes = desk.get("/api/openapi.json").json().at("/components/schemas");
    assertEquals(names(shapes.at("/Plan/properties")), names(plan));
    assertEquals(names(shapes.at("/PlanDay/properties")), names(day));
    JsonNode whole = desk.get("/api/plan/days/" + at).json();
    assertEquals(names(shapes.at("/CrewDay/properties")), names(whole));
    assertEquals(names(shapes.at("/WorkZone/properties")), names(whole.at("/zones/0")));
    assertEquals(names(shapes.at("/ZoneRepair/properties")), names(whole.at("/zones/0/repairs/0")));
    assertEquals(names(shapes.at("/Sheets/properties")), names(desk.get("/api/sheets").json()));
    assertEquals(
        names(shapes.at("/Sheet/properties")), names(desk.get("/api/sheets/" + at).json()));
    assertEquals(names(shapes.at("/PlanRun/properties")), names(desk.get("/api/plan/run").json()));
  }

  private static List<String> names(JsonNode object) {
    List<String> names = new ArrayList<>();
    object.fieldNames().forEachRemaining(names::add);
    names.sort(null);
    return names;
  }
}
