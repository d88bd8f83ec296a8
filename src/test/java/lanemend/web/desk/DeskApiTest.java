package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.store.Stored;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The JSON interface, over HTTP as a browser speaks it. */
class DeskApiTest {
  @TempDir static Path folder;
  private static SmallDesk desk;

  @BeforeAll
  static void open() {
    desk = SmallDesk.open(folder);
  }

  @AfterAll
  static void close() {
    desk.close();
  }

  @Test
  void theDescriptionNamesEveryRouteAndNoOther() {
    JsonNode description = desk.get("/api/openapi.json").json();
    assertTrue(description.path("openapi").asText().startsWith("3."));
    Set<String> described = new TreeSet<>();
    description
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .fieldNames()
                    .forEachRemaining(method -> described.add(method + " " + path.getKey())));
    assertEquals(new TreeSet<>(desk.desk().routes()), described);
  }

  @Test
  void everyShapeTheDescriptionPointsAtIsThere() {
    JsonNode description = desk.get("/api/openapi.json").json();
    for (JsonNode ref : description.findValues("$ref")) {
      String at = ref.asText().substring(1);
      assertFalse(description.at(at).isMissingNode(), ref.asText());
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/api/county",
        "/api/defects?count=3",
        "/api/filter?words=high",
        "/api/field/county"
      })
  void anAnswerHasTheMembersItsDescriptionHas(String path) {
    JsonNode description = desk.get("/api/openapi.json").json();
    String plain = path.replaceFirst("[?].*", "");
    JsonNode schema =
        description
            .path("paths")
            .path(plain)
            .at("/get/responses/200/content/application~1json/schema");
    JsonNode answer = desk.get(path).json();
    compare(description, schema, answer, path);
  }

  private static void compare(JsonNode all, JsonNode schema, JsonNode answer, String where) {
    JsonNode shape =
        schema.has("$ref") ? all.at(schema.path("$ref").asText().substring(1)) : schema;
    if (shape.has("items") && !answer.isEmpty()) {
      compare(all, shape.path("items"), answer.get(0), where + "[]");
    } else if (shape.has("properties")) {
      Set<String> described = new TreeSet<>();
      shape.path("properties").fieldNames().forEachRemaining(described::add);
      Set<String> there = new TreeSet<>();
      answer.fieldNames().forEachRemaining(there::add);
      assertEquals(described, there, where);
      for (String name : described) {
        compare(all, shape.path("properties").path(name), answer.path(name), where + "." + name);
      }
    }
  }

  @Test
  void aPageOfAnotherSiteGetsNothing() throws Exception {
    // A browser sends Origin with what a page asks for; Host is the name the address bar had.
    assertEquals(
        403, desk.send("PUT", "/api/defects/x", "{}", "Origin", "http://evil.example").status());
    String answer =
        raw("GET /api/county HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n");
    assertTrue(answer.startsWith("HTTP/1.1 403"), answer);
    assertFalse(answer.contains("routes"), answer);
  }

  @Test
  void aConnectionGoesOnWhenABodyNobodyAskedForComesLate() throws Exception {
    // Given a change whose answer needs no body, a refused one, and one to no route
    String host = "Host: 127.0.0.1\r\n";
    String ended = "GET /api/county HTTP/1.1\r\n" + host + "Connection: close\r\n\r\n";
    for (String head :
        new String[] {
          "DELETE /api/plan/run HTTP/1.1\r\n",
          "POST /api/defects HTTP/1.1\r\nOrigin: http://evil.example\r\n",
          "POST /api/nothing HTTP/1.1\r\n"
        }) {
      String first = head + host + "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n";
      // when its body comes after the desk could have answered, and another request behind it
      String answers = raw(first, "{}" + ended);
      // then that has its answer too (RFC 9112, 9.3: a connection persists unless one says close)
      assertEquals(2, answers.split("HTTP/1.1 ", -1).length - 1, answers);
    }
    // and where there is too much to read, the desk says that it hangs up (RFC 9112, 9.6)
    String large =
        "POST /api/defects HTTP/1.1\r\nOrigin: http://evil.example\r\n"
            + host
            + "Content-Type: application/json\r\nContent-Length: 65536\r\n\r\n";
    assertTrue(raw(large, "x".repeat(65_536)).contains("Connection: close"));
    String asks = large.replace("Origin", "Expect: 100-continue\r\nOrigin");
    assertTrue(raw(asks).contains("Connection: close"));
    // and so it does after what cannot be read as a request
    assertTrue(
        raw("GET /api/defects/%00 HTTP/1.1\r\n" + host + "\r\n").contains("Connection: close"));
  }

  /** Sends parts a moment apart. */
  private static String raw(String... request) throws Exception {
    int port = desk.at("/").getPort();
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      for (String part : request) {
        socket.getOutputStream().write(part.getBytes(StandardCharsets.US_ASCII));
        Thread.sleep(200);
      }
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void pagesMayAskThisDeskOnly() {
    String policy =
        desk.get("/map").whole().headers().firstValue("Content-Security-Policy").orElseThrow();
    assertTrue(policy.contains("default-src 'none'"), policy);
    assertFalse(policy.contains("http"), policy);
    assertFalse(policy.contains("unsafe"), policy);
  }

  @Test
  void whatIsNotThereIsAProblemOfRfc9457() {
    for (String path : new String[] {"/api/defects/none", "/api/nothing", "/api/routes/SR%20999"}) {
      SmallDesk.Answer answer = desk.get(path);
      assertEquals(404, answer.status(), path);
      assertEquals(
          "application/problem+json",
          answer
              .whole()
              .headers()
              .firstValue("Content-Type")
              .orElseThrow()
              .replaceFirst(";.*", ""));
      assertEquals(404, answer.json().path("status").asInt());
      assertFalse(answer.json().path("detail").asText().isEmpty());
    }
  }

  @Test
  void aMilepostLeadsToItsPointAndThePointBackToTheMilepost() {
    // Given a place in the middle of a road
    JsonNode route = desk.get("/api/county").json().path("routes").get(0);
    String id = route.path("id").asText();
    JsonNode line = desk.get("/api/routes/" + SmallDesk.coded(id).replace("+", "%20")).json();
    double lon = line.at("/parts/0/lon/3").asDouble();
    double lat = line.at("/parts/0/lat/3").asDouble();
    // when its milepost is asked for and looked up again
    JsonNode near =
        desk.get("/api/nearest?lon=" + lon + "&lat=" + lat + "&route=" + SmallDesk.coded(id))
            .json();
    JsonNode first = near.at("/spots/0");
    JsonNode found =
        desk.get(
                "/api/locate?q="
                    + SmallDesk.coded(
                        first.path("route").asText() + " " + first.path("milepost").asText()))
            .json();
    // then it is the same place, within the last digit of a milepost (0.0005 mi = 0.8 m)
    assertEquals(
        first.path("alongM").asDouble(),
        found.at("/spots/0/alongM").asDouble(),
        0.81,
        near.toString());
  }

  @Test
  void aFilterThatCannotBeReadSaysWhere() {
    JsonNode cql = desk.get("/api/filter?where=" + SmallDesk.coded("severity = 'huge'")).json();
    assertEquals(13, cql.path("position").asInt(), cql.toString());
    JsonNode words = desk.get("/api/filter?words=" + SmallDesk.coded("high ponies")).json();
    assertEquals(6, words.path("position").asInt(), words.toString());
    assertEquals("ponies", words.path("found").asText());
  }

  @Test
  void ofTwoWhoChangeTheSameDefectTheSecondSeesBothVersions() {
    // Given a defect that two have open
    ObjectNode read = (ObjectNode) desk.get("/api/defects?count=1&sort=id").json().at("/rows/0");
    String id = read.path("id").asText();
    String version = read.path("version").asText();
    ObjectNode mine = form(read).put("note", "mine");
    ObjectNode theirs = form(read).put("note", "theirs");
    String path = "/api/defects/" + id;
    // when both save
    SmallDesk.Answer first = desk.send("PUT", path, theirs.toString(), "If-Match", quoted(version));
    SmallDesk.Answer second = desk.send("PUT", path, mine.toString(), "If-Match", quoted(version));
    // then the second is refused with both, and may save over it knowingly
    assertEquals(200, first.status(), first.whole().body());
    assertEquals(412, second.status());
    assertEquals("mine", second.json().at("/yours/note").asText());
    assertEquals("theirs", second.json().at("/theirs/note").asText());
    String now = second.json().at("/theirs/version").asText();
    SmallDesk.Answer third = desk.send("PUT", path, mine.toString(), "If-Match", quoted(now));
    assertEquals("mine", third.json().path("note").asText());
    // and nothing but the note has changed
    ObjectNode after = (ObjectNode) desk.get(path).json();
    assertEquals(read.remove(Set.of("note", "version")), after.remove(Set.of("note", "version")));
    // and a change without a version is not taken
    assertEquals(428, desk.send("PUT", path, mine.toString()).status());
  }

  private static String quoted(String version) {
    return "\"" + version + "\"";
  }

  private static ObjectNode form(ObjectNode defect) {
    ObjectNode form = defect.deepCopy();
    return form.remove(
        Set.of("id", "version", "alongM", "size", "route", "milepost", "milepostTo", "lon", "lat"));
  }

  @Test
  void aNewDefectLiesAtItsMilepostAndIsOpen() {
    JsonNode there = desk.get("/api/defects?count=1&sort=-place").json().at("/rows/0");
    String form =
        """
        {"route":"%s","milepost":"%s","lane":"R1","kind":"pothole","severity":"high",
         "length":2,"width":1.5,"depth":3,"note":"added"}"""
            .formatted(there.path("route").asText(), there.path("milepost").asText());
    SmallDesk.Answer added = desk.send("POST", "/api/defects", form);
    assertEquals(201, added.status(), added.whole().body());
    String id = added.json().path("id").asText();
    Stored<Defect> row = desk.store().read(s -> s.defects().find(id)).orElseThrow();
    // 2 ft and 3 in by definition (NIST SP 811).
    assertEquals(0.6096, row.value().lengthM(), 1e-9);
    assertEquals(0.0762, row.value().depthM(), 1e-9);
    assertEquals(DefectStatus.OPEN, row.value().status());
    assertEquals(there.path("milepost").asText(), added.json().path("milepost").asText());
    // and its repair is explained, each number with its source
    JsonNode repair = desk.get("/api/defects/" + id + "/repair").json();
    assertFalse(repair.path("reason").asText().isEmpty());
    repair.path("figures").forEach(f -> assertFalse(f.path("source").asText().isEmpty()));
  }

  @Test
  void aFormThatCannotBeTakenNamesTheField() {
    String form =
        """
        {"route":"SR 999","milepost":"1","lane":"R1","kind":"pothole","severity":"high",
         "length":2,"width":1,"depth":3}""";
    SmallDesk.Answer refused = desk.send("POST", "/api/defects", form);
    assertEquals(422, refused.status(), refused.whole().body());
    assertEquals("route", refused.json().path("field").asText());
  }

  @Test
  void anExportHoldsWhatTheFilterChooses() {
    String where = SmallDesk.coded("severity = 'high'");
    int chosen = desk.get("/api/filter?where=" + where).json().path("chosen").asInt();
    String csv = desk.get("/api/exports/defects/csv?where=" + where).whole().body();
    assertEquals(chosen + 1, csv.lines().count());
  }

  @Test
  void aTreatmentChosenByHandGoesBeforeTheRulesAndIsTakenBack() {
    // Given what the rules say of a defect
    String id = desk.get("/api/defects?count=1&sort=-size").json().at("/rows/0/id").asText();
    String path = "/api/defects/" + id;
    JsonNode rules = desk.get(path + "/repair").json();
    String other = rules.path("code").asText().equals("hand_patch") ? "edge_repair" : "hand_patch";
    // when another is chosen without a note, it is refused; with one, it holds
    String silent = "{\"treatment\":\"" + other + "\",\"note\":\" \"}";
    String[] read = {"If-Match", quoted(rules.path("version").asText())};
    assertEquals(428, desk.send("PUT", path + "/treatment", silent).status());
    assertEquals(422, desk.send("PUT", path + "/treatment", silent, read).status());
    String said = "{\"treatment\":\"" + other + "\",\"note\":\"the grader is away\"}";
    JsonNode chosen = desk.send("PUT", path + "/treatment", said, read).json();
    assertEquals(other, chosen.path("code").asText());
    assertTrue(chosen.path("byHand").asBoolean());
    assertTrue(chosen.path("reason").asText().startsWith("the grader is away"));
    // and who read the rules before does not choose over it unseen
    SmallDesk.Answer second = desk.send("PUT", path + "/treatment", said, read);
    assertEquals(412, second.status());
    assertEquals("the grader is away", second.json().at("/theirs/note").asText());
    // and undoing that write brings the rules back, byte for byte
    JsonNode writes = desk.get("/api/changes").json();
    String edit = writes.get(writes.size() - 1).path("edit").asText();
    assertEquals(200, desk.send("POST", "/api/changes/" + edit + "/undo", "{}").status());
    assertEquals(rules, desk.get(path + "/repair").json());
    // and it is not undone twice
    assertEquals(409, desk.send("POST", "/api/changes/" + edit + "/undo", "{}").status());
  }

  @Test
  void whatWasRecordedTwiceIsMergedOnce() {
    // Given one hole recorded by two patrols, half a foot longer the second time
    JsonNode there = desk.get("/api/defects?count=1&sort=place").json().at("/rows/0");
    String form =
        """
        {"route":"%s","milepost":"%s","lane":"%s","kind":"depression","severity":"%s",
         "length":%s,"width":4,"depth":2,"foundOn":"%s","foundBy":"%s"}""";
    String[] ids = new String[2];
    for (int i = 0; i < 2; i++) {
      ids[i] =
          desk.send(
                  "POST",
                  "/api/defects",
                  form.formatted(
                      there.path("route").asText(),
                      there.path("milepost").asText(),
                      there.path("lane").asText(),
                      i == 0 ? "medium" : "high",
                      i == 0 ? "6" : "6.5",
                      i == 0 ? "2026-04-01" : "2026-04-09",
                      "patrol " + i))
              .json()
              .path("id")
              .asText();
    }
    JsonNode pair = null;
    for (JsonNode p : desk.get("/api/duplicates").json().path("pairs")) {
      if (p.at("/keep/id").asText().equals(ids[0]) && p.at("/drop/id").asText().equals(ids[1])) {
        pair = p;
      }
    }
    // when they are merged
    String settle =
        "{\"keep\":\"%s\",\"keepVersion\":%d,\"drop\":\"%s\",\"dropVersion\":%d}"
            .formatted(
                ids[0],
                pair.at("/keep/version").asLong(),
                ids[1],
                pair.at("/drop/version").asLong());
    SmallDesk.Answer kept = desk.send("POST", "/api/duplicates/merge", settle);
    // then the first has the worst of both, the second is withdrawn, and a second try is stale
    assertEquals(200, kept.status(), kept.whole().body());
    assertEquals("high", kept.json().path("severity").asText());
    assertEquals("withdrawn", desk.get("/api/defects/" + ids[1]).json().path("status").asText());
    assertEquals(412, desk.send("POST", "/api/duplicates/merge", settle).status());
  }
}
