package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.county.County;
import lanemend.county.PlanMaking;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.PastPatch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Renewal over HTTP, on eight roads of which one stretch fails eight times as often. */
class RenewalApiTest {
  private static final String ACCEPT =
      """
      {"kind": "accepted", "route": "SR 3", "from": "2.0", "to": "2.8", "newFrom": null,
       "newTo": null, "year": 2027, "reason": "cores confirm it", "by": "E. Invented, P.E."}
      """;

  @TempDir Path folder;
  private SmallDesk desk;

  @BeforeEach
  void open() {
    desk = SmallDesk.weakRoad(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private JsonNode study() {
    assertEquals(202, desk.send("POST", "/api/renewal/run", "{}").status());
    JsonNode run = desk.get("/api/renewal/run").json();
    long end = System.nanoTime() + 120_000_000_000L;
    while (run.path("state").asText().equals("running") && System.nanoTime() < end) {
      sleep();
      run = desk.get("/api/renewal/run").json();
    }
    assertEquals("done", run.path("state").asText(), run.toString());
    return desk.get("/api/renewal").json();
  }

  private static void sleep() {
    try {
      Thread.sleep(30);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private JsonNode decide(String body, String version) {
    SmallDesk.Answer kept =
        desk.send("POST", "/api/renewal/decisions", body, "If-Match", "\"" + version + "\"");
    assertEquals(200, kept.status(), kept.whole().body());
    return kept.json();
  }

  private JsonNode sections(String query) {
    return desk.get("/api/renewal/sections" + query).json().path("rows");
  }

  private JsonNode evidence(String section) {
    return desk.get("/api/renewal/evidence?section=" + SmallDesk.coded(section)).json();
  }

  @Test
  void withoutAStudyThePageIsToldSoAndTheMapShowsWhatIsDecided() {
    JsonNode none = desk.get("/api/renewal").json();
    assertTrue(none.path("study").isNull());
    assertTrue(none.path("ready").isNull());
    SmallDesk.Answer refused = desk.get("/api/renewal/sections");
    assertEquals(409, refused.status());
    assertTrue(refused.json().path("detail").asText().contains("no study"));
    decide(ACCEPT, "0");
    JsonNode strip = desk.get("/api/routes/SR%203/strip").json().path("sections");
    assertEquals(1, strip.size());
    assertEquals("accepted", strip.get(0).path("state").asText());
  }

  @Test
  void aStudyFlagsTheWeakStretchAndEveryNumberHasItsTrace() {
    String drawnBefore = desk.get("/api/county").json().path("drawing").asText();
    JsonNode study = study().path("study");
    assertEquals(1, study.path("flagged").asInt());
    assertEquals(3, study.path("program").path("years").size());
    JsonNode row = sections("").get(0);
    assertEquals("SR 3", row.path("route").asText());
    // Made weak from 2.0 to 2.8, so flagged there to the cell, give or take two.
    assertEquals(2.0, row.path("milepost").asDouble(), 0.21);
    assertEquals(2.8, row.path("milepostTo").asDouble(), 0.21);
    assertEquals(3, row.path("waiting").asInt());
    for (String number : List.of("flag", "next", "overlay", "cost", "crossover")) {
      assertFalse(row.path(number).path("formula").asText().isBlank(), number);
      assertFalse(row.path(number).path("source").asText().isBlank(), number);
    }
    JsonNode e = evidence(row.path("id").asText());
    assertEquals("0", e.path("version").asText());
    assertTrue(e.path("why").asText().startsWith("Flagged because"), e.path("why").asText());
    assertEquals(10, e.path("forecast").size());
    List<String> ways = new ArrayList<>();
    e.path("limits").forEach(l -> ways.add(l.path("way").asText()));
    assertTrue(ways.toString().contains("Cumulative difference"), ways.toString());
    assertTrue(ways.toString().contains("PELT"), ways.toString());
    assertEquals(4, e.path("drawings").size());
    e.path("drawings").forEach(d -> assertTrue(d.path("svg").asText().startsWith("<svg")));
    // The map draws another picture now, and in it the candidate.
    assertNotEquals(drawnBefore, desk.get("/api/county").json().path("drawing").asText());
    JsonNode strip = desk.get("/api/routes/SR%203/strip").json().path("sections");
    assertEquals("candidate", strip.get(0).path("state").asText());
  }

  @Test
  void theDescriptionHasTheMembersOfTheAnswers() {
    study();
    String id = sections("").get(0).path("id").asText();
    JsonNode schemas = desk.get("/api/openapi.json").json().at("/components/schemas");
    same(schemas.path("Section"), sections("").get(0));
    same(schemas.path("Evidence"), evidence(id));
    same(schemas.path("Study"), desk.get("/api/renewal").json().path("study"));
    same(
        schemas.path("Program"),
        desk.send("POST", "/api/renewal/program", "{\"budgets\": []}").json());
  }

  private static void same(JsonNode schema, JsonNode answer) {
    List<String> described = new ArrayList<>();
    schema.path("properties").fieldNames().forEachRemaining(described::add);
    List<String> there = new ArrayList<>();
    answer.fieldNames().forEachRemaining(there::add);
    assertEquals(described.stream().sorted().toList(), there.stream().sorted().toList());
  }

  @Test
  void aBudgetBelowTheOverlayLeavesItOutAndOneAboveTakesItWhereItSavesMost() {
    study();
    JsonNode free = desk.send("POST", "/api/renewal/program", "{\"budgets\": []}").json();
    double cost = free.path("wanted").asDouble();
    // One section only: by reason alone, money short of it buys nothing and more changes nothing.
    JsonNode poor = program(cost - 1);
    assertEquals(0, poor.path("sections").get(0).path("year").asInt());
    assertEquals("0\u00a0USD", poor.path("years").get(0).path("spent").asText());
    JsonNode rich = program(cost + 1);
    assertEquals(
        free.path("sections").get(0).path("year"), rich.path("sections").get(0).path("year"));
    assertNotEquals(0, rich.path("sections").get(0).path("year").asInt());
    assertEquals(free.path("saving").path("shown"), rich.path("saving").path("shown"));
    // Nothing of it was kept
    assertEquals(List.of(3e5, 3e5, 3e5), County.read(desk.store()).renewalRules().yearlyBudgets());
  }

  private JsonNode program(double budget) {
    String each = String.format(Locale.ROOT, "%.2f", budget);
    String body =
        "{\"budgets\": [" + each + "," + each + "," + each + "," + each + "," + each + "]}";
    return desk.send("POST", "/api/renewal/program", body).json();
  }

  @Test
  void keptBudgetsAreTheAgencysAndCanBeTakenBack() {
    study();
    SmallDesk.Answer kept =
        desk.send("PUT", "/api/renewal/budgets", "{\"budgets\": [125000.5, 0]}");
    assertEquals(200, kept.status(), kept.whole().body());
    assertTrue(kept.json().path("kept").asBoolean());
    County now = County.read(desk.store());
    assertEquals(List.of(125000.5, 0.0), now.renewalRules().yearlyBudgets());
    assertEquals(9000, now.renewalRules().overlay().soil().subgradeKpa() / 6.894757, 1);
    // The study stands: only its program is another
    assertFalse(desk.get("/api/renewal").json().path("earlier").asBoolean());
    undoLast();
    assertEquals(List.of(3e5, 3e5, 3e5), County.read(desk.store()).renewalRules().yearlyBudgets());
    assertEquals(422, desk.send("PUT", "/api/renewal/budgets", "{\"budgets\": [-1]}").status());
  }

  private void undoLast() {
    JsonNode changes = desk.get("/api/changes").json();
    long edit = changes.get(changes.size() - 1).path("edit").asLong();
    assertEquals(200, desk.send("POST", "/api/changes/" + edit + "/undo", "{}").status());
  }

  @Test
  void anAcceptedSectionHoldsItsDefectsFromTheNextPlanOnUntilItIsUndone() {
    study();
    String said = decide(ACCEPT, "0").path("said").asText();
    assertTrue(said.contains("accepted, overlay in 2027"), said);
    assertTrue(said.contains("3 defects wait for it"), said);
    JsonNode row = sections("?state=accepted").get(0);
    assertEquals("2027", row.path("program").asText());
    // Planned, the defects under it are set aside, as the command 'plan' does.
    County now = County.read(desk.store());
    PlanMaking making = new PlanMaking(now, now.agency());
    PlanMaking.keep(
        desk.store(), "tester", making.make(SearchBudget.iterations(50, 1), PlanProgress.NONE));
    assertEquals(DefectStatus.DEFERRED_TO_OVERLAY, status("D1"));
    assertEquals(DefectStatus.PLANNED, status("D5"));
    String version = evidence(row.path("id").asText()).path("version").asText();
    SmallDesk.Answer back =
        desk.send(
            "POST",
            "/api/renewal/withdrawals",
            "{\"route\": \"SR 3\", \"from\": \"2.0\", \"to\": \"2.8\", \"reason\": \"budget cut\"}",
            "If-Match",
            version);
    assertTrue(back.json().path("said").asText().contains("3 defects are open again"));
    assertEquals(DefectStatus.OPEN, status("D1"));
    assertEquals("candidate", sections("").get(0).path("state").asText());
  }

  private DefectStatus status(String defect) {
    return desk.store().read(s -> s.defects().find(defect)).orElseThrow().value().status();
  }

  @Test
  void aDecisionNobodyHasSeenIsNotReplaced() {
    study();
    decide(ACCEPT, "0");
    SmallDesk.Answer unseen =
        desk.send("POST", "/api/renewal/decisions", ACCEPT, "If-Match", "\"0\"");
    assertEquals(412, unseen.status());
    assertTrue(unseen.json().path("detail").asText().contains("E. Invented, P.E."));
    assertEquals(428, desk.send("POST", "/api/renewal/decisions", ACCEPT).status());
    String seen = evidence(sections("").get(0).path("id").asText()).path("version").asText();
    decide(ACCEPT.replace("accepted", "rejected").replace("2027", "null"), seen);
    assertEquals("rejected", sections("").get(0).path("state").asText());
  }

  @Test
  void ofManyWhoDecideAtOnceOneDecidesAndTheOthersSeeHis() {
    study();
    List<SmallDesk.Answer> answers =
        java.util.stream.IntStream.range(0, 12)
            .parallel()
            .mapToObj(
                i ->
                    desk.send(
                        "POST",
                        "/api/renewal/decisions",
                        ACCEPT.replace("cores confirm it", "reason " + i),
                        "If-Match",
                        "\"0\""))
            .toList();
    assertEquals(1, answers.stream().filter(a -> a.status() == 200).count());
    String stands = County.read(desk.store()).decisions().get(0).decision().reason();
    List<SmallDesk.Answer> others = answers.stream().filter(a -> a.status() == 412).toList();
    assertEquals(11, others.size());
    for (SmallDesk.Answer other : others) {
      assertEquals(stands, other.json().at("/theirs/reason").asText());
      assertTrue(other.json().at("/yours/reason").asText().startsWith("reason "));
    }
  }

  @Test
  void aDecisionNeedsANameAReasonAndAPlace() {
    assertEquals("by", refused(ACCEPT.replace("E. Invented, P.E.", " ")));
    assertEquals("reason", refused(ACCEPT.replace("cores confirm it", "")));
    assertEquals("from", refused(ACCEPT.replace("\"2.0\"", "\"2.8\"")));
    assertEquals("route", refused(ACCEPT.replace("SR 3", "SR 99")));
    assertEquals("year", refused(ACCEPT.replace("accepted", "rejected")));
    assertEquals("year", refused(ACCEPT.replace("accepted", "deferred").replace("2027", "null")));
    assertEquals(List.of(), County.read(desk.store()).decisions());
  }

  private String refused(String body) {
    SmallDesk.Answer answer = desk.send("POST", "/api/renewal/decisions", body, "If-Match", "0");
    assertEquals(422, answer.status(), answer.whole().body());
    return answer.json().path("field").asText();
  }

  @Test
  void aStretchPutOnTheListByHandGetsItsEvidence() {
    study();
    JsonNode kept =
        decide(
            ACCEPT
                .replace("accepted", "added")
                .replace("2027", "null")
                .replace("SR 3", "SR 5")
                .replace("\"2.0\"", "\"3.1\"")
                .replace("\"2.8\"", "\"3.9\""),
            "0");
    JsonNode e = evidence(kept.path("section").asText());
    assertTrue(e.path("inShort").path("byHand").asBoolean());
    assertTrue(e.path("why").asText().startsWith("Not flagged by this study"));
    assertEquals(2, sections("").size());
    assertEquals(1, sections("?route=SR+5").size());
  }

  @Test
  void newRecordsMakeTheStudyAnEarlierOneAndDecisionsDoNot() {
    study();
    decide(ACCEPT, "0");
    assertFalse(desk.get("/api/renewal").json().path("earlier").asBoolean());
    desk.store()
        .write(
            "tester",
            "one more repair",
            change -> {
              PastPatch p = change.patches().all().get(0);
              change
                  .patches()
                  .insert(
                      new PastPatch(
                          "P-more",
                          p.work(),
                          p.place(),
                          p.lane(),
                          LocalDate.of(2025, 12, 1),
                          p.tonnes(),
                          p.crewHours(),
                          p.cost()));
            });
    assertTrue(desk.get("/api/renewal").json().path("earlier").asBoolean());
    // and it still shows, until somebody studies again
    assertEquals(1, sections("").size());
    assertFalse(study().path("earlier").asBoolean());
  }

  @Test
  void anEndedStudyLeavesNothingBehind() {
    desk.send("POST", "/api/renewal/run", "{}");
    SmallDesk.Answer ended = desk.send("DELETE", "/api/renewal/run", "{}");
    if (!ended.json().path("state").asText().equals("done")) {
      assertEquals("ended", ended.json().path("state").asText());
      assertTrue(desk.get("/api/renewal").json().path("study").isNull());
    }
    // Another can be begun at once
    assertEquals(1, study().path("study").path("flagged").asInt());
  }

  @Test
  void filesHaveTheChosenSectionsOnly() {
    study();
    decide(ACCEPT, "0");
    String csv = desk.get("/api/renewal/sections/export/csv?state=accepted").whole().body();
    assertEquals(2, csv.lines().count(), csv);
    assertTrue(csv.contains("cores confirm it"), csv);
    assertEquals(
        1,
        desk.get("/api/renewal/sections/export/csv?state=rejected").whole().body().lines().count());
    JsonNode features = desk.get("/api/renewal/sections/export/geojson").json().path("features");
    assertEquals("LineString", features.get(0).at("/geometry/type").asText());
    assertEquals(200, desk.get("/api/renewal/sections/export/geopackage").status());
    String page =
        desk.get(
                "/api/renewal/evidence/page?section="
                    + SmallDesk.coded(sections("").get(0).path("id").asText()))
            .whole()
            .body();
    assertTrue(page.contains("cores confirm it"), "the printed page has the decision");
  }
}
