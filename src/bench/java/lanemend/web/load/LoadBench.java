package lanemend.web.load;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicLong;
import lanemend.cli.Commands;
import lanemend.cli.Program;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;

/**
 * Many people at one desk over loopback: {@code serve} in a process of its own, users in this one,
 * and at the end the change log against what each was told.
 */
public final class LoadBench {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int MILES = 1_500;

  private LoadBench() {}

  /**
   * Prints CSV, then what the checker found.
   *
   * @param folder where the county is made, and found again by the next run; the run itself works on
   *     a copy
   * @param thinkMs mean time between a user's actions
   */
  public static void run(
      Path folder, int defects, int users, double minutes, double thinkMs, PrintStream out)
      throws IOException, InterruptedException, SQLException {
    Path work = Files.createDirectories(folder.resolve("run"));
    Path store = work.resolve("lanemend.gpkg");
    for (String part : new String[] {"-wal", "-shm"}) {
      Files.deleteIfExists(store.resolveSibling("lanemend.gpkg" + part));
    }
    Files.copy(
        made(folder, defects).resolve("lanemend.gpkg"), store, StandardCopyOption.REPLACE_EXISTING);
    HttpClient client =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .executor(Executors.newFixedThreadPool(4))
            .build();
    Timings timings = new Timings();
    Told told = new Told();
    long since;
    try (Program desk =
        Program.startFull(List.of("-Xmx2g"), "serve", "--port", "0", "--work", work.toString())) {
      String address = desk.address();
      since = get(client, address + "health").at("/more/lastEdit").asLong();
      know(client, address, defects);
      AtomicLong version =
          new AtomicLong(get(client, address + "api/county").path("version").asLong());
      long end = System.nanoTime() + (long) (minutes * 60e9);
      User.Desk shared =
          new User.Desk(address, client, thinkMs, end, timings, told, version, defects);
      List<Thread> threads = new ArrayList<>();
      for (int i = 1; i <= users; i++) {
        Thread t = new Thread(new User(i, shared), "user " + i);
        t.start();
        threads.add(t);
      }
      for (Thread t : threads) {
        t.join();
      }
      desk.term();
      if (desk.end() != 0) {
        timings.failed("stop", desk.said());
      }
    }
    out.printf(
        Locale.ROOT,
        "%d users, %.1f minutes, %,d defects on %,d miles, %.0f ms to think, %d processors%n",
        users,
        minutes,
        defects,
        MILES,
        thinkMs,
        Runtime.getRuntime().availableProcessors());
    timings.print(out);
    LoadCheck.Found found = LoadCheck.run(store, since, told.all());
    out.printf(
        Locale.ROOT,
        "checker: %,d writes told done, %,d rows of the log replayed, %d things wrong, %d errors%n",
        told.all().size(),
        found.replayed(),
        found.wrong().size(),
        timings.errors());
    found.wrong().stream().limit(20).forEach(w -> out.println("wrong: " + w));
  }

  private static Path made(Path folder, int defects) throws IOException {
    Path made = folder.resolve("county-" + defects);
    if (!Files.exists(made.resolve("lanemend.gpkg"))) {
      Path files = Files.createTempDirectory("lanemend-bench-county");
      SampleCounty.write(files, new SampleSize(MILES, defects, 100, 4), 21);
      Commands.importCounty(files, made);
    }
    return made;
  }

  /** Every defect of the county, by pages. */
  private static void know(HttpClient client, String address, int defects)
      throws IOException, InterruptedException {
    for (int from = 0; from < defects; from += 500) {
      JsonNode page = get(client, address + "api/defects?count=500&from=" + from);
      for (JsonNode d : page.path("rows")) {
        Places.seen(d.path("id").asText(), d.path("lon").asDouble(), d.path("lat").asDouble());
      }
    }
  }

  private static JsonNode get(HttpClient client, String address)
      throws IOException, InterruptedException {
    return JSON.readTree(
        client
            .send(
                HttpRequest.newBuilder(URI.create(address)).build(),
                HttpResponse.BodyHandlers.ofString())
            .body());
  }
}
