package lanemend.network;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Travel rules straight from the assembled lines; the speed is an attribute or a default. */
final class LineRules implements TravelRules {
  private final Assembly assembly;
  private final double speedKmh;
  private final Map<String, Map<String, String>> connectors = new HashMap<>();

  LineRules(Assembly assembly, double speedKmh) {
    this.assembly = assembly;
    this.speedKmh = speedKmh;
    assembly.connectorRuns().forEach(c -> connectors.put(c.connectorId(), c.attributes()));
  }

  private List<LineRun> runs(Route route) {
    return assembly.runs().stream().filter(r -> r.routeId().equals(route.id())).toList();
  }

  private String attribute(Route route, double along, String name, String otherwise) {
    for (LineRun run : runs(route)) {
      if (along >= run.fromAlongM() && along < run.toAlongM()) {
        return run.attributes().getOrDefault(name, otherwise);
      }
    }
    return otherwise;
  }

  @Override
  public double speedKmh(Route route, double alongM) {
    return Double.parseDouble(attribute(route, alongM, "posted_speed_kmh", "" + speedKmh));
  }

  @Override
  public double speedKmh(Connector connector) {
    return speedKmh;
  }

  @Override
  public boolean oneWay(Route route, double alongM) {
    return attribute(route, alongM, "one_way", "no").equals("yes");
  }

  @Override
  public boolean oneWay(Connector connector) {
    return connectors.get(connector.id()).get("one_way").equals("yes");
  }

  @Override
  public int level(Route route, double alongM) {
    return Integer.parseInt(attribute(route, alongM, "level", "0"));
  }

  @Override
  public int level(Connector connector) {
    return Integer.parseInt(connectors.get(connector.id()).get("level"));
  }

  @Override
  public double[] breaks(Route route) {
    return runs(route).stream()
        .flatMapToDouble(r -> java.util.stream.DoubleStream.of(r.fromAlongM(), r.toAlongM()))
        .sorted()
        .distinct()
        .toArray();
  }
}
