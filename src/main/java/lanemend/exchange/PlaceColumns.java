package lanemend.exchange;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.network.EquationSide;
import lanemend.network.Locator;
import lanemend.network.Milepost;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;

/**
 * How an export says where something is. The columns that are read back hold what was entered, so
 * that an export imports unchanged; the {@code at_} columns add what was worked out from it.
 */
final class PlaceColumns {
  private final Network network;
  private final Locator locator;
  private final ProjectedCrs crs;

  PlaceColumns(Network network, Locator locator) {
    this.network = network;
    this.locator = locator;
    this.crs = ProjectedCrs.fromWkt(network.crsWkt());
  }

  /** The columns that are read back, and the point as geometry. */
  <T> void entered(ExportTable<T> table, Function<T, Place> place) {
    table
        .column("route", t -> written(place.apply(t)).route())
        .column("direction", t -> written(place.apply(t)).direction())
        .column("milepost", t -> written(place.apply(t)).milepostFrom())
        .column("milepost_to", t -> written(place.apply(t)).milepostTo())
        .column("longitude", t -> BigDecimal.valueOf(at(place.apply(t))[0]))
        .column("latitude", t -> BigDecimal.valueOf(at(place.apply(t))[1]))
        .shape(t -> point(at(place.apply(t))));
  }

  /** The columns that are worked out, for whoever maps the file. */
  <T> void derived(ExportTable<T> table, Function<T, Place> place) {
    table
        .column("at_route", t -> name(place.apply(t).routeId()))
        .column("at_direction", t -> direction(place.apply(t).routeId()))
        .column("at_milepost", t -> milepost(place.apply(t).routeId(), place.apply(t).fromAlongM()))
        .column(
            "at_milepost_to", t -> milepost(place.apply(t).routeId(), place.apply(t).toAlongM()));
  }

  private record Written(String route, String direction, String milepostFrom, String milepostTo) {}

  private Written written(Place place) {
    Entered e = place.entered();
    if (e == null || (e.milepostFrom() == null && e.longitude() == null)) {
      // A place that was worked out anew: its mileposts are all there is to enter.
      return new Written(
          name(place.routeId()),
          direction(place.routeId()),
          finely(place.routeId(), place.fromAlongM()),
          finely(place.routeId(), place.toAlongM()));
    }
    if (e.milepostFrom() != null) {
      String to = e.milepostTo() == null ? "" : e.milepostTo();
      return new Written(name(place.routeId()), direction(place.routeId()), e.milepostFrom(), to);
    }
    String hint = e.route() == null ? "" : e.route();
    return network.route(hint).isPresent()
        ? new Written(name(hint), direction(hint), "", "")
        : new Written(hint, "", "", "");
  }

  /** What was entered to the last digit, else the place to the centimetre. */
  private double[] at(Place place) {
    Entered e = place.entered();
    if (e != null && e.milepostFrom() == null && e.longitude() != null) {
      return new double[] {e.longitude(), e.latitude()};
    }
    double[] at = lonLat(place.x(), place.y());
    return new double[] {
      Double.parseDouble(ExportTable.degrees(at[0])), Double.parseDouble(ExportTable.degrees(at[1]))
    };
  }

  static Shape point(double[] lonLat) {
    return new Shape("Point", List.<double[][]>of(new double[][] {lonLat}));
  }

  double[] lonLat(double x, double y) {
    return crs.unproject(x, y);
  }

  double[] project(double[] lonLat) {
    return crs.project(lonLat[0], lonLat[1]);
  }

  /** A stretch of route as a line, or as its point when it has no length. */
  Shape stretch(String routeId, double fromAlongM, double toAlongM) {
    List<double[][]> parts = new ArrayList<>();
    for (double[][] part : locator.shape(routeId, fromAlongM, toAlongM)) {
      if (part.length >= 2) {
        parts.add(line(part));
      }
    }
    if (parts.isEmpty()) {
      return locator
          .pointAt(routeId, (fromAlongM + toAlongM) / 2, 0)
          .map(p -> point(lonLat(p.x(), p.y())))
          .orElse(null);
    }
    return lines(parts);
  }

  double[][] line(double[][] projected) {
    double[][] line = new double[projected.length][];
    for (int i = 0; i < line.length; i++) {
      line[i] = lonLat(projected[i][0], projected[i][1]);
    }
    return line;
  }

  static Shape lines(List<double[][]> parts) {
    return new Shape(parts.size() == 1 ? "LineString" : "MultiLineString", parts);
  }

  String name(String routeId) {
    return network.route(routeId).map(Route::name).orElse(routeId);
  }

  String direction(String routeId) {
    return network.route(routeId).map(Route::direction).orElse("");
  }

  String milepost(String routeId, double alongM) {
    return network.route(routeId).map(r -> r.mileposts().at(alongM).text()).orElse("");
  }

  /** A milepost to a tenth of a millimetre, so that it leads back to the same place. */
  String finely(String routeId, double alongM) {
    return network.route(routeId).map(r -> finely(r.mileposts().at(alongM))).orElse("");
  }

  private static String finely(Milepost m) {
    String side =
        m.equationSide() == EquationSide.ONLY
            ? ""
            : " " + m.equationSide().name().toLowerCase(Locale.ROOT);
    return Numbers.plain(m.miles()) + side;
  }
}
