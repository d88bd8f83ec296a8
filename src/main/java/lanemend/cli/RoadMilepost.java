package lanemend.cli;

import java.util.List;
import java.util.stream.Collectors;
import lanemend.exchange.MilepostText;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.Network;
import lanemend.network.Route;

/** Routes and mileposts as a command line names them. */
final class RoadMilepost {

  private RoadMilepost() {}

  /** The one roadway meant. */
  static Route route(Network network, String name) {
    if (network.route(name).isPresent()) {
      return network.route(name).get();
    }
    List<Route> named = network.named(name);
    if (named.size() == 1) {
      return named.get(0);
    }
    throw new Refusal(
        named.isEmpty()
            ? "there is no route '" + name + "'"
            : "'"
                + name
                + "' has several roadways: write one of "
                + named.stream().map(Route::id).collect(Collectors.joining(", ")));
  }

  /** Along of a milepost such as {@code 12.4} or {@code 12.4 back}. */
  static double along(Route route, String written) {
    Milepost wanted =
        MilepostText.parse(written)
            .orElseThrow(() -> new Refusal("'" + written + "' is not a milepost such as 12.4"));
    MilepostLookup found = route.mileposts().find(wanted);
    if (found instanceof MilepostLookup.Found f) {
      return f.alongM();
    }
    if (found instanceof MilepostLookup.Ambiguous several) {
      throw new Refusal(
          "milepost "
              + written
              + " occurs more than once on "
              + route.id()
              + ": write "
              + several.choices().stream()
                  .map(c -> "'" + c.milepost().text() + "'")
                  .collect(Collectors.joining(" or ")));
    }
    throw new Refusal(((MilepostLookup.Missing) found).why());
  }
}
