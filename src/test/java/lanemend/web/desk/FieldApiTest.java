package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.awt.Color;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import lanemend.county.County;
import lanemend.store.Photo;
import lanemend.store.Store;
import lanemend.store.StoreBackup;
import lanemend.store.StoreCheck;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Entries and photos of phones, over HTTP as a phone sends them. */
class FieldApiTest {
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

  private int defects() {
    return desk.store().read(s -> s.defects().all()).size();
  }

  private SmallDesk.Answer put(String id, ObjectNode entry) {
    return desk.send("PUT", "/api/field/entries/" + id, entry.toString());
  }

  private static String id() {
    return UUID.randomUUID().toString();
  }

  @Test
  void anEntrySentTwentyTimesAtOnceArrivesOnce() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    int before = defects();
    String hash = Roadside.hash(desk, Color.GRAY);
    String id = id();
    ObjectNode entry = Roadside.with(Roadside.entry(spot, spot.on().routeId()), hash);
    ExecutorService phones = Executors.newFixedThreadPool(20);
    try {
      List<CompletableFuture<SmallDesk.Answer>> sent = new ArrayList<>();
      for (int i = 0; i < 20; i++) {
        sent.add(CompletableFuture.supplyAsync(() -> put(id, entry), phones));
      }
      List<SmallDesk.Answer> answers = sent.stream().map(CompletableFuture::join).toList();
      assertEquals(1, answers.stream().filter(a -> a.status() == 201).count());
      assertEquals(19, answers.stream().filter(a -> a.status() == 200).count());
      assertEquals(1, answers.stream().map(a -> a.json().path("key").asText()).distinct().count());
    } finally {
      phones.shutdown();
    }
    assertEquals(before + 1, defects());
    assertEquals(1, desk.store().read(s -> s.photos().all()).size());
  }

  @Test
  void aFindingSentAgainArrivesOnceAndOneThatSaysOtherwiseIsRefused() {
    // Given a culvert beside a road, as a phone notes it
    Roadside.Spot spot = Roadside.beside(desk, 1);
    int before = desk.store().read(s -> s.findings().all()).size();
    ObjectNode finding = Api.JSON.createObjectNode();
    finding.put("made", "2026-05-04T15:10:00Z").put("route", spot.on().routeId());
    finding.put("lon", spot.lon()).put("lat", spot.lat()).put("accuracyM", 6);
    finding.put("kind", "culvert").put("side", "right").put("foundOn", "2026-05-04");
    finding.put("foundBy", "Pat").put("note", "bank eroding");
    String path = "/api/field/findings/" + id();
    SmallDesk.Answer first = desk.send("PUT", path, finding.toString());
    assertEquals(201, first.status(), first.whole().body());
    // when its answer is lost and it comes again, then it is the same one
    SmallDesk.Answer again = desk.send("PUT", path, finding.toString());
    assertEquals(200, again.status());
    assertTrue(again.json().path("before").asBoolean());
    assertEquals(first.json().path("key"), again.json().path("key"));
    assertEquals(before + 1, desk.store().read(s -> s.findings().all()).size());
    // and another under its id is none
    assertEquals(409, desk.send("PUT", path, finding.put("note", "all well").toString()).status());
    // nor one without a road, a side or a kind there is
    for (String field : List.of("route", "side", "kind")) {
      ObjectNode wrong = finding.deepCopy();
      wrong.put(field, field.equals("route") ? "" : "none");
      SmallDesk.Answer refused = desk.send("PUT", "/api/field/findings/" + id(), wrong.toString());
      assertEquals(422, refused.status(), refused.whole().body());
      assertEquals(field, refused.json().path("field").asText());
    }
    assertEquals(before + 1, desk.store().read(s -> s.findings().all()).size());
  }

  @Test
  void twentyEntriesAtOnceAllArriveUnderIdsOfTheirOwn() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    int before = defects();
    ExecutorService phones = Executors.newFixedThreadPool(20);
    try {
      List<CompletableFuture<SmallDesk.Answer>> sent = new ArrayList<>();
      for (int i = 0; i < 20; i++) {
        sent.add(
            CompletableFuture.supplyAsync(
                () -> put(id(), Roadside.entry(spot, spot.on().routeId())), phones));
      }
      List<SmallDesk.Answer> answers = sent.stream().map(CompletableFuture::join).toList();
      assertEquals(20, answers.stream().filter(a -> a.status() == 201).count());
      assertEquals(20, answers.stream().map(a -> a.json().path("key").asText()).distinct().count());
    } finally {
      phones.shutdown();
    }
    assertEquals(before + 20, defects());
  }

  @Test
  void anEntrySentAgainAfterTheDeskWasStoppedArrivesOnce() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    String id = id();
    ObjectNode entry = Roadside.entry(spot, spot.on().routeId());
    String key = put(id, entry).json().path("key").asText();
    int after = defects();
    // Given that the desk is started again over the same file
    desk.close();
    desk = SmallDesk.again(folder);
    SmallDesk.Answer answer = put(id, entry);
    assertEquals(200, answer.status());
    assertTrue(answer.json().path("before").asBoolean());
    assertEquals(key, answer.json().path("key").asText());
    assertEquals(after, defects());
  }

  @Test
  void anEntryTakenBackDoesNotComeAgainAndOneChangedAfterItArrivedIsRefused() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    int before = defects();
    String id = id();
    ObjectNode entry = Roadside.entry(spot, spot.on().routeId());
    String key = put(id, entry).json().path("key").asText();
    long edit =
        desk.store().read(s -> s.writes()).stream().mapToLong(w -> w.edit()).max().orElseThrow();
    desk.store().undo(edit, "ann");
    assertEquals(before, defects());
    assertEquals(200, put(id, entry).status());
    assertEquals(before, defects());
    SmallDesk.Answer other = put(id, entry.deepCopy().put("severity", "low"));
    assertEquals(409, other.status());
    assertTrue(other.json().path("detail").asText().contains(key), other.json().toString());
  }

  @Test
  void theDefectLiesWhereThePhoneStoodAndSaysWhoFoundIt() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    JsonNode arrived = put(id(), Roadside.entry(spot, spot.on().routeId())).json();
    assertEquals("defect", arrived.path("became").asText());
    JsonNode defect = desk.get("/api/defects/" + arrived.path("key").asText()).json();
    assertEquals(spot.on().routeId(), defect.path("route").asText());
    assertEquals(spot.on().alongM(), defect.path("alongM").asDouble(), 0.5);
    assertEquals("Pat", defect.path("foundBy").asText());
    assertEquals(3, defect.path("length").asDouble(), 1e-9);
    assertEquals(2.5, defect.path("depth").asDouble(), 1e-9);
  }

  @Test
  void aPlaceThatIsNotClearWaitsWithItsPhotosUntilSomebodyPlacesIt() {
    // Given a phone at a crossing whose owner did not say which road
    Roadside.Spot spot = Roadside.beside(desk, 2);
    int before = defects();
    String hash = Roadside.hash(desk, Color.ORANGE);
    String id = id();
    ObjectNode entry = Roadside.with(Roadside.entry(spot, null), hash);
    JsonNode arrived = put(id, entry).json();
    assertEquals("field_entry", arrived.path("became").asText(), arrived.toString());
    assertEquals(before, defects());
    JsonNode waiting = desk.get("/api/field/entries").json();
    assertEquals(1, waiting.size());
    assertEquals(hash, waiting.get(0).path("photos").get(0).asText());
    assertTrue(waiting.get(0).path("reason").asText().contains("road"));
    // When somebody says which
    String milepost = spot.on().milepost().text();
    ObjectNode where = Api.JSON.createObjectNode().put("milepost", milepost);
    where.put("route", spot.on().routeId());
    SmallDesk.Answer placed =
        desk.send("POST", "/api/field/entries/" + id + "/place", where.toString());
    // Then it is a defect with its photo, waits no longer, and is placed once
    assertEquals(201, placed.status(), placed.whole().body());
    String key = placed.json().path("id").asText();
    assertEquals(before + 1, defects());
    assertEquals(
        hash, desk.get("/api/defects/" + key + "/photos").json().get(0).path("hash").asText());
    assertEquals(0, desk.get("/api/field/entries").json().size());
    assertEquals(
        409, desk.send("POST", "/api/field/entries/" + id + "/place", where.toString()).status());
    assertEquals(key, put(id, entry).json().path("key").asText());
    assertEquals(List.of(), StoreCheck.check(desk.store()));
  }

  @Test
  void anEntryIsSetAsideOnlyWithAReason() {
    Roadside.Spot spot = Roadside.beside(desk, 2);
    String id = id();
    put(id, Roadside.entry(spot, null));
    String path = "/api/field/entries/" + id + "/withdraw";
    assertEquals(422, desk.send("POST", path, "{\"note\":\" \"}").status());
    assertEquals(200, desk.send("POST", path, "{\"note\":\"a private drive\"}").status());
    assertEquals(0, desk.get("/api/field/entries").json().size());
    assertEquals(
        "a private drive",
        desk.store().read(s -> s.fieldEntries().find(id)).orElseThrow().value().note());
  }

  @Test
  void whatCannotBeTakenIsRefusedWithItsFieldAndCanBeSentAgainMended() {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    String id = id();
    ObjectNode entry = Roadside.entry(spot, spot.on().routeId());
    SmallDesk.Answer refused = put(id, entry.deepCopy().put("width", -2));
    assertEquals(422, refused.status());
    assertEquals("width", refused.json().path("field").asText());
    ObjectNode byMilepost = entry.deepCopy();
    byMilepost.putNull("lon").putNull("lat").put("milepost", "9999");
    assertEquals("milepost", put(id, byMilepost).json().path("field").asText());
    assertEquals(422, put(id, entry.deepCopy().put("units", "metric")).status());
    ObjectNode lost = Roadside.with(entry.deepCopy(), "0".repeat(64));
    assertEquals(409, put(id, lost).status());
    assertEquals(400, put("not-a-uuid", entry).status());
    assertEquals(201, put(id, entry).status());
  }

  @Test
  void theRoadsForThePhoneAreSentOnceAndSayTheSamePlaces() throws Exception {
    HttpResponse<String> first = desk.get("/api/field/county").whole();
    JsonNode county = Api.JSON.readTree(first.body());
    assertEquals(County.read(desk.store()).network().routes().size(), county.path("roads").size());
    HttpResponse<String> again =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(desk.at("/api/field/county"))
                    .header("If-None-Match", first.headers().firstValue("ETag").orElseThrow())
                    .build(),
                HttpResponse.BodyHandlers.ofString());
    assertEquals(304, again.statusCode());
    JsonNode road = county.path("roads").get(0);
    var route = County.read(desk.store()).network().routes().get(road.path("id").asText());
    long along = 0;
    for (JsonNode step : road.path("parts").get(0).path("along")) {
      along += step.asLong();
    }
    assertEquals(route.parts().get(0).toAlong(), along / 10.0, 0.05);
  }

  @Test
  void aDoneReportSentTwiceIsHistoryOnceWithItsPhotos() {
    JsonNode day = desk.get("/api/sheets").json().path("days").get(0);
    String path =
        "/api/sheets/"
            + day.path("date").asText()
            + "/"
            + SmallDesk.coded(day.path("crew").asText());
    JsonNode repair = desk.get(path).json().path("day").path("zones").get(0).path("repairs").get(0);
    String hash = Roadside.hash(desk, Color.DARK_GRAY);
    ObjectNode report = Api.JSON.createObjectNode().put("entry", id()).put("on", "2026-05-05");
    ObjectNode one = report.putArray("repairs").addObject();
    one.put("repair", repair.path("id").asText()).put("mix", 3.5).put("hours", 6);
    Roadside.with(one, hash);
    int patches = desk.store().read(s -> s.patches().all()).size();
    ExecutorService phones = Executors.newFixedThreadPool(8);
    try {
      List<CompletableFuture<SmallDesk.Answer>> sent = new ArrayList<>();
      for (int i = 0; i < 8; i++) {
        sent.add(
            CompletableFuture.supplyAsync(
                () -> desk.send("POST", path + "/done", report.toString()), phones));
      }
      sent.forEach(a -> assertEquals(200, a.join().status(), a.join().whole().body()));
    } finally {
      phones.shutdown();
    }
    assertEquals(patches + 1, desk.store().read(s -> s.patches().all()).size());
    // in the history of the crew
    JsonNode recorded = desk.get("/api/sheets").json().path("recorded").get(0);
    assertEquals(hash, recorded.path("photos").get(0).asText());
    // and with the defect
    String defect = repair.path("id").asText().replaceFirst("#.*", "");
    JsonNode photos = desk.get("/api/defects/" + defect + "/photos").json();
    assertEquals("patch", photos.get(0).path("of").asText());
    assertEquals("2026-05-05", photos.get(0).path("takenOn").asText());
  }

  @Test
  void aPhotoIsAddedToADefectTakenOffAndBroughtBack() {
    String defect = desk.store().read(s -> s.defects().all()).get(0).id();
    String path = "/api/defects/" + SmallDesk.coded(defect) + "/photos";
    String hash = Roadside.hash(desk, Color.BLUE);
    assertEquals(201, desk.send("POST", path, "{\"hash\":\"" + hash + "\"}").status());
    JsonNode added = desk.send("POST", path, "{\"hash\":\"" + hash + "\"}").json();
    assertEquals(1, added.size(), "said twice it is there once");
    String photo = added.get(0).path("id").asText();
    assertEquals(0, desk.send("DELETE", path + "/" + photo, "").json().size());
    long edit =
        desk.store().read(s -> s.writes()).stream().mapToLong(w -> w.edit()).max().orElseThrow();
    assertEquals(200, desk.send("POST", "/api/changes/" + edit + "/undo", "").status());
    assertEquals(1, desk.get(path).json().size());
    assertEquals(
        404, desk.send("POST", "/api/defects/none/photos", "{\"hash\":\"" + hash + "\"}").status());
  }

  @Test
  void theFileIsServedAsThePictureItIsAndNothingElse() {
    String hash = Roadside.hash(desk, Color.GREEN);
    HttpResponse<String> answer = desk.get("/api/photos/" + hash).whole();
    assertEquals("image/jpeg", answer.headers().firstValue("Content-Type").orElse(""));
    assertEquals("nosniff", answer.headers().firstValue("X-Content-Type-Options").orElse(""));
    String policy = answer.headers().firstValue("Content-Security-Policy").orElse("");
    assertEquals("default-src 'none'; sandbox", policy);
    assertEquals(404, desk.get("/api/photos/" + "1".repeat(64)).status());
    assertEquals(404, desk.get("/api/photos/..%2Flanemend.gpkg").status());
    byte[] page =
        "<html><script>alert(1)</script></html>".getBytes(java.nio.charset.StandardCharsets.UTF_8);
    SmallDesk.Answer refused = Roadside.send(desk, page, "image/jpeg");
    assertEquals(422, refused.status());
    assertTrue(refused.json().path("detail").asText().contains("neither JPEG nor PNG"));
    assertEquals(400, Roadside.send(desk, page, "text/plain").status());
  }

  @Test
  void photosGoWithABackupAndNotWithAnExport() throws Exception {
    Roadside.Spot spot = Roadside.beside(desk, 1);
    String hash = Roadside.hash(desk, Color.MAGENTA);
    String key =
        put(id(), Roadside.with(Roadside.entry(spot, spot.on().routeId()), hash))
            .json()
            .path("key")
            .asText();
    Path copy = folder.resolve("backup/copy.gpkg");
    StoreBackup.copy(desk.store().file(), copy);
    try (Store back = Store.open(copy)) {
      assertEquals(key, back.read(s -> s.photosOf(Photo.Of.DEFECT, key)).get(0).value().ownerId());
      byte[] was = desk.store().read(s -> s.photoContent(hash)).orElseThrow().bytes();
      org.junit.jupiter.api.Assertions.assertArrayEquals(
          was, back.read(s -> s.photoContent(hash)).orElseThrow().bytes());
      assertEquals(List.of(), StoreCheck.check(back));
    }
    String csv = desk.get("/api/exports/defects/csv").whole().body();
    assertTrue(csv.contains(key), "the export has the defect");
    assertFalse(csv.contains(hash), "and not its photo");
    assertTrue(Files.exists(copy));
  }
}
