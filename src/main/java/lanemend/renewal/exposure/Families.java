package lanemend.renewal.exposure;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.StringJoiner;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttributes;

/**
 * Which roads are alike: cells whose parts agree make a family and lend one another strength. Data,
 * not code: an agency lists the attributes and bands it trusts.
 */
public record Families(List<Part> parts) {

  /** One attribute that tells families apart. */
  public sealed interface Part {
    AttributeName attribute();
  }

  /** Each value as written makes its own family. */
  public record Category(AttributeName attribute) implements Part {}

  /**
   * A number cut into bands.
   *
   * @param upperEdges ascending; a value on an edge belongs to the band above it
   */
  public record Band(AttributeName attribute, List<Double> upperEdges) implements Part {
    public Band {
      upperEdges = List.copyOf(upperEdges);
      for (int i = 1; i < upperEdges.size(); i++) {
        if (!(upperEdges.get(i) > upperEdges.get(i - 1))) {
          throw new IllegalArgumentException("band edges of " + attribute + " do not grow");
        }
      }
    }
  }

  public Families {
    parts = List.copyOf(parts);
  }

  /** Surface by traffic, cut at 1,000 and 5,000 vehicles a day (common practice, no source). */
  public static Families surfaceByTraffic() {
    return new Families(
        List.of(
            new Category(AttributeName.SURFACE),
            new Band(AttributeName.AADT, List.of(1000.0, 5000.0))));
  }

  /** The family's name at a place, for instance {@code surface asphalt, aadt 1000-5000}. */
  public String at(String routeId, double alongM, RoadAttributes attributes) {
    StringJoiner name = new StringJoiner(", ");
    for (Part part : parts) {
      name.add(part.attribute().key() + " " + value(part, routeId, alongM, attributes));
    }
    return parts.isEmpty() ? "all roads" : name.toString();
  }

  private static String value(Part part, String routeId, double alongM, RoadAttributes attributes) {
    if (part instanceof Band band) {
      OptionalDouble number = attributes.number(routeId, alongM, band.attribute());
      return number.isEmpty() ? "unknown" : label(band.upperEdges(), number.getAsDouble());
    }
    return attributes.text(routeId, alongM, part.attribute()).orElse("unknown");
  }

  private static String label(List<Double> edges, double value) {
    int i = 0;
    while (i < edges.size() && value >= edges.get(i)) {
      i++;
    }
    if (i == 0) {
      return "under " + plain(edges.get(0));
    }
    String lower = plain(edges.get(i - 1));
    return i == edges.size() ? lower + " and over" : lower + "-" + plain(edges.get(i));
  }

  private static String plain(double edge) {
    return edge == Math.rint(edge)
        ? String.format(Locale.ROOT, "%.0f", edge)
        : String.format(Locale.ROOT, "%s", edge);
  }
}
