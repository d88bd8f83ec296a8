package lanemend.exchange;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import lanemend.inventory.AttributeName;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.EventTable;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.Segment;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.Side;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;

/**
 * What a filter may name of each kind of record. Sizes go by their US and their metric names alike,
 * whatever the agency reads; mileposts are numbers in miles, those of the place as it lies now.
 */
public final class FilterTables {
  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private final Network network;
  private final PlaceColumns places;

  /** Over the roads of one network. */
  public FilterTables(Network network, Locator locator) {
    this.network = network;
    this.places = new PlaceColumns(network, locator);
  }

  /** Defects. */
  public EventProperties<Defect> defects() {
    EventProperties<Defect> p = placed(Defect::id, Defect::place);
    return p.text("lane", d -> d.lane() == null ? null : d.lane().code())
        .word("kind", DefectKind.values(), Defect::kind)
        .word("severity", Severity.values(), Defect::severity)
        .word("status", DefectStatus.values(), Defect::status)
        .size("length_ft", Conversion.M_PER_FT, "length_m", 1, Defect::lengthM)
        .size("width_ft", Conversion.M_PER_FT, "width_m", 1, Defect::widthM)
        .size("depth_in", Conversion.M_PER_IN, "depth_mm", 1e-3, Defect::depthM)
        .size(
            "area_ft2",
            Conversion.M_PER_FT * Conversion.M_PER_FT,
            "area_m2",
            1,
            d -> d.lengthM() * d.widthM())
        .date("found_on", Defect::foundOn)
        .text("found_by", Defect::foundBy)
        .text("photo", Defect::photo)
        .text("note", Defect::note);
  }

  /** Findings. */
  public EventProperties<Finding> findings() {
    EventProperties<Finding> p = placed(Finding::id, Finding::place);
    return p.word("kind", FindingKind.values(), Finding::kind)
        .word("side", Side.values(), Finding::side)
        .date("found_on", Finding::foundOn)
        .text("found_by", Finding::foundBy)
        .text("note", Finding::note);
  }

  /** Past repairs. */
  public EventProperties<PastPatch> patches() {
    EventProperties<PastPatch> p = placed(PastPatch::id, PastPatch::place);
    return p.text("work", PastPatch::work)
        .text("lane", r -> r.lane() == null ? null : r.lane().code())
        .date("done_on", PastPatch::doneOn)
        .size("tons", Conversion.T_PER_SHORT_TON, "tonnes", 1, PastPatch::tonnes)
        .number("crew_hours", PastPatch::crewHours)
        .number("cost", r -> number(r.cost()));
  }

  private static Double number(BigDecimal value) {
    return value == null ? null : (Double) value.doubleValue();
  }

  /** Segments: their place, and a property for each event table laid over each other. */
  public EventProperties<Segment> segments(List<EventTable> tables) {
    EventProperties<Segment> p = routed(Segment::routeId);
    p.number("milepost", s -> miles(s.routeId(), s.fromAlongM()))
        .number("milepost_to", s -> miles(s.routeId(), s.toAlongM()))
        .size("length_ft", Conversion.M_PER_FT, "length_m", 1, Segment::lengthM);
    for (EventTable table : tables) {
      table(p, table.name());
    }
    return p.geometry(this::line);
  }

  private static void table(EventProperties<Segment> p, String name) {
    boolean number =
        Arrays.stream(AttributeName.values())
            .anyMatch(n -> n.key().equals(name) && AttributeUnits.isNumber(n));
    if (!number) {
      p.text(name, s -> s.value(name).orElse(null));
      return;
    }
    p.number(name, s -> value(s, name));
    AttributeUnits.Us us = AttributeUnits.us(name);
    if (us != null) {
      p.number(us.name(), s -> inUs(value(s, name), us));
    }
  }

  private static Double value(Segment s, String table) {
    double value = s.value(table).map(Cells::parse).orElse(Double.NaN);
    return Double.isNaN(value) ? null : (Double) value;
  }

  private static Double inUs(Double value, AttributeUnits.Us us) {
    return value == null ? null : (Double) (value / us.perUnit());
  }

  private <T> EventProperties<T> placed(Function<T, String> id, Function<T, Place> place) {
    return this.<T>routed(t -> place.apply(t).routeId())
        .text("id", id)
        .number("milepost", t -> miles(place.apply(t).routeId(), place.apply(t).fromAlongM()))
        .number("milepost_to", t -> miles(place.apply(t).routeId(), place.apply(t).toAlongM()))
        .geometry(t -> point(place.apply(t)));
  }

  private <T> EventProperties<T> routed(Function<T, String> routeId) {
    return new EventProperties<T>(places::project)
        .text("route", t -> places.name(routeId.apply(t)))
        .text("direction", t -> places.direction(routeId.apply(t)));
  }

  private Double miles(String routeId, double alongM) {
    Route route = network.route(routeId).orElse(null);
    return route == null ? null : (Double) route.mileposts().at(alongM).miles();
  }

  private Geometry point(Place place) {
    double[] at = places.lonLat(place.x(), place.y());
    return GEOMETRIES.createPoint(new Coordinate(at[0], at[1]));
  }

  private Geometry line(Segment s) {
    Shape shape = places.stretch(s.routeId(), s.fromAlongM(), s.toAlongM());
    if (shape == null) {
      return null;
    }
    if (shape.isPoint()) {
      double[] at = shape.lines().get(0)[0];
      return GEOMETRIES.createPoint(new Coordinate(at[0], at[1]));
    }
    LineString[] parts =
        shape.lines().stream()
            .map(
                part ->
                    GEOMETRIES.createLineString(
                        Arrays.stream(part)
                            .map(at -> new Coordinate(at[0], at[1]))
                            .toArray(Coordinate[]::new)))
            .toArray(LineString[]::new);
    return parts.length == 1 ? parts[0] : GEOMETRIES.createMultiLineString(parts);
  }
}
