package lanemend.renewal.exposure;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lanemend.inventory.PastPatch;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.renewal.exposure.Exposure.Remark;
import lanemend.renewal.exposure.Exposure.Unused;

/** Puts the past work of one route into the cells it belongs to. */
final class CellWork {
  private final double[] edges;
  private final List<Map<String, LaneLog>> cells;
  private final ExposureSettings settings;
  private final List<Unused> unused;
  private final List<Remark> remarks;

  CellWork(
      double[] edges,
      List<Map<String, LaneLog>> cells,
      ExposureSettings settings,
      List<Unused> unused,
      List<Remark> remarks) {
    this.edges = edges;
    this.cells = cells;
    this.settings = settings;
    this.unused = unused;
    this.remarks = remarks;
  }

  private static String kind(PastPatch patch) {
    return patch.work().strip().toLowerCase(Locale.ROOT).replaceAll("[ -]+", "_");
  }

  static boolean isResurfacing(PastPatch patch) {
    return kind(patch).equals(ExposureSettings.RESURFACING);
  }

  void add(PastPatch patch) {
    String work = kind(patch);
    if (!patch.doneOn().isBefore(settings.recordsTo())) {
      unused.add(new Unused(patch.id(), "done on or after " + settings.recordsTo()));
    } else if (isResurfacing(patch)) {
      resurface(patch);
    } else if (settings.notRepairs().contains(work)) {
      unused.add(new Unused(patch.id(), work + " is upkeep, not a repair"));
    } else if (patch.doneOn().isBefore(settings.recordsFrom())) {
      unused.add(new Unused(patch.id(), "done before the records start"));
    } else if (patch.lane() != null && patch.lane().number() == 0) {
      unused.add(new Unused(patch.id(), "on the shoulder: cells are lanes"));
    } else {
      repair(patch);
    }
  }

  private void resurface(PastPatch patch) {
    boolean any = false;
    for (int c = 0; c < cells.size(); c++) {
      if (coversHalf(patch, c)) {
        Map<String, LaneLog> lanes = cells.get(c);
        if (patch.lane() == null) {
          lanes.values().forEach(log -> log.surfaced(patch.doneOn()));
        } else {
          lanes.get(lane(patch, lanes)).surfaced(patch.doneOn());
        }
        any = true;
      }
    }
    if (!any) {
      unused.add(new Unused(patch.id(), "resurfacing covers no cell by half"));
    }
  }

  private void repair(PastPatch patch) {
    double tonnes = patch.tonnes() == null ? Double.NaN : patch.tonnes();
    double length = patch.place().toAlongM() - patch.place().fromAlongM();
    int middle = cellAt(patch.place().middleAlongM());
    if (length <= settings.cellM()) {
      put(patch, middle, tonnes);
      return;
    }
    double covered = 0;
    for (int c = 0; c < cells.size(); c++) {
      covered += counts(patch, c, middle) ? overlap(patch, c) : 0;
    }
    for (int c = 0; c < cells.size(); c++) {
      if (counts(patch, c, middle)) {
        put(patch, c, tonnes * overlap(patch, c) / covered);
      }
    }
  }

  private boolean counts(PastPatch patch, int c, int middle) {
    return c == middle || coversHalf(patch, c);
  }

  private boolean coversHalf(PastPatch patch, int c) {
    // A micron of grace, so that rounding does not decide a half.
    return overlap(patch, c) >= (edges[c + 1] - edges[c]) / 2 - 1e-6;
  }

  private void put(PastPatch patch, int c, double tonnes) {
    Map<String, LaneLog> lanes = cells.get(c);
    lanes.get(lane(patch, lanes)).repaired(patch.id(), patch.doneOn(), tonnes);
  }

  private double overlap(PastPatch patch, int c) {
    double from = Math.max(edges[c], patch.place().fromAlongM());
    double to = Math.min(edges[c + 1], patch.place().toAlongM());
    return Math.max(0, to - from);
  }

  private int cellAt(double alongM) {
    int i = Arrays.binarySearch(edges, alongM);
    int c = i >= 0 ? i : -i - 2;
    return Math.max(0, Math.min(cells.size() - 1, c));
  }

  /** The recorded lane where the road has it; else the nearest it has, with a remark. */
  private String lane(PastPatch patch, Map<String, LaneLog> lanes) {
    Lane lane = patch.lane();
    if (lane == null) {
      remarks.add(
          new Remark(
              patch.id(), "no lane recorded: counted in R1; the cell is right, the lane not"));
      return "R1";
    }
    if (lanes.containsKey(lane.code())) {
      return lane.code();
    }
    String side = lane.side() == Side.LEFT && lanes.containsKey("L1") ? "L" : "R";
    int number = Math.max(1, lane.number());
    while (!lanes.containsKey(side + number)) {
      number--;
    }
    remarks.add(
        new Remark(
            patch.id(), "the road has no lane " + lane.code() + ": counted in " + side + number));
    return side + number;
  }
}
