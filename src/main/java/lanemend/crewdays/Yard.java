package lanemend.crewdays;

/** Where crews start and end; projected coordinates. */
public record Yard(String id, String name, double x, double y) {}
