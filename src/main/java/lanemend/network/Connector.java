package lanemend.network;

/**
 * A road line that carries no route name. It is not located on, but trucks may haul over it.
 *
 * @param line geometry, with along counted from its own start
 * @param name as found, or empty
 */
public record Connector(String id, String name, RoadClass roadClass, CenterlinePart line) {}
