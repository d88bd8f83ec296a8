package lanemend.network;

import java.util.Map;

/** The facts of a connector's source line, with {@code one_way} and {@code level}. */
public record ConnectorRun(String connectorId, Map<String, String> attributes) {
  public ConnectorRun {
    attributes = Map.copyOf(attributes);
  }
}
