package lanemend.renewal.exposure;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import lanemend.inventory.AttributeName;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Route;
import lanemend.renewal.exposure.Exposure.Inferred;
import lanemend.renewal.exposure.Exposure.Remark;
import lanemend.renewal.exposure.Exposure.ToAsk;
import lanemend.renewal.exposure.Exposure.Unused;

/**
 * Turns roads and past work into histories of cells. Every past patch is counted in a cell, starts
 * an age anew, or is named among the unused with its reason.
 *
 * <p>Rules: a repair no longer than a cell counts in the cell of its middle; a longer one counts
 * once in each cell it covers by half or more, its tonnes shared by length. A resurfacing starts
 * the age anew in each cell it covers by half or more, in its lane or, where no lane is recorded,
 * in all. Ages before the first known surfacing are not known and do not count.
 */
public final class ExposureBuilder {
  private final RoadAttributes attributes;
  private final Families families;
  private final List<Covariate> covariates;
  private final ExposureSettings settings;
  private final Map<String, Integer> familyNumbers = new LinkedHashMap<>();
  private final List<Inferred> inferred = new ArrayList<>();
  private final List<ToAsk> toAsk = new ArrayList<>();
  private final List<Unused> unused = new ArrayList<>();
  private final List<Remark> remarks = new ArrayList<>();

  private ExposureBuilder(
      RoadAttributes attributes,
      Families families,
      List<Covariate> covariates,
      ExposureSettings settings) {
    this.attributes = attributes;
    this.families = families;
    this.covariates = covariates;
    this.settings = settings;
  }

  /** Histories of all cells of {@code routes}. */
  public static Exposure build(
      Collection<Route> routes,
      RoadAttributes attributes,
      List<PastPatch> patches,
      Families families,
      List<Covariate> covariates,
      ExposureSettings settings) {
    return new ExposureBuilder(attributes, families, covariates, settings).all(routes, patches);
  }

  private Exposure all(Collection<Route> routes, List<PastPatch> patches) {
    SharedStretches shared = SharedStretches.of(routes);
    Map<String, List<PastPatch>> byRoute = new HashMap<>();
    List<PastPatch> settled = new ArrayList<>();
    for (PastPatch recorded : patches) {
      settled.addAll(shared.settle(recorded, CellWork.isResurfacing(recorded)));
    }
    for (PastPatch p : settled) {
      byRoute.computeIfAbsent(p.place().routeId(), k -> new ArrayList<>()).add(p);
    }
    List<String> names = new ArrayList<>();
    CellHistories.Builder out = new CellHistories.Builder(names);
    for (Route route : routes) {
      List<PastPatch> own = byRoute.remove(route.id());
      route(route, own == null ? List.of() : own, shared, out);
    }
    names.addAll(familyNumbers.keySet());
    byRoute.forEach(
        (id, rows) ->
            rows.forEach(p -> unused.add(new Unused(p.id(), "route " + id + " is not known"))));
    return new Exposure(out.build(), settings, inferred, toAsk, unused, remarks);
  }

  private void route(
      Route route, List<PastPatch> patches, SharedStretches shared, CellHistories.Builder out) {
    double[] edges = edges(route.lengthM());
    SurfacingYears years = SurfacingYears.read(route.id(), edges, attributes, settings);
    inferred.addAll(years.inferred());
    remarks.addAll(years.remarks());
    List<Map<String, LaneLog>> cells = lanes(route, edges);
    CellWork work = new CellWork(edges, cells, settings, unused, remarks);
    patches.forEach(work::add);
    Ask ask = null;
    for (int c = 0; c < cells.size(); c++) {
      if (shared.sharedM(route.id(), edges[c], edges[c + 1]) > (edges[c + 1] - edges[c]) / 2) {
        ask = close(ask);
        cells.get(c).values().forEach(log -> nameShared(route, log));
        continue;
      }
      int unknownRepairs = write(route, edges, c, cells.get(c), years.year(c), out);
      if (unknownRepairs < 0) {
        ask = close(ask);
      } else {
        ask = ask == null ? new Ask(route.id(), edges[c]) : ask;
        ask.toM = edges[c + 1];
        ask.repairs += unknownRepairs;
      }
    }
    close(ask);
  }

  private void nameShared(Route route, LaneLog log) {
    for (String id : log.patchIds()) {
      unused.add(new Unused(id, "at the very end of a stretch " + route.id() + " shares"));
    }
  }

