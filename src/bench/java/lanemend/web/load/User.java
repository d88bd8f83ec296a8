package lanemend.web.load;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;

/**
 * One person at the desk: looks at the map and lists most of the time, writes now and then. In a
 * hundred actions: 36 map tiles, 14 pages of the list, 6 filters in words, 10 single defects, 6
 * repairs with their numbers, 4 histories, 3 counties in short, 1 list of changes; 8 changes of a
 * defect (a quarter of them of one of 40 that everybody changes), 5 new defects, 3 reports of work
 * done, 2 changes taken back, 2 treatments chosen by hand. Between two actions it thinks.
 */
final class User implements Runnable {
  /** Of a change that begins with nothing read. */
  private static final long NO_VERSION = -1;

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Duration PATIENCE = Duration.ofSeconds(60);
  private static final int HOT = 40;
  private static final Set<Integer> DONE = Set.of(200, 201, 204);

  private final String name;
  private final String address;
  private final HttpClient client;
  private final Random random;
  private final double thinkMs;
  private final long endNanos;
  private final Timings timings;
  private final Told told;
  private final AtomicLong version;
  private int total;
  private String mine = "";
  private String mineMark = "";
  private int marks;

  /** What all users share. */
  record Desk(
      String address,
      HttpClient client,
      double thinkMs,
      long endNanos,
      Timings timings,
      Told told,
      AtomicLong version,
      int defects) {}

  User(int number, Desk desk) {
    this.name = "u" + number;
    this.address = desk.address();
    this.client = desk.client();
    this.random = new Random(1_000 + number);
    this.thinkMs = desk.thinkMs();
    this.endNanos = desk.endNanos();
    this.timings = desk.timings();
    this.told = desk.told();
    this.version = desk.version();
    this.total = desk.defects();
  }

  /** An answer's status and body. */
  private record Answer(int status, JsonNode json, long version) {}

  @Override
  public void run() {
    // Nobody begins with everybody.
    think(random.nextDouble() * thinkMs);
    while (System.nanoTime() < endNanos) {
      act(random.nextInt(100));
      think(-Math.log(1 - random.nextDouble()) * thinkMs);
    }
  }

