package lanemend.web.desk;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import lanemend.network.Network;
import lanemend.network.Route;

/** The road a text begins with. */
final class RouteText {
  private RouteText() {}

  /** Roadways whose id, or else whose name, the text begins with; the longest match counts. */
  static List<Route> routes(String text, Collection<Route> all) {
    int longest = all.stream().mapToInt(r -> lengthOf(text, r)).max().orElse(0);
    return longest == 0
        ? List.of()
        : all.stream().filter(r -> lengthOf(text, r) == longest).toList();
  }

  /** How many characters of the text name this roadway; 0 when it does not begin with it. */
  static int lengthOf(String text, Route route) {
    return Math.max(begins(text, route.id()), begins(text, route.name()));
  }

  private static int begins(String text, String name) {
    boolean whole =
        text.length() == name.length()
            || (text.length() > name.length()
                && Character.isWhitespace(text.charAt(name.length())));
    return !name.isEmpty() && whole && text.regionMatches(true, 0, name, 0, name.length())
        ? name.length()
        : 0;
  }

  /** Something that would have been found. */
  static String example(Network network) {
    return network.routes().values().stream()
        .findFirst()
        .map(
            r ->
                String.format(
                    Locale.ROOT, "'%s %.1f'", r.id(), r.mileposts().at(r.lengthM() / 2).miles()))
        .orElse("'SR 7 12.4'");
  }
}
