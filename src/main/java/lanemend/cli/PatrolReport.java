package lanemend.cli;

import java.io.PrintWriter;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import lanemend.county.County;
import lanemend.exchange.GpxPoint;
import lanemend.exchange.Read;
import lanemend.measure.Unit;
import lanemend.network.DrivenStretch;
import lanemend.network.Route;
import lanemend.network.RouteSpan;
import lanemend.network.TrackMatch;

/** Prints a matched track: a line for each stretch, and whatever was not told. */
final class PatrolReport {
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  private final County county;
  private final PrintWriter out;

  PatrolReport(County county, PrintWriter out) {
    this.county = county;
    this.out = out;
  }

  /** Prints the stretches; true when every one is told. */
  boolean print(Read<GpxPoint> fixes, TrackMatch match) {
    Instant first = fixes.rows().isEmpty() ? null : fixes.rows().get(0).at();
    if (first != null) {
      out.println("patrol     " + first.atZone(ZoneId.systemDefault()).toLocalDate());
    }
    boolean told = true;
    for (DrivenStretch s : match.stretches()) {
      out.println("  " + times(s) + places(s));
      told &= s.told() && s.clear();
      if (!s.told()) {
        out.println("      these run together, and the track does not tell which was patrolled");
      }
      if (!s.clear()) {
        out.println("      not clear, or: " + others(s));
      }
    }
    for (TrackMatch.Break b : match.breaks()) {
      out.println("  break after fix " + (b.afterFix() + 1) + ": " + b.why());
    }
    out.printf(
        Locale.ROOT,
        "track      %,d fixes, %,d stretches, %.1f miles; %,d fixes off the roads, %,d stray;"
            + " error about %s%n",
        fixes.rows().size(),
        match.stretches().size(),
        match.stretches().stream().mapToDouble(DrivenStretch::lengthM).sum()
            / lanemend.measure.Conversion.M_PER_MILE,
        match.offRoad(),
        match.stray(),
        county.units().show(match.errorM(), Unit.METER).text());
    return told;
  }

  private static String times(DrivenStretch s) {
    return s.from() == null || s.to() == null ? "" : clock(s.from()) + " - " + clock(s.to()) + "  ";
  }

  private static String clock(Instant at) {
    return CLOCK.format(at.atZone(ZoneId.systemDefault()));
  }

  private String places(DrivenStretch s) {
    if (s.routes().isEmpty()) {
      return "roads without a route name, " + county.units().show(s.lengthM(), Unit.METER).text();
    }
    String first = place(s.routes().get(0));
    List<RouteSpan> along = s.routes().subList(1, s.routes().size());
    return along.isEmpty()
        ? first
        : first
            + (s.told() ? "  (together with " : "  or  ")
            + along.stream()
                .map(this::place)
                .collect(Collectors.joining(s.told() ? ", " : "  or  "))
            + (s.told() ? ")" : "");
  }

  private String place(RouteSpan span) {
    return span.routeId()
        + " "
        + milepost(span.routeId(), span.fromAlongM())
        + " - "
        + milepost(span.routeId(), span.toAlongM());
  }

  private String milepost(String routeId, double alongM) {
    Route route = county.network().route(routeId).orElseThrow();
    return route.mileposts().at(alongM).text();
  }

  private String others(DrivenStretch s) {
    return s.others().stream()
        .map(
            o ->
                (o.routeId().isEmpty()
                        ? "a road without a route name"
                        : o.routeId() + " " + milepost(o.routeId(), o.alongM()))
                    + String.format(Locale.ROOT, " (%.0f %%)", 100 * o.belief()))
        .collect(Collectors.joining("; "));
  }
}
