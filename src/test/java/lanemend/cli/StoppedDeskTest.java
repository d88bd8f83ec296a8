package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.InputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code serve} as a process, and real signals. */
class StoppedDeskTest {
  @TempDir static Path folder;
  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final ObjectMapper JSON = new ObjectMapper();
  private static Path work;

  @BeforeAll
  static void aPlannedCounty() throws Exception {
    Path files = folder.resolve("files");
    work = folder.resolve("work");
    SampleCounty.write(files, new SampleSize(150, 60, 8, 1), 7);
    Commands.importCounty(files, work);
  }

  @AfterAll
  static void nothingStandsBesideTheStore() {
    assertFalse(Files.exists(work.resolve("lanemend.gpkg-wal")), "the log was folded in");
  }

  private static Program serve() {
    return Program.start("serve", "--port", "0", "--work", work.toString());
  }

  @Test
  void sigtermEndsADeskWithCodeZeroAndAFoldedLog() throws Exception {
    Files.deleteIfExists(work.resolve("logs/desk.log"));
    try (Program desk = serve()) {
      String address = desk.address();
      assertEquals(200, get(address + "health").statusCode());
      assertTrue(Files.exists(work.resolve("lanemend.gpkg-wal")), "it is open");
      desk.term();
      assertEquals(ExitCode.DONE, desk.end(), desk.said());
    }
    assertFalse(Files.exists(work.resolve("lanemend.gpkg-wal")));
    List<JsonNode> lines = new ArrayList<>();
    for (String line : Files.readAllLines(work.resolve("logs/desk.log"))) {
      lines.add(JSON.readTree(line));
    }
    List<String> said = lines.stream().map(l -> l.path("message").asText()).toList();
    assertTrue(
        said.indexOf("desk started") < said.indexOf("request")
            && said.indexOf("request") < said.indexOf("desk stopping")
            && said.indexOf("desk stopping") < said.lastIndexOf("command"),
        said.toString());
    JsonNode request = lines.get(said.indexOf("request"));
    assertEquals("/health", request.path("route").asText());
    assertEquals(200, request.path("status").asInt());
  }

  @Test
  void aRequestAtHandIsAnsweredAndNoNewOneTaken() throws Exception {
    try (Program desk = serve()) {
      URI at = URI.create(desk.address());
      try (Socket slow = new Socket(at.getHost(), at.getPort())) {
        // Given a request whose second half is still to come
        String body = "{\"words\": \"x\"}";
        String head =
            "POST /api/plan/releases HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n"
                + "Content-Type: application/json\r\nContent-Length: "
                + body.length()
                + "\r\n\r\n";
        slow.getOutputStream()
            .write((head + body.substring(0, 5)).getBytes(StandardCharsets.UTF_8));
        slow.getOutputStream().flush();
        Program.pause(150);
        // when the desk is told to end; who is slower than a second then is given up
        desk.term();
        Program.pause(300);
        assertTrue(desk.isAlive(), "it waits for the request at hand");
        assertTrue(refusesNew(at), "and takes no other");
        slow.getOutputStream().write(body.substring(5).getBytes(StandardCharsets.UTF_8));
        slow.getOutputStream().flush();
        // then that request has its answer all the same
        InputStream in = slow.getInputStream();
        String answer = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(answer.startsWith("HTTP/1.1 400"), "answered as ever: " + answer);
      }
      assertEquals(ExitCode.DONE, desk.end(), desk.said());
    }
  }

  private static boolean refusesNew(URI at) throws InterruptedException {
    try {
      return get(at + "health").statusCode() == 503;
    } catch (java.io.IOException e) {
      return true;
    }
  }

  @Test
  void aPlanRunIsGivenUp() throws Exception {
    try (Program desk = serve()) {
      String address = desk.address();
      long before = JSON.readTree(get(address + "health").body()).at("/more/lastEdit").asLong();
      HttpRequest start =
          HttpRequest.newBuilder(URI.create(address + "api/plan/run"))
              .header("Content-Type", "application/json")
              .POST(HttpRequest.BodyPublishers.ofString("{\"seconds\": 600, \"adjust\": false}"))
              .build();
      assertEquals(202, CLIENT.send(start, HttpResponse.BodyHandlers.ofString()).statusCode());
      Program.pause(500);
      long told = System.nanoTime();
      desk.term();
      assertEquals(ExitCode.DONE, desk.end(), desk.said());
      assertTrue((System.nanoTime() - told) / 1e9 < 60, "600 seconds were asked for");
      String log = Files.readString(work.resolve("logs/desk.log"));
      assertTrue(log.contains("the desk was stopped while it planned"), log);
      try (lanemend.store.Store store = lanemend.store.Store.open(work.resolve("lanemend.gpkg"))) {
        assertEquals(before, lanemend.store.StoreState.of(store).lastEdit(), "no plan was kept");
      }
    }
  }

  @Test
  void theSecondCtrlCEndsItAtOnce() throws Exception {
    try (Program desk = serve()) {
      URI at = URI.create(desk.address());
      try (Socket slow = new Socket(at.getHost(), at.getPort())) {
        slow.getOutputStream()
            .write(
                ("POST /api/plan/releases HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type:"
                        + " application/json\r\nContent-Length: 10\r\n\r\n{")
                    .getBytes(StandardCharsets.UTF_8));
        Program.pause(300);
        desk.term();
        Program.pause(300);
        desk.term();
        assertTrue(desk.end() != ExitCode.DONE, "it was cut short");
      }
    }
    // What a cut leaves is made good by the next opening.
    assertEquals(0, new Shell(work).run("check").err().length());
  }

  private static HttpResponse<String> get(String address)
      throws java.io.IOException, InterruptedException {
    return CLIENT.send(
        HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
  }
}
