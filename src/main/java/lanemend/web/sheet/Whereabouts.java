package lanemend.web.sheet;

import java.util.List;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.ZoneSide;
import lanemend.inventory.Place;
import lanemend.network.Locator;
import lanemend.network.Milepost;
import lanemend.network.Network;
import lanemend.network.Route;

/** Where things are, in the words of the road: route, mileposts, side, direction of travel. */
record Whereabouts(Network network, Locator locator) {
  private static final String[] COMPASS = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};

  static Whereabouts of(SheetContext context) {
    return new Whereabouts(context.network(), context.locator());
  }

  Route route(String routeId) {
    return network
        .route(routeId)
        .orElseThrow(
            () -> new IllegalArgumentException("the network has no route '" + routeId + "'"));
  }

  String milepost(String routeId, double alongM) {
    return route(routeId).mileposts().at(alongM).text();
  }

  /** {@code 3.210 to 3.402}, or one milepost for a spot. */
  String mileposts(String routeId, double fromAlongM, double toAlongM) {
    String from = milepost(routeId, fromAlongM);
    String to = milepost(routeId, toAlongM);
    return from.equals(to) ? from : from + " to " + to;
  }

  String mileposts(Place place) {
    return mileposts(place.routeId(), place.fromAlongM(), place.toAlongM());
  }

  /** The side in words that cannot be read the wrong way round, with where its traffic heads. */
  String side(WorkZone zone) {
    Route route = route(zone.routeId());
    if (zone.side() == ZoneSide.BOTH) {
      List<WorkZone> phases = zone.phases();
      return "both sides: first the " + side(phases.get(0)) + ", then the " + side(phases.get(1));
    }
    boolean right = zone.side() == ZoneSide.RIGHT;
    String facing = milepostsGrow(zone) ? "facing higher mileposts" : "facing lower mileposts";
    String side = (right ? "right" : "left") + " side " + facing;
    if (route.divided()) {
      return side + ", " + route.direction() + " roadway";
    }
    String heading = heading(zone);
    if (heading.isEmpty()) {
      return side;
    }
    return side + ", traffic heading " + (right ? heading : opposite(heading));
  }

  /** True where mileposts grow with along in this stretch, as nearly all do. */
  boolean milepostsGrow(WorkZone zone) {
    Route route = route(zone.routeId());
    double from = Math.max(0, zone.fromAlongM() - 1);
    double to = Math.min(route.lengthM(), zone.toAlongM() + 1);
    return miles(route.mileposts().at(to)) >= miles(route.mileposts().at(from));
  }

  /** Compass direction of travel with growing along through a zone, such as {@code NE}. */
  String heading(WorkZone zone) {
    Route route = route(zone.routeId());
    double from = Math.max(0, zone.fromAlongM() - 50);
    double to = Math.min(route.lengthM(), zone.toAlongM() + 50);
    List<double[][]> lines = locator.shape(zone.routeId(), from, to);
    if (lines.isEmpty()) {
      return "";
    }
    double[] a = lines.get(0)[0];
    double[][] last = lines.get(lines.size() - 1);
    double[] b = last[last.length - 1];
    double degrees = Math.toDegrees(Math.atan2(b[0] - a[0], b[1] - a[1]));
    return COMPASS[Math.floorMod((int) Math.round(degrees / 45), 8)];
  }

  private static String opposite(String heading) {
    int at = List.of(COMPASS).indexOf(heading);
    return COMPASS[(at + 4) % COMPASS.length];
  }

  private static double miles(Milepost milepost) {
    return milepost.miles();
  }
}