  private static void think(double millis) {
    try {
      Thread.sleep((long) millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void act(int dice) {
    if (dice < 36) {
      tile();
    } else if (dice < 50) {
      String sort = List.of("place", "-size", "severity", "foundOn").get(random.nextInt(4));
      page("read list", "sort=" + sort + "&count=50&from=" + random.nextInt(total - 50));
    } else if (dice < 56) {
      String words = List.of("high potholes", "open high", "ruts open", "low").get(random.nextInt(4));
      get("read filter", "/api/filter?words=" + coded(words));
    } else if (dice < 66) {
      get("read defect", "/api/defects/" + coded(anyId(false)));
    } else if (dice < 72) {
      get("read repair", "/api/defects/" + coded(anyId(false)) + "/repair");
    } else if (dice < 76) {
      get("read history", "/api/defects/" + coded(anyId(false)) + "/history");
    } else if (dice < 79) {
      Answer county = get("read county", "/api/county");
      if (county != null) {
        version.set(county.json().path("version").asLong());
      }
    } else if (dice < 80) {
      get("read changes", "/api/changes");
    } else if (dice < 88) {
      change(anyId(random.nextInt(4) == 0));
    } else if (dice < 93) {
      add();
    } else if (dice < 96) {
      done();
    } else if (dice < 98) {
      undo();
    } else {
      choose();
    }
  }

  private void tile() {
    // What a screen of a county shows, two to five zooms closer than the whole of it.
    int z = 10 + random.nextInt(4);
    double[] at = Places.any(random);
    int n = 1 << z;
    int x = (int) ((at[0] + 180) / 360 * n);
    double lat = Math.toRadians(at[1]);
    int y = (int) ((1 - Math.log(Math.tan(lat) + 1 / Math.cos(lat)) / Math.PI) / 2 * n);
    get("read tile", "/api/tiles/" + version.get() + "/" + z + "/" + x + "/" + y);
  }

  private Answer page(String kind, String query) {
    Answer answer = get(kind, "/api/defects?" + query);
    if (answer != null) {
      total = Math.max(51, answer.json().path("total").asInt());
      for (JsonNode row : answer.json().path("rows")) {
        Places.seen(row.path("id").asText(), row.path("lon").asDouble(), row.path("lat").asDouble());
      }
    }
    return answer;
  }

  private String anyId(boolean hot) {
    return hot ? Places.hot(random, HOT) : Places.id(random);
  }

  private String mark() {
    return "load " + name + "-" + ++marks;
  }

  private void change(String id) {
    Answer now = get("read defect", "/api/defects/" + coded(id));
    if (now == null) {
      return;
    }
    // Long enough for somebody else to come between.
    think(random.nextDouble() * 200);
    String mark = mark();
    ObjectNode form = form(now.json()).put("note", mark);
    form.put("severity", List.of("low", "medium", "high").get(random.nextInt(3)));
    Answer answer =
        send("write change", "PUT", "/api/defects/" + coded(id), form, now.version(), Set.of(412, 422));
    if (answer != null && answer.status() == 200) {
      told.add(new Told.Write(Told.Kind.CHANGE, id, mark, answer.version(), 0));
      mine = id;
      mineMark = mark;
    }
  }

  private static ObjectNode form(JsonNode d) {
    ObjectNode form = JSON.createObjectNode();
    for (String field :
        List.of("lane", "kind", "severity", "status", "length", "width", "depth", "foundOn", "foundBy")) {
      form.set(field, d.path(field));
    }
    return form;
  }

  private void add() {
    double[] at = Places.any(random);
    String mark = mark();
    ObjectNode form =
        JSON.createObjectNode()
            .put("lon", at[0])
            .put("lat", at[1])
            .put("kind", "pothole")
            .put("severity", "medium")
            .put("status", "open")
            .put("lane", "R1")
            .put("length", 3)
            .put("width", 2)
            .put("depth", 2)
            .put("foundBy", name)
            .put("note", mark);
    Answer answer = send("write add", "POST", "/api/defects", form, NO_VERSION, Set.of(422));
    if (answer != null && answer.status() == 201) {
      String id = answer.json().path("id").asText();
      told.add(new Told.Write(Told.Kind.ADD, id, mark, answer.version(), 0));
    }
  }

  private void done() {
    String id = anyId(false);
    String mark = mark();
    ObjectNode form = JSON.createObjectNode().put("on", "2026-06-01");
    form.putArray("repairs").addObject().put("repair", id).put("mix", 2.5).put("note", mark);
    Answer answer =
        send("write done", "POST", "/api/sheets/2026-06-01/any/done", form, NO_VERSION, Set.of(409, 412));
    if (answer != null && answer.status() == 200) {
      told.add(new Told.Write(Told.Kind.DONE, id, mark, 0, 0));
    }
  }

  private void undo() {
    if (mine.isEmpty()) {
      return;
    }
    Answer history = get("read history", "/api/defects/" + coded(mine) + "/history");
    if (history == null) {
      return;
    }
    for (JsonNode past : history.json()) {
      for (JsonNode field : past.path("fields")) {
        if (field.path("name").asText().equals("note")
            && field.path("after").asText().equals(mineMark)
            && !past.path("why").asText().startsWith("undo")) {
          long edit = past.path("edit").asLong();
          Answer answer =
              send(
                  "write undo",
                  "POST",
                  "/api/changes/" + edit + "/undo",
                  JSON.createObjectNode(),
                  NO_VERSION,
                  Set.of(409));
          if (answer != null && answer.status() == 200) {
            told.add(new Told.Write(Told.Kind.UNDO, mine, "", 0, edit));
          }
          mine = "";
          return;
        }
      }
    }
  }

  private void choose() {
    String id = anyId(false);
    String mark = mark();
    Answer before = get("read repair", "/api/defects/" + coded(id) + "/repair");
    if (before == null) {
      return;
    }
    ObjectNode form = JSON.createObjectNode().put("treatment", "hand_patch").put("note", mark);
    Answer answer =
        send(
            "write choose",
            "PUT",
            "/api/defects/" + coded(id) + "/treatment",
            form,
            before.json().path("version").asLong(),
            Set.of(412, 422));
    if (answer != null && answer.status() == 200) {
      told.add(new Told.Write(Told.Kind.CHOOSE, id, mark, 0, 0));
    }
  }

  private Answer get(String kind, String path) {
    return ask(kind, HttpRequest.newBuilder(at(path)).GET(), Set.of());
  }

  private Answer send(
      String kind, String method, String path, JsonNode body, long version, Set<Integer> refusals) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(at(path))
            .method(method, HttpRequest.BodyPublishers.ofString(body.toString()))
            .header("Content-Type", "application/json");
    if (version != NO_VERSION) {
      request.header("If-Match", "\"" + version + "\"");
    }
    return ask(kind, request, refusals);
  }

  private URI at(String path) {
    return URI.create(address + path.substring(1));
  }

  /** Returns null when it failed. */
  private Answer ask(String kind, HttpRequest.Builder request, Set<Integer> refusals) {
    long begun = System.nanoTime();
    try {
      HttpResponse<String> answer =
          client.send(
              request.timeout(PATIENCE).header("Origin", origin()).build(),
              HttpResponse.BodyHandlers.ofString());
      double millis = (System.nanoTime() - begun) / 1e6;
      boolean refused = refusals.contains(answer.statusCode());
      if (!refused && !DONE.contains(answer.statusCode())) {
        timings.failed(kind, answer.statusCode() + " " + shortened(answer.body()));
        return null;
      }
      timings.answered(kind, millis, refused);
      boolean json =
          answer.headers().firstValue("Content-Type").orElse("").contains("json")
              && answer.headers().firstValue("Content-Encoding").isEmpty();
      long etag =
          answer.headers().firstValue("ETag").map(t -> Long.parseLong(t.replaceAll("\\D", ""))).orElse(0L);
      return new Answer(
          answer.statusCode(), json ? JSON.readTree(answer.body()) : JSON.nullNode(), etag);
    } catch (IOException e) {
      timings.failed(kind, e.toString());
      return null;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
  }

  private String origin() {
    return address.substring(0, address.length() - 1);
  }

  private static String shortened(String text) {
    return text.substring(0, Math.min(300, text.length()));
  }

  private static String coded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
