package lanemend.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import lanemend.network.Network;
import lanemend.network.Route;

/**
 * Finds the route a row names. Case and the number of blanks do not matter; any other difference is
 * a different name, and the nearest spellings are offered instead of taken.
 */
final class RouteFinder {
  private static final int OFFERED = 3;

  private final Map<String, Route> byId = new HashMap<>();
  private final Map<String, List<Route>> byName = new LinkedHashMap<>();
  private final Map<String, String> nearest = new HashMap<>();

  RouteFinder(Network network) {
    for (Route r : network.routes().values()) {
      byId.put(key(r.id()), r);
      byName.computeIfAbsent(key(r.name()), k -> new ArrayList<>()).add(r);
    }
  }

  /**
   * The one route meant. A blank direction means the roadway that carries the road's bare name; on
   * a road that is divided throughout there is none, and the row is refused. A direction on an
   * undivided road says how the patrol drove and is not needed.
   */
  Route one(String route, String direction) throws Refusal {
    List<Route> matches = matches(route, direction);
    if (matches.size() == 1) {
      return matches.get(0);
    }
    throw new Refusal(
        "direction",
        direction,
        "which roadway of " + matches.get(0).name() + ", one of " + directions(matches));
  }

  /** Every roadway that fits what was written; never empty. */
  List<Route> matches(String route, String direction) throws Refusal {
    Route exact = byId.get(key(direction.isEmpty() ? route : route + " " + direction));
    if (exact != null) {
      return List.of(exact);
    }
    Route whole = byId.get(key(route));
    if (whole != null && (!whole.divided() || whole.direction().equalsIgnoreCase(direction))) {
      return List.of(whole);
    }
    List<Route> named = byName.getOrDefault(key(route), whole == null ? List.of() : List.of(whole));
    if (named.isEmpty()) {
      throw new Refusal("route", route, "a route of the network" + nearest(route));
    }
    if (direction.isEmpty() || named.stream().noneMatch(Route::divided)) {
      return named;
    }
    throw new Refusal(
        "direction",
        direction,
        "a roadway of " + named.get(0).name() + ", one of " + directions(named));
  }

  private static String directions(List<Route> routes) {
    return routes.stream()
        .map(r -> r.divided() ? r.direction() : "(blank)")
        .collect(Collectors.joining(", "));
  }

  private String nearest(String route) {
    return nearest.computeIfAbsent(key(route), this::spellings);
  }

  private String spellings(String wanted) {
    String bare = bare(wanted);
    record Near(String name, int distance) {}
    String offered =
        byName.values().stream()
            .map(routes -> routes.get(0).name())
            .map(name -> new Near(name, distance(bare, bare(key(name)))))
            .filter(n -> n.distance() <= Math.max(1, Math.min(bare.length(), 40) / 3))
            .sorted(Comparator.comparingInt(Near::distance).thenComparing(Near::name))
            .limit(OFFERED)
            .map(Near::name)
            .collect(Collectors.joining(", "));
    return offered.isEmpty() ? "; none is spelt like it" : "; nearest spellings: " + offered;
  }

  private static String key(String name) {
    return name.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
  }

  /** Letters and digits only, at most 60, so that SR12, SR-12 and SR 12 are neighbours. */
  private static String bare(String name) {
    StringBuilder out = new StringBuilder();
    name.codePoints().filter(Character::isLetterOrDigit).limit(60).forEach(out::appendCodePoint);
    return out.toString();
  }

  /** Edit distance (Levenshtein): insertions, deletions and changes of one character. */
  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }
}
