package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttribute;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Route;

/**
 * The road network as lines that {@link RoadReader} takes: each route cut where a fact about it
 * changes, connectors without a route name. Routes that run together come out as a line each.
 */
public final class RoadExport {
  /** Seven decimals of a degree are a centimetre: a shorter piece would have no two vertices. */
  private static final double SHORTEST_M = 0.1;

  private final Network network;
  private final PlaceColumns places;
  private final boolean us;
  private final Map<String, List<RoadAttribute>> byRoute = new HashMap<>();

  /**
   * @param attributes facts of routes, and of connectors under their id
   * @param onDay the day whose facts are written
   */
  public RoadExport(
      Network network,
      Locator locator,
      List<RoadAttribute> attributes,
      LocalDate onDay,
      UnitSystem units) {
    this.network = network;
    this.places = new PlaceColumns(network, locator);
    this.us = units == UnitSystem.US_CUSTOMARY;
    for (RoadAttribute a : attributes) {
      boolean begun = a.validFrom() == null || !a.validFrom().isAfter(onDay);
      boolean ended = a.validTo() != null && !a.validTo().isAfter(onDay);
      if (begun && !ended && isColumn(a.name())) {
        byRoute.computeIfAbsent(a.routeId(), k -> new ArrayList<>()).add(a);
      }
    }
  }

  private static boolean isColumn(String name) {
    for (AttributeName n : AttributeName.values()) {
      if (n.key().equals(name)) {
        return true;
      }
    }
    return false;
  }

  private record Piece(
      String name, String direction, RoadClass roadClass, Shape shape, Map<String, String> facts) {}

  /**
   * Writes the roads; {@code .geojson} as GeoJSON, anything else as CSV with a {@code wkt} column.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void write(Path target) {
    List<Piece> pieces = new ArrayList<>();
    network.routes().values().forEach(r -> cut(r, pieces));
    network.connectors().forEach(c -> pieces.add(piece(c)));
    ExportTable<Piece> table =
        new ExportTable<Piece>()
            .column("route", Piece::name)
            .column("direction", Piece::direction)
            .column("class", p -> p.roadClass().name().toLowerCase(Locale.ROOT));
    number(table, "speed_mph", Conversion.KMH_PER_MPH, "speed_kmh", AttributeName.POSTED_SPEED_KMH);
    number(table, "lanes", 1, "lanes", AttributeName.LANES);
    number(table, "lane_width_ft", Conversion.M_PER_FT, "lane_width_m", AttributeName.LANE_WIDTH_M);
    number(table, "shoulder_ft", Conversion.M_PER_FT, "shoulder_m", AttributeName.SHOULDER_WIDTH_M);
    text(table, "one_way", AttributeName.ONE_WAY);
    number(table, "level", 1, "level", AttributeName.LEVEL);
    text(table, "surface", AttributeName.SURFACE);
    text(table, "base", AttributeName.BASE);
    number(table, "aadt", 1, "aadt", AttributeName.AADT);
    number(table, "truck_share", 1, "truck_share", AttributeName.TRUCK_SHARE);
    text(table, "urban", AttributeName.URBAN);
    number(table, "last_surfacing", 1, "last_surfacing", AttributeName.LAST_SURFACING);
    table.shape(Piece::shape).withWkt().write(target, pieces);
  }

  private static void text(ExportTable<Piece> table, String column, AttributeName name) {
    table.column(column, p -> p.facts().get(name.key()));
  }

  private void number(
      ExportTable<Piece> table,
      String usColumn,
      double perUs,
      String metricColumn,
      AttributeName name) {
    table.column(
        us ? usColumn : metricColumn,
        p -> {
          double value = Cells.parse(p.facts().getOrDefault(name.key(), ""));
          return Double.isNaN(value) ? null : (Double) (us ? value / perUs : value);
        });
  }

  private void cut(Route route, List<Piece> pieces) {
    List<RoadAttribute> facts = byRoute.getOrDefault(route.id(), List.of());
    TreeSet<Double> cuts = new TreeSet<>(List.of(0.0, route.lengthM()));
    for (RoadAttribute a : facts) {
      for (double along : new double[] {a.fromAlongM(), a.toAlongM()}) {
        if (along > SHORTEST_M && along < route.lengthM() - SHORTEST_M) {
          cuts.add(along);
        }
      }
    }
    double from = cuts.pollFirst();
    for (double to : cuts) {
      if (to - from < SHORTEST_M && to < route.lengthM()) {
        continue;
      }
      Shape shape = places.stretch(route.id(), from, to);
      if (shape != null && shape.isLine()) {
        pieces.add(
            new Piece(
                route.name(),
                route.direction(),
                route.roadClass(),
                shape,
                at(facts, (from + to) / 2)));
      }
      from = to;
    }
  }

  private static Map<String, String> at(List<RoadAttribute> facts, double alongM) {
    Map<String, RoadAttribute> latest = new HashMap<>();
    for (RoadAttribute a : facts) {
      if (a.fromAlongM() <= alongM && alongM < a.toAlongM()) {
        latest.merge(a.name(), a, (x, y) -> from(y).isBefore(from(x)) ? x : y);
      }
    }
    Map<String, String> values = new HashMap<>();
    latest.forEach((name, a) -> values.put(name, a.value()));
    return values;
  }

  private static LocalDate from(RoadAttribute a) {
    return a.validFrom() == null ? LocalDate.MIN : a.validFrom();
  }

  private Piece piece(Connector c) {
    CenterlinePart line = c.line();
    double[][] vertices = new double[line.size()][];
    for (int i = 0; i < vertices.length; i++) {
      vertices[i] = places.lonLat(line.x(i), line.y(i));
    }
    return new Piece(
        "",
        "",
        c.roadClass(),
        PlaceColumns.lines(List.<double[][]>of(vertices)),
        at(byRoute.getOrDefault(c.id(), List.of()), (line.fromAlong() + line.toAlong()) / 2));
  }
}
