package lanemend.inventory;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import lanemend.network.Assembly;
import lanemend.network.Connector;
import lanemend.network.ConnectorRun;
import lanemend.network.LineRun;

/**
 * The facts of the source lines as road attributes. A road is drawn in many short lines; neighbours
 * that say the same become one stretch.
 */
public final class AttributeRuns {
  /** Two runs of one route closer than this touch, metres: less than any line that is kept. */
  private static final double TOUCHING_M = 0.01;

  private AttributeRuns() {}

  /** Every fact of the assembled lines, by route and name, by growing along. */
  public static List<RoadAttribute> of(Assembly assembly) {
    List<RoadAttribute> attributes = new ArrayList<>();
    Map<String, List<LineRun>> byRoute = new TreeMap<>();
    assembly
        .runs()
        .forEach(r -> byRoute.computeIfAbsent(r.routeId(), k -> new ArrayList<>()).add(r));
    byRoute.forEach(
        (routeId, runs) -> {
          runs.sort(
              Comparator.comparingDouble(LineRun::fromAlongM)
                  .thenComparingDouble(LineRun::toAlongM));
          Map<String, Stretch> open = new TreeMap<>();
          for (LineRun run : runs) {
            run.attributes()
                .forEach((name, value) -> extend(open, routeId, run, name, value, attributes));
          }
          open.forEach((name, stretch) -> attributes.add(stretch.as(routeId, name)));
        });
    attributes.sort(
        Comparator.comparing(RoadAttribute::routeId)
            .thenComparing(RoadAttribute::name)
            .thenComparingDouble(RoadAttribute::fromAlongM));
    Map<String, Double> lengths = new TreeMap<>();
    for (Connector c : assembly.network().connectors()) {
      lengths.put(c.id(), c.line().toAlong());
    }
    for (ConnectorRun run : assembly.connectorRuns()) {
      Stretch whole = new Stretch(0, lengths.get(run.connectorId()), "");
      new TreeMap<>(run.attributes())
          .forEach(
              (name, value) -> attributes.add(whole.saying(value).as(run.connectorId(), name)));
    }
    return attributes;
  }

  private record Stretch(double fromM, double toM, String value) {
    RoadAttribute as(String routeId, String name) {
      return new RoadAttribute(routeId, fromM, toM, name, value, LocalDate.EPOCH, null);
    }

    Stretch saying(String other) {
      return new Stretch(fromM, toM, other);
    }
  }

  private static void extend(
      Map<String, Stretch> open,
      String routeId,
      LineRun run,
      String name,
      String value,
      List<RoadAttribute> done) {
    Stretch before = open.get(name);
    if (before != null
        && before.value().equals(value)
        && run.fromAlongM() <= before.toM() + TOUCHING_M) {
      open.put(name, new Stretch(before.fromM(), Math.max(before.toM(), run.toAlongM()), value));
      return;
    }
    if (before != null) {
      done.add(before.as(routeId, name));
    }
    open.put(name, new Stretch(run.fromAlongM(), run.toAlongM(), value));
  }
}
