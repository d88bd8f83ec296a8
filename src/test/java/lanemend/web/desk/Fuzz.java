package lanemend.web.desk;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpRequest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import lanemend.accounts.Role;

/**
 * Sends fuzzed requests for each role and for nobody, in turn, and judges every answer: no 5xx, no
 * success where the table gives none, and every refusal a problem with a sentence.
 */
final class Fuzz {
  private final People people;
  private final FuzzRequests requests;
  private final List<String> wrong = new ArrayList<>();
  private final Map<Integer, Integer> statuses = new TreeMap<>();
  private int forbidden;

  Fuzz(People people, long seed) {
    this.people = people;
    // Before wrong passwords make an address wait.
    for (Role role : Role.values()) {
      people.cookie(role);
    }
    this.requests =
        new FuzzRequests(people.get(Role.ADMIN, "/api/openapi.json").json(), seed, known());
  }

  /** What was found wrong, one line each. */
  List<String> wrong() {
    return wrong;
  }

  /** Answers by status. */
  Map<Integer, Integer> statuses() {
    return statuses;
  }

  /** Requests that the table gives nobody, or not this role. */
  int forbidden() {
    return forbidden;
  }

  private Map<String, List<String>> known() {
    Map<String, List<String>> known = new LinkedHashMap<>();
    List<String> ids = new ArrayList<>();
    people
        .get(Role.ADMIN, "/api/defects?count=20")
        .json()
        .path("rows")
        .forEach(d -> ids.add(d.path("id").asText()));
    known.put("id", ids);
    known.put("repair", ids);
    List<String> dates = new ArrayList<>();
    List<String> crews = new ArrayList<>();
    JsonNode plan = people.get(Role.ADMIN, "/api/plan").json();
    plan.path("days").forEach(d -> dates.add(d.path("date").asText()));
    plan.path("crews").forEach(d -> crews.add(d.path("id").asText()));
    known.put("date", dates);
    known.put("crew", crews);
    List<String> routes = new ArrayList<>();
    people
        .get(Role.ADMIN, "/api/county")
        .json()
        .path("routes")
        .forEach(r -> routes.add(r.path("id").asText()));
    known.put("route", routes);
    known.put(
        "table",
        List.of("defects", "patches", "findings", "posts", "crew-days", "stops", "left-out"));
    known.put("as", List.of("csv", "geojson", "geopackage"));
    known.put("version", List.of("1", "200"));
    known.put("z", List.of("11", "14"));
    return known;
  }

  /** Sends so many. */
  void run(int count) {
    Role[] roles = Role.values();
    for (int i = 0; i < count; i++) {
      // Operations turn within each role, so that each meets all of them.
      Optional<Role> role =
          i % (roles.length + 1) == roles.length
              ? Optional.empty()
              : Optional.of(roles[i % (roles.length + 1)]);
      send(requests.next(i / (roles.length + 1)), role);
    }
  }

  /**
   * Every operation as the description has it, for every role that may not use it and for nobody.
   */
  void everyForbiddenCall() {
    for (String[] operation : requests.operations()) {
      AccessTable.Rule rule = AccessTable.rule(operation[0] + " " + operation[1]);
      for (Role role : Role.values()) {
        if (!rule.roles().contains(role)) {
          send(requests.plain(operation), Optional.of(role));
        }
      }
      if (!rule.open()) {
        send(requests.plain(operation), Optional.empty());
      }
    }
  }

  private void send(FuzzRequests.Request r, Optional<Role> role) {
    AccessTable.Rule rule = AccessTable.rule(r.route());
    boolean mayNot = role.map(x -> !rule.roles().contains(x)).orElse(!rule.open());
    forbidden += mayNot ? 1 : 0;
    // A role's own session must live on, and its password stay.
    boolean ends =
        r.route().equals("delete /api/session")
            || r.route().startsWith("post /api/session/everywhere");
    HttpRequest.Builder request =
        HttpRequest.newBuilder(people.desk().at(r.path()))
            .header("Origin", people.origin())
            .header("Content-Type", r.type())
            .method(
                r.method(),
                r.body() == null
                    ? HttpRequest.BodyPublishers.noBody()
                    : HttpRequest.BodyPublishers.ofString(r.body()));
    role.ifPresent(x -> request.header("Cookie", ends ? "lanemend=none" : people.cookie(x)));
    if (r.ifMatch() != null) {
      request.header("If-Match", r.ifMatch());
    }
    SmallDesk.Answer answer = people.desk().send(request);
    while (answer.status() == 429 && !r.template().startsWith("/api/session")) {
      pause();
      answer = people.desk().send(request);
    }
    if (answer.status() == 202) {
      // A search for an hour is a fair wish, but not here.
      people.send(Role.PLANNER, "DELETE", "/api/plan/run", "{}");
    }
    int status = answer.status();
    statuses.merge(status, 1, Integer::sum);
    String told = role.map(Role::word).orElse("nobody") + " " + status + " " + r;
    if (status >= 500) {
      wrong.add("failed: " + shortened(told) + " -> " + shortened(answer.whole().body()));
    } else if (mayNot && status < 400) {
      wrong.add("let in: " + shortened(told));
    } else if (mayNot && role.isPresent() && !ends && status == 401) {
      wrong.add("signed out: " + shortened(told));
    } else if (status >= 400
        && (answer.json() == null || answer.json().path("detail").asText().isBlank())) {
      wrong.add("no sentence: " + shortened(told) + " -> " + shortened(answer.whole().body()));
    }
  }

  private static void pause() {
    try {
      Thread.sleep(1_000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private static String shortened(String text) {
    String line = text.replaceAll("\\p{Cntrl}", " ");
    return line.length() > 600 ? line.substring(0, 600) + "..." : line;
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT, "%d forbidden, by status %s, wrong %d", forbidden, statuses, wrong.size());
  }
}
