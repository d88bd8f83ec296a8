package lanemend.renewal.overlay;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.renewal.repairs.RepairForecast.Draws;

/**
 * What can be said of overlaying one section: as far as its data reach, and what they lack.
 *
 * @param loads W18, as {@link DesignTraffic#loads()} gives it
 * @param design thickness; empty where traffic, subgrade or layers are not known
 * @param costing patching on against overlaying; empty without a chosen thickness or prices
 * @param condition of the latest survey; empty where none was made
 * @param measured what was measured here and is used, a sentence each
 * @param assumptions each input that was assumed rather than measured here, a sentence each
 * @param lacking what is missing, a sentence each
 */
public record OverlayCase(
    Optional<Figure> loads,
    Optional<OverlayDesign> design,
    Optional<Costing> costing,
    Optional<SectionCondition> condition,
    List<String> measured,
    List<String> assumptions,
    List<String> lacking) {

  public OverlayCase {
    measured = List.copyOf(measured);
    assumptions = List.copyOf(assumptions);
    lacking = List.copyOf(lacking);
  }

  /** A section of which nothing can be said, and why. */
  public static OverlayCase lacking(List<String> lacking) {
    return new OverlayCase(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        List.of(),
        lacking);
  }

  /**
   * The cost comparison with what it was made from.
   *
   * @param overlayCost as {@link OverlayPrice#cost} gives it
   * @param bars sensitivity, widest first
   */
  public record Costing(
      Figure overlayCost,
      Economics economics,
      PatchingOutlook outlook,
      LifeCycle lifeCycle,
      List<Sensitivity.Bar> bars) {

    public Costing {
      bars = List.copyOf(bars);
    }

    /** Compares costs; the outlook must reach over the analysis period. */
    public static Costing of(
        Figure overlayCost,
        Economics economics,
        PatchingOutlook outlook,
        Draws draws,
        Sensitivity.Swing swing) {
      return new Costing(
          overlayCost,
          economics,
          outlook,
          LifeCycle.of(outlook, economics, draws),
          Sensitivity.bars(outlook, economics, swing));
    }

    /** Expected cost of patching in each year, undiscounted, the present surface left as it is. */
    public double[] patchingByYear() {
      return LifeCycle.yearly(outlook, economics, false);
    }

    /** Expected cost of patching in each year of a new surface, undiscounted. */
    public double[] patchingOnNewByYear() {
      return LifeCycle.yearly(outlook, economics, true);
    }
  }
}
