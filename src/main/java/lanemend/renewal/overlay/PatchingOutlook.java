package lanemend.renewal.overlay;

import lanemend.renewal.repairs.RateForecast;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.repairs.TonsModel;

/**
 * What a section's patching would need, year by year, on its present surface and on a new one: the
 * physical side of a cost comparison, free of prices.
 *
 * @param repairs expected repairs by year and family on the present surface
 * @param repairsOnNew the same counted from a new surface's first year, cells as their families
 * @param repairsOnNewKept the same with each cell's difference from its family kept
 * @param relativeVariance of the section's rate, as a share of its mean squared
 * @param tons law of mix per repair, by family
 */
public record PatchingOutlook(
    double[][] repairs,
    double[][] repairsOnNew,
    double[][] repairsOnNewKept,
    double relativeVariance,
    TonsModel.Law[] tons) {

  /** The outlook of these cells over {@code years} years. */
  public static PatchingOutlook of(RepairModel model, int[] cells, int years) {
    RateForecast rates = RateForecast.of(model, cells, years);
    double[][] repairs = new double[years][rates.families()];
    TonsModel.Law[] tons = new TonsModel.Law[rates.families()];
    for (int f = 0; f < tons.length; f++) {
      tons[f] = model.tons().of(f);
      for (int y = 0; y < years; y++) {
        repairs[y][f] = rates.inYear(y, f);
      }
    }
    return new PatchingOutlook(
        repairs,
        RateForecast.resurfaced(model, cells, years, 0),
        RateForecast.resurfaced(model, cells, years, 1),
        rates.relativeVariance(),
        tons);
  }

  public int years() {
    return repairs.length;
  }

  /** Expected repairs in the y-th year of a new surface, all families. */
  double onNew(int y, int family, double kept) {
    return repairsOnNew[y][family] + kept * (repairsOnNewKept[y][family] - repairsOnNew[y][family]);
  }
}