  private double[] edges(double lengthM) {
    int n = Math.max(1, (int) Math.ceil(lengthM / settings.cellM() - 1e-9));
    double[] edges = new double[n + 1];
    for (int i = 0; i < n; i++) {
      edges[i] = i * settings.cellM();
    }
    edges[n] = lengthM;
    return edges;
  }

  private List<Map<String, LaneLog>> lanes(Route route, double[] edges) {
    List<Map<String, LaneLog>> cells = new ArrayList<>();
    boolean assumed = false;
    for (int c = 0; c + 1 < edges.length; c++) {
      double middle = (edges[c] + edges[c + 1]) / 2;
      OptionalDouble known = attributes.number(route.id(), middle, AttributeName.LANES);
      assumed |= known.isEmpty();
      int lanes = Math.max(1, (int) Math.round(known.orElse(settings.lanesUnknown())));
      Map<String, LaneLog> logs = new TreeMap<>();
      // Counted outward from the centreline of the roadway, a divided road's too.
      int left = lanes / 2;
      for (int i = 1; i <= Math.min(9, lanes - left); i++) {
        logs.put("R" + i, new LaneLog());
      }
      for (int i = 1; i <= Math.min(9, left); i++) {
        logs.put("L" + i, new LaneLog());
      }
      cells.add(logs);
    }
    if (assumed) {
      remarks.add(
          new Remark(
              route.id(),
              "lanes are not recorded on all of it: " + settings.lanesUnknown() + " taken there"));
    }
    return cells;
  }

  /** Writes the lanes of one cell; -1 where all ages are known now, else repairs of unknown age. */
  private int write(
      Route route,
      double[] edges,
      int c,
      Map<String, LaneLog> lanes,
      int year,
      CellHistories.Builder out) {
    double middle = (edges[c] + edges[c + 1]) / 2;
    String name = families.at(route.id(), middle, attributes);
    Integer known = familyNumbers.putIfAbsent(name, familyNumbers.size());
    int family = known == null ? familyNumbers.size() - 1 : known;
    double share = (edges[c + 1] - edges[c]) / settings.cellM();
    double[] values = values(route.id(), middle);
    boolean asking = false;
    int ageless = 0;
    for (Map.Entry<String, LaneLog> lane : lanes.entrySet()) {
      LaneLog log = lane.getValue();
      if (year != SurfacingYears.UNKNOWN) {
        log.surfacedInYear(year);
      }
      double now = log.ageAt(settings.recordsTo().toEpochDay());
      asking |= Double.isNaN(now);
      Cell cell = new Cell(route.id(), c, lane.getKey(), edges[c], edges[c + 1]);
      out.cell(cell, family, share, now, values);
      List<LaneLog.Repair> lost =
          log.write(out, settings.recordsFrom().toEpochDay(), settings.recordsTo().toEpochDay());
      ageless += lost.size();
      for (LaneLog.Repair r : lost) {
        unused.add(
            new Unused(
                r.patchId(),
                "the surfacing before it is not known (%s, lane %s, from %.0f m)"
                    .formatted(route.id(), lane.getKey(), edges[c])));
      }
    }
    return asking ? ageless : -1;
  }

  private double[] values(String routeId, double middle) {
    double[] values = new double[covariates.size()];
    for (int k = 0; k < values.length; k++) {
      // An unknown covariate counts as the centre: it shifts the rate neither way.
      values[k] = covariates.get(k).at(routeId, middle, attributes).orElse(0);
    }
    return values;
  }

  /** A stretch being gathered for one question. */
  private static final class Ask {
    private final String routeId;
    private final double fromM;
    private double toM;
    private int repairs;

    private Ask(String routeId, double fromM) {
      this.routeId = routeId;
      this.fromM = fromM;
    }
  }

  private Ask close(Ask ask) {
    if (ask != null) {
      toAsk.add(
          new ToAsk(
              ask.routeId,
              ask.fromM,
              ask.toM,
              ask.repairs,
              String.format(
                  Locale.ROOT,
                  "In which year was %s last surfaced from %.0f m to %.0f m? Until it is known, %d"
                      + " repairs there are left out.",
                  ask.routeId,
                  ask.fromM,
                  ask.toM,
                  ask.repairs)));
    }
    return null;
  }
}
