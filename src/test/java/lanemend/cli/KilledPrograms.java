package lanemend.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import lanemend.inventory.Defect;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import lanemend.store.StoreCheck;

/**
 * Whole programs killed (SIGKILL) while they write: the desk with users who add and change defects,
 * and commands that import or edit. Throws {@link AssertionError} at the first thing that is wrong.
 */
public final class KilledPrograms {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int USERS = 3;

  private final Path work;
  private final Random random;
  private final Path files;

  /** Makes a small county in an empty folder. */
  public KilledPrograms(Path folder, long seed) {
    this.work = folder.resolve("work");
    this.files = folder.resolve("files");
    this.random = new Random(seed);
    try {
      SampleCounty.write(files, new SampleSize(150, 60, 8, 1), 7);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Commands.importCounty(files, work);
  }

  private static void check(boolean right, String otherwise) {
    if (!right) {
      throw new AssertionError(otherwise);
    }
  }

  /**
   * Kills the desk so often; what was answered as done must be there. Returns how much that was.
   */
  public int desks(int times, PrintStream progress) {
    Map<String, String> told = new ConcurrentHashMap<>();
    for (int round = 1; round <= times; round++) {
      desk(round, told);
      Map<String, Defect> there = defects();
      told.forEach(
          (id, note) ->
              check(
                  there.containsKey(id) && there.get(id).note().equals(note),
                  id + " was told kept with '" + note + "', found " + there.get(id)));
      progress.println(round + " desks killed, " + told.size() + " defects as told");
    }
    return told.size();
  }

  private void desk(int round, Map<String, String> told) {
    try (Program desk = Program.start("serve", "--port", "0", "--work", work.toString())) {
      String address = desk.address();
      JsonNode place = get(address + "api/defects?count=1").at("/rows/0");
      List<Thread> users = new ArrayList<>();
      Set<String> untold = Collections.synchronizedSet(new java.util.HashSet<>());
      for (int u = 0; u < USERS; u++) {
        String name = "r" + round + "u" + u;
        Thread t = new Thread(() -> write(address, place, name, told, untold), name);
        t.start();
        users.add(t);
      }
      Program.pause(500 + random.nextInt(2_500));
      desk.kill();
      for (Thread t : users) {
        join(t);
      }
      // A change under way at the kill may have landed without its answer: nobody knows its note.
      untold.forEach(told::remove);
    }
  }

  private static void join(Thread t) {
    try {
      t.join(60_000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Adds a defect and changes it, again and again, until the desk is gone. */
  private static void write(
      String address, JsonNode place, String name, Map<String, String> told, Set<String> untold) {
    HttpClient client = HttpClient.newHttpClient();
    try {
      for (int n = 1; ; n++) {
        String note = name + "-" + n;
        HttpResponse<String> added =
            send(client, "POST", address + "api/defects", form(place, note), "");
        check(added.statusCode() == 201, added.body());
        String id = JSON.readTree(added.body()).path("id").asText();
        told.put(id, note);
        untold.add(id);
        HttpResponse<String> changed =
            send(
                client,
                "PUT",
                address + "api/defects/" + id,
                form(place, note + " changed"),
                added.headers().firstValue("ETag").orElseThrow());
        check(changed.statusCode() == 200, changed.body());
        told.put(id, note + " changed");
        untold.remove(id);
      }
    } catch (IOException e) {
      // The desk was killed.
      Thread.currentThread().setName("done");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static String form(JsonNode place, String note) {
    return JSON.createObjectNode()
        .put("lon", place.path("lon").asDouble())
        .put("lat", place.path("lat").asDouble())
        .put("route", place.path("route").asText())
        .put("kind", "pothole")
        .put("severity", "medium")
        .put("status", "open")
        .put("lane", "R1")
        .put("length", 3)
        .put("width", 2)
        .put("depth", 2)
        .put("foundOn", "2026-06-01")
        .put("foundBy", "patrol")
        .put("note", note)
        .toString();
  }

  private static HttpResponse<String> send(
      HttpClient client, String method, String address, String body, String version)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(address))
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .header("Content-Type", "application/json");
    if (!version.isEmpty()) {
      request.header("If-Match", version);
    }
    return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private static JsonNode get(String address) {
    try {
      return JSON.readTree(
          HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(URI.create(address)).build(),
                  HttpResponse.BodyHandlers.ofString())
              .body());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private Map<String, Defect> defects() {
    Path file = work.resolve("lanemend.gpkg");
    try (Store store = Store.open(file)) {
      List<String> troubles = StoreCheck.check(store);
      check(troubles.isEmpty(), troubles.toString());
      return store.read(
          s -> s.defects().all().stream().collect(Collectors.toMap(Defect::id, d -> d)));
    }
  }

  /** Kills imports and edits so often: each is there whole or not at all. Returns how many were. */
  public int commands(int times, PrintStream progress) {
    int landed = 0;
    long usual = 0;
    for (int round = 0; round <= times; round++) {
      int before = defects().size();
      int rows = 400;
      boolean undo = before >= 5_000;
      long begun = System.nanoTime();
      try (Program command = undo ? undoLast() : importOf(round, rows)) {
        if (round == 0) {
          check(command.end() == ExitCode.DONE, command.said());
          usual = (System.nanoTime() - begun) / 1_000_000;
        } else {
          // The writing is near the end of a command's time.
          Program.pause((long) (usual * (0.3 + 0.8 * random.nextDouble())));
          command.kill();
        }
      }
      int after = defects().size();
      check(
          after == before || after == (undo ? before - rows : before + rows),
          "half of a command: " + before + " defects before, " + after + " after");
      landed += after == before ? 0 : 1;
      progress.println(round + " commands killed, " + landed + " had landed whole");
    }
    return landed;
  }

  private Program undoLast() {
    try (Store store = Store.open(work.resolve("lanemend.gpkg"))) {
      long last = lanemend.store.StoreState.of(store).lastEdit();
      return Program.start("undo", String.valueOf(last), "--work", work.toString());
    }
  }

  private Program importOf(int round, int rows) {
    try {
      List<String> lines = Files.readAllLines(files.resolve("defects.csv"));
      List<String> all = new ArrayList<>(List.of(lines.get(0)));
      for (int i = 0; i < rows; i++) {
        String like = lines.get(1 + i % (lines.size() - 1));
        all.add("K" + round + "-" + i + like.substring(like.indexOf(',')));
      }
      Path file = files.resolve("more" + round + ".csv");
      Files.write(file, all);
      return Program.start("import", "defects", file.toString(), "--work", work.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
