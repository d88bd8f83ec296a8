package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import com.fasterxml.jackson.databind.JsonNode;
import java.net.InetAddress;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import org.slf4j.event.KeyValuePair;

/** The desk as its operator sees it: health, metrics, log, and what befalls requests. */
class OperationsTest {
  @TempDir Path folder;
  private SmallDesk desk;
  private final Logger logger = (Logger) LoggerFactory.getLogger("lanemend");
  private final ListAppender<ILoggingEvent> log = new ListAppender<>();

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
    log.start();
    logger.setLevel(Level.INFO);
    logger.addAppender(log);
  }

  @AfterEach
  void close() {
    logger.detachAppender(log);
    logger.setLevel(null);
    desk.close();
  }

  @Test
  void healthTellsTheStoresStateHereAndLittleElsewhere() {
    JsonNode here = desk.get("/health").json();
    assertEquals("up", here.path("status").asText());
    assertEquals("ok", here.at("/more/store").asText());
    assertTrue(here.at("/more/lastEdit").asLong() > 0);
    assertTrue(here.at("/more/freeBytes").asLong() > 0);
    assertTrue(here.at("/more/backupAgeSeconds").isNull(), "no copy was made yet");
    // Through a proxy comes anybody.
    JsonNode far =
        desk.send(HttpRequest.newBuilder(desk.at("/health")).header("X-Forwarded-For", "192.0.2.7"))
            .json();
    assertEquals("{\"status\":\"up\",\"more\":null}", far.toString());
    assertEquals(
        403,
        desk.send(
                HttpRequest.newBuilder(desk.at("/metrics")).header("X-Forwarded-For", "192.0.2.7"))
            .status());
  }

  @Test
  void metricsAreInTheTextFormatOfPrometheusAndCount() {
    Map<String, Double> before = metrics();
    desk.get("/api/defects?count=1");
    desk.get("/api/defects?count=1");
    desk.get("/api/defects/none");
    desk.store().write("ann", "a setting", c -> c.putSetting("a", "1"));
    pause(1_100);
    Map<String, Double> after = metrics();
    String list = "lanemend_requests_total{method=\"get\",route=\"/api/defects\",status=\"200\"}";
    String one =
        "lanemend_requests_total{method=\"get\",route=\"/api/defects/{id}\",status=\"404\"}";
    assertEquals(2, after.get(list) - before.getOrDefault(list, 0.0));
    assertEquals(1, after.get(one) - before.getOrDefault(one, 0.0));
    assertEquals(1, after.get("lanemend_changes_total") - before.get("lanemend_changes_total"));
    assertTrue(after.get("lanemend_store_bytes") > 100_000);
    assertTrue(after.get("lanemend_request_seconds_count{kind=\"read\"}") >= 3);
    assertTrue(after.containsKey("jvm_threads_current"), after.keySet().toString());
  }

  /** Read by the rules of the text format 0.0.4 (prometheus.io, "Exposition formats"). */
  private Map<String, Double> metrics() {
    SmallDesk.Answer answer = desk.get("/metrics");
    String type = answer.whole().headers().firstValue("Content-Type").orElseThrow();
    assertTrue(type.startsWith("text/plain; version=0.0.4"), type);
    assertTrue(answer.whole().body().endsWith("\n"));
    Map<String, Double> values = new TreeMap<>();
    for (String line : answer.whole().body().lines().toList()) {
      if (line.startsWith("#")) {
        assertTrue(line.matches("# (HELP|TYPE) [a-zA-Z_:][a-zA-Z0-9_:]* .+"), line);
      } else {
        assertTrue(line.matches("[a-zA-Z_:][a-zA-Z0-9_:]*([{].*[}])? \\S+"), line);
        int end = line.lastIndexOf(' ');
        String value = line.substring(end + 1).replace("+Inf", "Infinity");
        values.put(line.substring(0, end), Double.parseDouble(value));
      }
    }
    return values;
  }

  @Test
  void aRequestIsLoggedByItsRouteAndNotByWhatWasAskedFor() {
    desk.get("/api/nearest?lon=-93.1&lat=41.5");
    String id = desk.get("/api/defects?count=1").json().at("/rows/0/id").asText();
    desk.get("/api/defects/" + SmallDesk.coded(id));
    Map<String, Object> said = await("/api/defects/{id}");
    assertEquals("get", said.get("method"));
    assertEquals(200, said.get("status"));
    assertEquals("tester", said.get("who"));
    assertTrue(((Number) said.get("ms")).doubleValue() >= 0);
    String all = lines().toString();
    assertFalse(all.contains(id) || all.contains("-93.1"), all);
  }

  @Test
  void aFaultIsToldWithAnIdThatTheLogHas() throws Exception {
    // Given a store that lost a table under the running desk
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + desk.store().file());
        Statement s = c.createStatement()) {
      s.execute("ALTER TABLE change_log RENAME TO taken_away");
    }
    // when somebody reads what was written
    JsonNode told = desk.get("/api/changes").json();
    // then the answer and the log have the same id
    String id = told.path("fault").asText();
    assertEquals(500, told.path("status").asInt(), told.toString());
    assertTrue(id.matches("[0-9a-f]{8}"), told.toString());
    assertTrue(told.path("detail").asText().endsWith("(fault " + id + " in the log)"));
    assertTrue(
        log.list.stream()
            .filter(e -> e.getLevel().equals(Level.ERROR))
            .map(OperationsTest::pairs)
            .anyMatch(p -> id.equals(p.get("fault"))));
    // and health says so, too
    pause(1_100);
    SmallDesk.Answer health = desk.get("/health");
    assertEquals(503, health.status());
    assertEquals("store_fails", health.json().path("status").asText());
  }

  @Test
  void anUploadThatBreaksOffChangesNothingAndIsNoFault() throws Exception {
    int before = desk.get("/api/defects?count=0").json().path("total").asInt();
    long writes = desk.store().read(s -> s.lastChange());
    String head =
        "POST /api/defects HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
            + "Content-Length: 4000\r\n\r\n{\"route\": \"SR";
    for (int i = 0; i < 5; i++) {
      try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.at("/").getPort())) {
        socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
        socket.getOutputStream().flush();
        pause(50);
        // Cut: what was promised never comes.
        socket.setSoLinger(true, i % 2 == 0 ? 0 : 1);
      }
    }
    pause(500);
    assertEquals(before, desk.get("/api/defects?count=0").json().path("total").asInt());
    assertEquals(writes, (long) desk.store().read(s -> s.lastChange()));
    assertEquals(
        List.of(),
        log.list.stream().filter(e -> e.getLevel().isGreaterOrEqual(Level.WARN)).toList());
    Map<String, Object> said = await("/api/defects", "post");
    assertTrue(((Number) said.get("status")).intValue() < 500, said.toString());
  }

  private Map<String, Object> await(String route, String... method) {
    for (int i = 0; i < 100; i++) {
      for (Map<String, Object> line : lines()) {
        boolean of = method.length == 0 || method[0].equals(line.get("method"));
        if (route.equals(line.get("route")) && of) {
          return line;
        }
      }
      pause(50);
    }
    throw new AssertionError("no line of " + route + " in " + lines());
  }

  private List<Map<String, Object>> lines() {
    return List.copyOf(log.list).stream().map(OperationsTest::pairs).toList();
  }

  private static Map<String, Object> pairs(ILoggingEvent event) {
    List<KeyValuePair> pairs = event.getKeyValuePairs();
    return pairs == null
        ? Map.of()
        : pairs.stream().collect(Collectors.toMap(p -> p.key, p -> p.value));
  }

  private static void pause(long millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
