package lanemend.web.renewal;

import lanemend.network.Network;
import lanemend.network.Route;

/** Places of one route in the words of the road. */
record Mileposts(Route route) {

  static Mileposts of(Network network, String routeId) {
    return new Mileposts(
        network
            .route(routeId)
            .orElseThrow(
                () -> new IllegalArgumentException("the network has no route '" + routeId + "'")));
  }

  String at(double alongM) {
    return route.mileposts().at(Math.max(0, Math.min(route.lengthM(), alongM))).text();
  }

  /** {@code 3.210 to 3.402}. */
  String range(double fromAlongM, double toAlongM) {
    return at(fromAlongM) + " to " + at(toAlongM);
  }
}
