package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.renewal.StudyProgress;
import lanemend.store.Change;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** The last renewal study stays when the desk is closed and opened again. */
class KeptStudyTest {
  private static final String FILE = "last-study.json.gz";

  @TempDir Path folder;
  private SmallDesk desk;
  private final ListAppender<ILoggingEvent> log = new ListAppender<>();

  @BeforeEach
  void study() throws IOException {
    desk = SmallDesk.weakRoad(folder);
    log.start();
    ((Logger) LoggerFactory.getLogger("lanemend.renewal")).addAppender(log);
    studyNow();
  }

  private void studyNow() {
    desk.send("POST", "/api/renewal/run", "{}");
    long end = System.nanoTime() + 120_000_000_000L;
    while (!renewal().at("/run/state").asText().equals("done") && System.nanoTime() < end) {
      try {
        Thread.sleep(30);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
    assertTrue(Files.exists(folder.resolve(FILE)), "it is kept before it is said to be done");
  }

  @AfterEach
  void close() {
    ((Logger) LoggerFactory.getLogger("lanemend.renewal")).detachAppender(log);
    desk.close();
  }

  private void startAgain() {
    desk.close();
    desk = SmallDesk.again(folder);
  }

  private JsonNode renewal() {
    return desk.get("/api/renewal").json();
  }

  private String said() {
    return log.list.stream().map(ILoggingEvent::getFormattedMessage).toList().toString();
  }

  /** Everything an engineer sees of the study, to the letter. */
  private Map<String, String> shown() {
    Map<String, String> pages = new LinkedHashMap<>();
    List<String> paths =
        new ArrayList<>(List.of("/api/renewal/sections", "/api/routes/SR%203/strip"));
    for (JsonNode row : desk.get("/api/renewal/sections").json().path("rows")) {
      String section = "?section=" + SmallDesk.coded(row.path("id").asText());
      paths.add("/api/renewal/evidence" + section);
      paths.add("/api/renewal/evidence/page" + section);
    }
    paths.forEach(p -> pages.put(p, desk.get(p).whole().body()));
    pages.put("study", renewal().path("study").toString());
    return pages;
  }

  @Test
  void afterAStartSectionsEvidenceHindcastAndProgramAreAsTheyWere() {
    Map<String, String> before = shown();
    assertTrue(before.size() > 4, "there is a flagged section");
    startAgain();
    assertEquals("none", renewal().at("/run/state").asText(), "nobody studied");
    assertEquals(before, shown());
    assertFalse(renewal().path("earlier").asBoolean());
    assertEquals(List.of(), log.list);
  }

  /**
   * Cluster.byHand, forecasts and outlooks use the model itself: to the last bit it is the one that
   * was fitted.
   */
  @Test
  void theModelIsTheSameToTheLastBit() throws IOException {
    County county = County.read(desk.store());
    CountyRenewal made = CountyRenewal.of(county, StudyProgress.NONE);
    var kept = lanemend.exchange.StudyFile.read(folder.resolve(FILE)).flagged();
    assertEquals(made.study().clusters(), kept.clusters());
    var h = made.study().model().histories();
    for (int i = 0; i < h.size(); i++) {
      assertEquals(h.cell(i), kept.model().histories().cell(i));
      assertEquals(made.study().model().level(i), kept.model().level(i));
      assertEquals(made.study().model().outlook(i), kept.model().outlook(i));
      assertArrayEquals(
          made.study().model().familyFit(h.family(i)).covariance(),
          kept.model().familyFit(h.family(i)).covariance());
    }
  }

  @Test
  void whatWasDecidedAndRepairedWhileItWasClosedCounts() {
    write(c -> c.patches().insert(oneMore(c.patches().all().get(0))));
    startAgain();
    assertTrue(renewal().path("earlier").asBoolean(), "a repair was recorded since");
    assertEquals(1, renewal().at("/study/flagged").asInt());
    JsonNode row = desk.get("/api/renewal/sections").json().path("rows").get(0);
    SmallDesk.Answer kept =
        desk.send(
            "POST",
            "/api/renewal/decisions",
            "{\"kind\": \"rejected\", \"route\": \"SR 3\", \"from\": \"%s\", \"to\": \"%s\","
                    .formatted(row.path("milepost").asText(), row.path("milepostTo").asText())
                + "\"newFrom\": null, \"newTo\": null, \"year\": null,"
                + " \"reason\": \"drained anew\", \"by\": \"E. Invented, P.E.\"}",
            "If-Match",
            "\"0\"");
    assertEquals(200, kept.status(), kept.whole().body());
    Map<String, String> decided = shown();
    startAgain();
    assertEquals(decided, shown());
    assertTrue(renewal().path("earlier").asBoolean(), "it still is");
  }

  private static PastPatch oneMore(PastPatch p) {
    return new PastPatch(
        "P-more", p.work(), p.place(), p.lane(), LocalDate.of(2025, 12, 1), 1.0, null, null);
  }

  private void write(Consumer<Change> work) {
    desk.store().write("tester", "meanwhile", work);
  }

  @Test
  void otherRoadFactsEndIt() {
    write(
        c -> {
          RoadAttribute a = c.attributes().all().get(0);
          c.attributes().insert(a);
        });
    startAgain();
    assertTrue(renewal().path("study").isNull());
    assertTrue(said().contains("facts of them were written since"), said());
  }

  @Test
  void aDamagedFileIsPassedOverWithOneLine() throws IOException {
    byte[] whole = Files.readAllBytes(folder.resolve(FILE));
    // Given one that broke off, one that is no such file at all, and an empty one
    for (byte[] bad :
        List.of(
            java.util.Arrays.copyOf(whole, whole.length / 2),
            "not packed".getBytes(StandardCharsets.UTF_8),
            new byte[0])) {
      log.list.clear();
      Files.write(folder.resolve(FILE), bad);
      startAgain();
      assertTrue(renewal().path("study").isNull());
      assertEquals(1, log.list.size(), said());
      assertTrue(said().contains("not taken up: it cannot be read"), said());
    }
  }

  @Test
  void anotherVersionsFileIsPassedOver() throws IOException {
    rewrite("\"program\":\"", "\"program\":\"another ");
    startAgain();
    assertTrue(renewal().path("study").isNull());
    assertTrue(said().contains("another version"), said());
  }

  @Test
  void partsThatDoNotGoTogetherArePassedOver() throws IOException {
    rewrite("\"clusters\":[", "\"clusters\":[],\"none\":[");
    startAgain();
    assertTrue(renewal().path("study").isNull());
    assertEquals(1, log.list.size(), said());
  }

  private void rewrite(String from, String to) throws IOException {
    Path file = folder.resolve(FILE);
    String text;
    try (GZIPInputStream in = new GZIPInputStream(Files.newInputStream(file))) {
      text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    assertTrue(text.contains(from), text.substring(0, 200));
    try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
      out.write(text.replace(from, to).getBytes(StandardCharsets.UTF_8));
    }
  }

  /** A store that was put back from a copy goes on with other writes under the same numbers. */
  @Test
  void ofAStoreThatWasPutBackItIsNotTakenUp() throws IOException {
    // Given a study of records of which one came after the copy was made
    write(c -> c.patches().insert(oneMore(c.patches().all().get(0))));
    studyNow();
    desk.close();
    // and the copy, in which another was written since
    Path back = Files.createDirectory(folder.resolve("back"));
    desk = SmallDesk.weakRoad(back);
    write(c -> c.patches().insert(oneMore(c.patches().all().get(1))));
    desk.close();
    Files.copy(folder.resolve(FILE), back.resolve(FILE));
    // When the desk is opened over it
    desk = SmallDesk.again(back);
    // Then
    assertTrue(renewal().path("study").isNull());
    assertTrue(said().contains("of another store"), said());
  }

  @Test
  void withoutTheFileThereIsNoStudyAndNothingIsSaid() throws IOException {
    Files.delete(folder.resolve(FILE));
    startAgain();
    assertTrue(renewal().path("study").isNull());
    assertEquals(List.of(), log.list);
    try (var files = Files.list(folder)) {
      assertTrue(files.noneMatch(f -> f.toString().endsWith(".new")));
    }
  }
}
