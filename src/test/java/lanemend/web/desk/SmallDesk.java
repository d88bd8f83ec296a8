package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import lanemend.cli.Commands;
import lanemend.cli.WeakRoad;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;

/** A desk over a small invented county, planned. The county is made once and copied for each. */
final class SmallDesk implements AutoCloseable {
  /** What was answered. */
  record Answer(int status, JsonNode json, HttpResponse<String> whole) {}

  private static Path made;
  private static Path weak;

  private final Store store;
  private final Desk desk;
  private final HttpClient client = HttpClient.newHttpClient();

  private SmallDesk(Store store, Path folder, Door door) {
    this.store = store;
    this.desk = Desk.open(store, new DeskSettings(0, folder, "tester", Optional.empty()), door);
  }

  /**
   * @param folder empty, of the test's own
   */
  static SmallDesk open(Path folder) {
    return open(folder, Door.ofThisComputer());
  }

  /**
   * @param door who is let in; its accounts stay the caller's to close
   */
  static SmallDesk open(Path folder, Door door) {
    try {
      Path file = folder.resolve("lanemend.gpkg");
      Files.copy(county().resolve("lanemend.gpkg"), file);
      return new SmallDesk(Store.open(file), folder, door);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A desk started again over a folder that {@link #open} was given before. */
  static SmallDesk again(Path folder) {
    return new SmallDesk(
        Store.open(folder.resolve("lanemend.gpkg")), folder, Door.ofThisComputer());
  }

  /**
   * A desk over eight straight roads of which SR 3 fails eight times as often from milepost 2.0 to
   * 2.8, with nothing planned.
   *
   * @param folder empty, of the test's own
   */
  static SmallDesk weakRoad(Path folder) {
    try {
      Path file = folder.resolve("lanemend.gpkg");
      Files.copy(weak().resolve("lanemend.gpkg"), file);
      return new SmallDesk(Store.open(file), folder, Door.ofThisComputer());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static synchronized Path weak() throws IOException {
    if (weak == null) {
      weak = WeakRoad.work(Files.createTempDirectory("lanemend-weak-road"));
    }
    return weak;
  }

  private static synchronized Path county() throws IOException {
    if (made == null) {
      Path files = Files.createTempDirectory("lanemend-desk-county");
      Path work = Files.createTempDirectory("lanemend-desk-work");
      SampleCounty.write(files, new SampleSize(150, 60, 8, 1), 7);
      Commands.importCounty(files, work);
      Commands.run("plan", "--iterations", "50", "--work", work.toString());
      made = work;
    }
    return made;
  }

  Store store() {
    return store;
  }

  Desk desk() {
    return desk;
  }

  String address() {
    return desk.address();
  }

  static String coded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  Answer get(String path) {
    return send(HttpRequest.newBuilder(at(path)).GET());
  }

  Answer send(String method, String path, String json, String... headers) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(at(path))
            .method(method, HttpRequest.BodyPublishers.ofString(json))
            .header("Content-Type", "application/json");
    for (int i = 0; i < headers.length; i += 2) {
      request.header(headers[i], headers[i + 1]);
    }
    return send(request);
  }

  URI at(String path) {
    return URI.create(desk.address() + path.substring(1));
  }

  Answer send(HttpRequest.Builder request) {
    try {
      HttpResponse<String> whole =
          client.send(request.build(), HttpResponse.BodyHandlers.ofString());
      return new Answer(whole.statusCode(), json(whole), whole);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private static JsonNode json(HttpResponse<String> whole) throws JsonProcessingException {
    boolean isJson = whole.headers().firstValue("Content-Type").orElse("").contains("json");
    return isJson && whole.headers().firstValue("Content-Encoding").isEmpty()
        ? Api.JSON.readTree(whole.body())
        : null;
  }

  @Override
  public void close() {
    desk.close();
    store.close();
  }
}
