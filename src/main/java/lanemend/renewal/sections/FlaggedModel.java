package lanemend.renewal.sections;

import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.RepairModel;

/**
 * The repair model with its flagged clusters. A first fit takes every cell as its family's; its
 * flagged clusters are then given a level of their own and the families are fitted without their
 * pull, which makes the next scan sharper. Twice is enough: a third changes no flag on the sample.
 *
 * @param clusters of the last scan
 */
public record FlaggedModel(RepairModel model, List<Cluster> clusters) {
  private static final int SCANS = 2;

  public FlaggedModel {
    clusters = List.copyOf(clusters);
  }

  /** Fits and scans. */
  public static FlaggedModel of(
      CellHistories histories, FitOptions options, ScanSettings settings) {
    RepairModel model = RepairModel.fit(histories, options);
    List<Cluster> clusters = List.of();
    for (int k = 0; k < SCANS; k++) {
      clusters = ClusterScan.scan(Strip.of(model), settings);
      List<int[]> cells = cells(histories, clusters);
      if (cells.isEmpty()) {
        // Flags that the cleaner fit takes back leave a model of their own kind behind: none.
        return new FlaggedModel(k == 0 ? model : RepairModel.fit(histories, options), clusters);
      }
      model = RepairModel.fit(histories, options, cells);
    }
    return new FlaggedModel(model, clusters);
  }

  /**
   * The model and clusters that were found in these histories before.
   *
   * @throws IllegalArgumentException when they are not of these histories
   */
  public static FlaggedModel of(
      CellHistories histories, RepairModel.Fitted fitted, List<Cluster> clusters) {
    return new FlaggedModel(
        RepairModel.of(histories, fitted, cells(histories, clusters)), clusters);
  }

  private static List<int[]> cells(CellHistories h, List<Cluster> clusters) {
    return clusters.stream().filter(Cluster::flagged).map(c -> cells(h, c)).toList();
  }

  private static int[] cells(CellHistories h, Cluster c) {
    List<Integer> on = new ArrayList<>();
    for (int i = 0; i < h.size(); i++) {
      Cell cell = h.cell(i);
      double middle = (cell.fromAlongM() + cell.toAlongM()) / 2;
      if (cell.routeId().equals(c.routeId()) && middle > c.fromAlongM() && middle < c.toAlongM()) {
        on.add(i);
      }
    }
    return on.stream().mapToInt(Integer::intValue).toArray();
  }
}
