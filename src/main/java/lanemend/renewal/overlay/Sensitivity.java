package lanemend.renewal.overlay;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.renewal.repairs.RepairCost;

/**
 * How the saving of an overlay now against patching on moves with each input alone, the widest bar
 * first.
 */
public final class Sensitivity {
  private Sensitivity() {}

  /**
   * One bar.
   *
   * @param input in words, with its two settings
   * @param atLow saving with the input at its low setting
   * @param atHigh saving at its high setting
   */
  public record Bar(String input, double atLow, double atHigh) {
    public double width() {
      return Math.abs(atHigh - atLow);
    }
  }

  /**
   * How far inputs are moved.
   *
   * @param price share up and down for the overlay's and the patches' prices
   * @param discount points up and down of the discount rate
   * @param lifeYears years up and down of the overlay's life
   */
  public record Swing(double price, double discount, int lifeYears) {
    /** A fifth, two points, three years (common practice, no source). */
    public static final Swing STANDARD = new Swing(0.20, 0.02, 3);
  }

  /** The expected saving of overlaying now. */
  public static double saving(PatchingOutlook outlook, Economics e, double rateFactor) {
    double[] old = LifeCycle.yearly(outlook, e, false);
    double[] fresh = LifeCycle.yearly(outlook, e, true);
    for (int y = 0; y < old.length; y++) {
      old[y] *= rateFactor;
      fresh[y] *= rateFactor;
    }
    double[] costs = LifeCycle.presentCosts(old, fresh, e);
    return costs[e.years()] - costs[0];
  }

  /** All bars, widest first. */
  public static List<Bar> bars(PatchingOutlook outlook, Economics e, Swing swing) {
    List<Bar> bars = new ArrayList<>();
    double p = swing.price();
    bars.add(
        bar(
            "overlay price -%.0f %% to +%.0f %%".formatted(100 * p, 100 * p),
            saving(outlook, priced(e, 1 - p, 1), 1),
            saving(outlook, priced(e, 1 + p, 1), 1)));
    bars.add(
        bar(
            "patching price -%.0f %% to +%.0f %%".formatted(100 * p, 100 * p),
            saving(outlook, priced(e, 1, 1 - p), 1),
            saving(outlook, priced(e, 1, 1 + p), 1)));
    double low = e.discountRate() - swing.discount();
    double high = e.discountRate() + swing.discount();
    bars.add(
        bar(
            "discount rate %.1f %% to %.1f %%".formatted(100 * low, 100 * high),
            saving(outlook, with(e, e.overlayLifeYears(), low, e.kept()), 1),
            saving(outlook, with(e, e.overlayLifeYears(), high, e.kept()), 1)));
    int shorter = Math.max(1, e.overlayLifeYears() - swing.lifeYears());
    int longer = e.overlayLifeYears() + swing.lifeYears();
    bars.add(
        bar(
            "overlay life %d to %d years".formatted(shorter, longer),
            saving(outlook, with(e, shorter, e.discountRate(), e.kept()), 1),
            saving(outlook, with(e, longer, e.discountRate(), e.kept()), 1)));
    bars.add(
        bar(
            "overlay cures the cause wholly to not at all",
            saving(outlook, with(e, e.overlayLifeYears(), e.discountRate(), 0), 1),
            saving(outlook, with(e, e.overlayLifeYears(), e.discountRate(), 1), 1)));
    double sd = Math.sqrt(outlook.relativeVariance());
    bars.add(
        bar(
            "repair rate one standard deviation (%.0f %%) down to up".formatted(100 * sd),
            saving(outlook, e, Math.max(0, 1 - sd)),
            saving(outlook, e, 1 + sd)));
    bars.sort(Comparator.comparingDouble(Bar::width).reversed());
    return bars;
  }

  private static Bar bar(String input, double atLow, double atHigh) {
    return new Bar(input, atLow, atHigh);
  }

  private static Economics priced(Economics e, double overlay, double patching) {
    return new Economics(
        e.overlayCost() * overlay,
        e.overlayLifeYears(),
        new RepairCost(e.repairCost().perRepair() * patching, e.repairCost().perTonne() * patching),
        e.discountRate(),
        e.years(),
        e.kept());
  }

  private static Economics with(Economics e, int life, double rate, double kept) {
    return new Economics(e.overlayCost(), life, e.repairCost(), rate, e.years(), kept);
  }
}
