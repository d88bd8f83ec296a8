package lanemend.network;

/** What trucks may do where; {@code inventory} answers it from road attributes. */
public interface TravelRules {

  /** Legal speed, km/h, at this place of a route. */
  double speedKmh(Route route, double alongM);

  /** Legal speed, km/h, on a connector. */
  double speedKmh(Connector connector);

  /** True where traffic runs only towards growing along. */
  boolean oneWay(Route route, double alongM);

  boolean oneWay(Connector connector);

  /** Grade level: roads that cross at different levels do not meet. Ground is 0. */
  int level(Route route, double alongM);

  int level(Connector connector);

  /** Places (along) where any answer changes on this route, ascending, without the ends. */
  double[] breaks(Route route);
}
