package lanemend.cli;

import java.util.List;
import java.util.stream.Collectors;
import lanemend.network.Network;
import lanemend.network.Route;

/** Routes as a command line names them. */
final class NamedRoute {

  private NamedRoute() {}

  /** The one roadway meant. */
  static Route of(Network network, String name) {
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
}
