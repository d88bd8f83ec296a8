package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLException;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import lanemend.accounts.Accounts;
import lanemend.accounts.Role;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How the desk is reached: TLS, a proxy, sizes, and what tries to climb out of where it belongs.
 */
class DoorTest {
  private static final String SECRET = "key store secret";
  private static final String SIGN_IN =
      "{\"name\":\"Ann Lee\",\"password\":\"" + People.PASSWORD + "\"}";

  @TempDir Path folder;
  private Accounts accounts;

  @BeforeEach
  void open() {
    accounts = Accounts.open(folder);
    accounts.add(
        "Ann Lee", Set.of(Role.PLANNER), People.PASSWORD, true, new Accounts.Actor("test", ""));
  }

  @AfterEach
  void close() {
    accounts.close();
  }

  /** A certificate for this computer, by the tool that comes with Java. */
  private Path keystore() throws Exception {
    Path file = folder.resolve("desk.p12");
    Process made =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
                "-genkeypair",
                "-alias",
                "desk",
                "-keyalg",
                "EC",
                "-storetype",
                "PKCS12",
                "-keystore",
                file.toString(),
                "-storepass",
                SECRET,
                "-dname",
                "CN=localhost",
                "-ext",
                "san=dns:localhost,ip:127.0.0.1",
                "-validity",
                "2")
            .redirectErrorStream(true)
            .start();
    String said = new String(made.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, made.waitFor(), said);
    return file;
  }

  private static SSLContext trusting(Path keystore) throws Exception {
    KeyStore keys = KeyStore.getInstance("PKCS12");
    keys.load(new ByteArrayInputStream(Files.readAllBytes(keystore)), SECRET.toCharArray());
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry("desk", keys.getCertificate("desk"));
    TrustManagerFactory factory = TrustManagerFactory.getInstance("PKIX");
    factory.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, factory.getTrustManagers(), null);
    return context;
  }

  @Test
  void overTlsTheCookieIsForThisHostOnlyAndOldVersionsAreRefused() throws Exception {
    Path keystore = keystore();
    Door door =
        new Door(
            "127.0.0.1",
            Optional.of(new Door.Tls(keystore, SECRET)),
            Optional.empty(),
            Set.of(),
            Optional.of(accounts));
    try (SmallDesk desk = SmallDesk.open(folder, door)) {
      String address = desk.address();
      assertTrue(address.startsWith("https://"), address);
      SSLContext context = trusting(keystore);
      HttpClient client = HttpClient.newBuilder().sslContext(context).build();
      HttpResponse<String> in =
          client.send(
              HttpRequest.newBuilder(URI.create(address + "api/session"))
                  .header("Content-Type", "application/json")
                  .header("Origin", address.replaceFirst("/$", ""))
                  .POST(HttpRequest.BodyPublishers.ofString(SIGN_IN))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      assertEquals(200, in.statusCode(), in.body());
      String cookie = in.headers().firstValue("Set-Cookie").orElseThrow();
      assertTrue(cookie.startsWith("__Host-") && cookie.contains("Secure"), cookie);
      String only = in.headers().firstValue("Strict-Transport-Security").orElseThrow();
      assertTrue(only.contains("max-age=31536000"), only);
      for (String version : List.of("TLSv1.3", "TLSv1.2")) {
        try (SSLSocket socket = socket(context, address, version)) {
          socket.startHandshake();
          assertEquals(version, socket.getSession().getProtocol());
        }
      }
      assertThrows(
          SSLException.class,
          () -> {
            try (SSLSocket socket = socket(context, address, "TLSv1.1")) {
              socket.startHandshake();
            }
          });
    }
    Door wrong =
        new Door(
            "127.0.0.1",
            Optional.of(new Door.Tls(keystore, "not it")),
            Optional.empty(),
            Set.of(),
            Optional.of(accounts));
    String said =
        assertThrows(IllegalStateException.class, () -> DeskTls.check(wrong.tls().orElseThrow()))
            .getMessage();
    assertTrue(said.contains("desk.p12") && !said.contains("not it"), said);
  }

  private static SSLSocket socket(SSLContext context, String address, String version)
      throws Exception {
    URI at = URI.create(address);
    SSLSocket socket =
        (SSLSocket) context.getSocketFactory().createSocket(at.getHost(), at.getPort());
    socket.setEnabledProtocols(new String[] {version});
    return socket;
  }

  @Test
  void onlyTheProxyIsAnsweredAndWhatItSaysOfTheOtherSideIsBelieved() throws Exception {
    Door door =
        new Door(
            "127.0.0.1",
            Optional.empty(),
            Optional.of(Door.resolved("127.0.0.1")),
            Set.of("desk.example"),
            Optional.of(accounts));
    String proxied = "X-Forwarded-Proto: https\r\nX-Forwarded-For: 6.6.6.6, 203.0.113.9\r\n";
    try (SmallDesk desk = SmallDesk.open(folder, door)) {
      String session = "GET /api/session HTTP/1.1\r\nHost: %s\r\n%sConnection: close\r\n\r\n";
      assertTrue(raw(desk, session.formatted("desk.example", proxied)).startsWith("HTTP/1.1 200"));
      assertTrue(raw(desk, session.formatted("127.0.0.1", proxied)).startsWith("HTTP/1.1 403"));
      assertTrue(raw(desk, session.formatted("desk.example", "")).startsWith("HTTP/1.1 403"));
      String in =
          "POST /api/session HTTP/1.1\r\nHost: desk.example\r\nOrigin: https://desk.example\r\n"
              + proxied
              + "Content-Type: application/json\r\nContent-Length: "
              + SIGN_IN.length()
              + "\r\nConnection: close\r\n\r\n"
              + SIGN_IN;
      String answer = raw(desk, in);
      assertTrue(answer.startsWith("HTTP/1.1 200"), answer);
      assertTrue(answer.contains("__Host-lanemend="), answer);
      // The last address is the proxy's word; those before it are anybody's.
      assertEquals("203.0.113.9", accounts.audit(Long.MAX_VALUE, 1).get(0).from());
    }
    Door elsewhere =
        new Door(
            "127.0.0.1",
            Optional.empty(),
            Optional.of(Door.resolved("10.9.8.7")),
            Set.of("desk.example"),
            Optional.of(accounts));
    Path other = Files.createDirectory(folder.resolve("other"));
    try (SmallDesk desk = SmallDesk.open(other, elsewhere)) {
      String answer =
          raw(
              desk,
              "GET /sign-in HTTP/1.1\r\nHost: desk.example\r\n"
                  + proxied
                  + "Connection: close\r\n\r\n");
      assertTrue(answer.startsWith("HTTP/1.1 403"), answer);
    }
  }

  private static String raw(SmallDesk desk, String request) throws Exception {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.at("/").getPort())) {
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void whatIsTooLargeOrClimbsOutIsRefusedWithASentence() throws Exception {
    try (SmallDesk desk = SmallDesk.open(folder)) {
      byte[] large = new byte[(int) Desk.MOST_BYTES + 1];
      for (HttpRequest.BodyPublisher body :
          List.of(
              HttpRequest.BodyPublishers.ofByteArray(large),
              // In pieces, so that no length is said beforehand.
              HttpRequest.BodyPublishers.ofInputStream(() -> new ByteArrayInputStream(large)))) {
        SmallDesk.Answer answer =
            desk.send(
                HttpRequest.newBuilder(desk.at("/api/defects"))
                    .header("Content-Type", "application/json")
                    .POST(body));
        assertEquals(413, answer.status(), answer.whole().body());
        assertTrue(answer.json().path("detail").asText().contains("20000000"));
      }
      for (String path :
          List.of(
              "/desk/../../../../etc/passwd",
              "/desk/%2e%2e/%2e%2e/%2e%2e/etc/passwd",
              "/desk/..%2f..%2f..%2fetc/passwd",
              "/desk//etc/passwd",
              "/webjars/../lanemend/desk/openapi/desk.json",
              "/api/exports/..%2f..%2faccounts/csv",
              "/api/sheets/2026-05-04/..%2f..%2faccounts.db/pdf",
              "/api/defects/%00",
              "/accounts.db",
              "/desk/%5c..%5c..%5caccounts.db")) {
        String answer =
            raw(desk, "GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n");
        assertTrue(answer.matches("(?s)HTTP/1.1 4\\d\\d .*"), path + ": " + answer);
        assertFalse(answer.contains("root:") || answer.contains("openapi\": \"3"), path);
        assertTrue(answer.contains("\"detail\""), path + ": " + answer);
      }
      // What looks like SQL is only a name that nothing has.
      long before = desk.store().read(s -> s.defects().all().size());
      for (String id : List.of("x' OR '1'='1", "x'; DROP TABLE defect; --", "x\" UNION SELECT 1")) {
        assertEquals(
            404, desk.get("/api/defects/" + SmallDesk.coded(id).replace("+", "%20")).status(), id);
      }
      assertEquals(before, (long) desk.store().read(s -> s.defects().all().size()));
      // Filters: no functions, no depth without end, no length without end.
      for (String where :
          List.of(
              "strConcat(id, 'a') = 'a'",
              "env('user.home') = 'a'",
              "(".repeat(51) + "severity = 'high'" + ")".repeat(51),
              "id = '" + "a".repeat(4_100) + "'")) {
        assertEquals(400, desk.get("/api/filter?where=" + SmallDesk.coded(where)).status(), where);
      }
    }
  }

  @Test
  void aNoteThatWouldRunInASpreadsheetIsDisarmedAndANegativeNumberIsNot() {
    try (SmallDesk desk = SmallDesk.open(folder)) {
      String note = "=HYPERLINK(\\\"http://evil.example\\\")";
      var there = desk.get("/api/defects?count=1&sort=place").json().at("/rows/0");
      String form =
          """
          {"route":"%s","milepost":"%s","lane":"R1","kind":"pothole","severity":"high",
           "length":2,"width":1.5,"depth":3,"note":"%s"}"""
              .formatted(there.path("route").asText(), there.path("milepost").asText(), note);
      assertEquals(201, desk.send("POST", "/api/defects", form).status());
      String csv = desk.get("/api/exports/defects/csv").whole().body();
      assertTrue(csv.contains("'=HYPERLINK"), "the note is disarmed");
      assertFalse(csv.contains(",=HYPERLINK") || csv.contains("\"=HYPERLINK"));
      // The county lies west of Greenwich: its longitudes are negative, and numbers still.
      assertTrue(csv.matches("(?s).*,-\\d+\\.\\d+,.*"), csv.lines().findFirst().orElse(""));
      assertFalse(csv.contains("'-"), "no number is made a text");
    }
  }
}
