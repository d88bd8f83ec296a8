package lanemend.network;

/**
 * A place on (or beside) a route.
 *
 * @param offsetM metres from the centreline, right positive, seen towards growing along
 * @param x projected, offset included
 */
public record RoadPoint(
    String routeId, double alongM, Milepost milepost, double offsetM, double x, double y) {}
