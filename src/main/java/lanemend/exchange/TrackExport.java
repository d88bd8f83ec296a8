package lanemend.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import lanemend.network.DrivenStretch;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.RouteSpan;

/** A patrol's matched track as CSV or GeoJSON: a row for each stretch and each route of it. */
public final class TrackExport {
  private final PlaceColumns places;

  /** Over the roads of one network. */
  public TrackExport(Network network, Locator locator) {
    this.places = new PlaceColumns(network, locator);
  }

  private record Line(int stretch, DrivenStretch of, RouteSpan span) {}

  /**
   * Writes the stretches that have a route.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void write(Path target, List<DrivenStretch> stretches) {
    List<Line> lines = new java.util.ArrayList<>();
    for (int i = 0; i < stretches.size(); i++) {
      for (RouteSpan span : stretches.get(i).routes()) {
        lines.add(new Line(i + 1, stretches.get(i), span));
      }
    }
    new ExportTable<Line>()
        .column("stretch", l -> l.stretch())
        .column("from_time", l -> l.of().from())
        .column("to_time", l -> l.of().to())
        .column("route", l -> places.name(l.span().routeId()))
        .column("direction", l -> places.direction(l.span().routeId()))
        .column("milepost_from", l -> places.milepost(l.span().routeId(), l.span().fromAlongM()))
        .column("milepost_to", l -> places.milepost(l.span().routeId(), l.span().toAlongM()))
        .column("told", l -> told(l) ? "yes" : "no")
        .column("belief", l -> Math.round(1000 * l.of().belief()) / 1000.0)
        .column(
            "or",
            l ->
                l.of().others().stream()
                    .map(DrivenStretch.OtherRoad::routeId)
                    .collect(Collectors.joining(";")))
        .shape(l -> places.stretch(l.span().routeId(), l.span().fromAlongM(), l.span().toAlongM()))
        .write(target, lines);
  }

  /** Told are a clear stretch's only route and, where routes run together, the followed one. */
  private static boolean told(Line l) {
    return l.of().clear() && l.of().told() && l.of().routes().get(0).equals(l.span());
  }
}
