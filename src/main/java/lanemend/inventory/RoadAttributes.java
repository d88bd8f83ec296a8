package lanemend.inventory;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import lanemend.measure.Conversion;
import lanemend.network.Connector;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.TravelRules;

/**
 * Road attributes of one day by route, name and place. Where stretches of one name overlap, the one
 * that holds since later wins ({@link FactsInTime}); of those that began together the one that
 * starts last along the road: the closer statement is the more specific. A connector's attributes
 * are kept under its own id.
 */
public final class RoadAttributes implements TravelRules {

  private final Map<String, Map<String, Stretches>> byRouteAndName = new HashMap<>();

  /** Stretches of one name on one route, by growing start. */
  private record Stretches(double[] from, double[] to, String[] value) {
    Optional<String> at(double alongM) {
      // Overlaps are rare and short, so walking back from the last start is cheap.
      for (int i = lastStartAtOrBefore(alongM); i >= 0; i--) {
        if (alongM <= to[i]) {
          return Optional.of(value[i]);
        }
      }
      return Optional.empty();
    }

    private int lastStartAtOrBefore(double alongM) {
      int i = Arrays.binarySearch(from, alongM);
      if (i < 0) {
        return -i - 2;
      }
      while (i + 1 < from.length && from[i + 1] == alongM) {
        i++;
      }
      return i;
    }
  }

  /** Indexes the attributes that have begun at some time and have no end. */
  public RoadAttributes(List<RoadAttribute> attributes) {
    this(attributes, LocalDate.MAX);
  }

  /** Indexes the attributes that hold on a day. */
  public RoadAttributes(List<RoadAttribute> attributes, LocalDate day) {
    Map<String, Map<String, List<RoadAttribute>>> grouped = new HashMap<>();
    for (RoadAttribute a : FactsInTime.on(attributes, day)) {
      grouped
          .computeIfAbsent(a.routeId(), k -> new HashMap<>())
          .computeIfAbsent(a.name(), k -> new ArrayList<>())
          .add(a);
    }
    grouped.forEach(
        (route, names) ->
            names.forEach(
                (name, rows) ->
                    byRouteAndName
                        .computeIfAbsent(route, k -> new HashMap<>())
                        .put(name, stretches(rows))));
  }

  private static Stretches stretches(List<RoadAttribute> rows) {
    List<RoadAttribute> sorted = new ArrayList<>(rows);
    sorted.sort(Comparator.comparingDouble(RoadAttribute::fromAlongM));
    return new Stretches(
        sorted.stream().mapToDouble(RoadAttribute::fromAlongM).toArray(),
        sorted.stream().mapToDouble(RoadAttribute::toAlongM).toArray(),
        sorted.stream().map(RoadAttribute::value).toArray(String[]::new));
  }

  /** The value at a place, as entered. */
  public Optional<String> text(String routeId, double alongM, AttributeName name) {
    Stretches s = byRouteAndName.getOrDefault(routeId, Map.of()).get(name.key());
    return s == null ? Optional.empty() : s.at(alongM);
  }

  /** The value at a place as a number; empty where none is known or it is not a number. */
  public OptionalDouble number(String routeId, double alongM, AttributeName name) {
    Optional<String> text = text(routeId, alongM, name);
    if (text.isEmpty()) {
      return OptionalDouble.empty();
    }
    try {
      return OptionalDouble.of(Double.parseDouble(text.get()));
    } catch (NumberFormatException notANumber) {
      return OptionalDouble.empty();
    }
  }

  /** True where the value is {@code yes}. */
  public boolean flag(String routeId, double alongM, AttributeName name) {
    return text(routeId, alongM, name).filter("yes"::equals).isPresent();
  }

  /**
   * Speed taken where none is posted, km/h, by class: 65, 55, 45 and 35 mph (common practice, no
   * source; statutory limits differ by state).
   */
  public static double usualSpeedKmh(RoadClass roadClass) {
    return Conversion.KMH_PER_MPH
        * switch (roadClass) {
          case FREEWAY -> 65;
          case ARTERIAL -> 55;
          case COLLECTOR -> 45;
          case LOCAL -> 35;
        };
  }

  @Override
  public double speedKmh(Route route, double alongM) {
    return number(route.id(), alongM, AttributeName.POSTED_SPEED_KMH)
        .orElse(usualSpeedKmh(route.roadClass()));
  }

  @Override
  public double speedKmh(Connector connector) {
    return number(connector.id(), 0, AttributeName.POSTED_SPEED_KMH)
        .orElse(usualSpeedKmh(connector.roadClass()));
  }

  @Override
  public boolean oneWay(Route route, double alongM) {
    return flag(route.id(), alongM, AttributeName.ONE_WAY);
  }

  @Override
  public boolean oneWay(Connector connector) {
    return flag(connector.id(), 0, AttributeName.ONE_WAY);
  }

  @Override
  public int level(Route route, double alongM) {
    return (int) number(route.id(), alongM, AttributeName.LEVEL).orElse(0);
  }

  @Override
  public int level(Connector connector) {
    return (int) number(connector.id(), 0, AttributeName.LEVEL).orElse(0);
  }

  @Override
  public double[] breaks(Route route) {
    Map<String, Stretches> names = byRouteAndName.getOrDefault(route.id(), Map.of());
    return java.util.stream.Stream.of(
            AttributeName.POSTED_SPEED_KMH, AttributeName.ONE_WAY, AttributeName.LEVEL)
        .map(n -> names.get(n.key()))
        .filter(java.util.Objects::nonNull)
        .flatMapToDouble(
            s ->
                java.util.stream.DoubleStream.concat(
                    Arrays.stream(s.from()), Arrays.stream(s.to())))
        .filter(a -> a > 0 && a < route.lengthM())
        .sorted()
        .distinct()
        .toArray();
  }
}
