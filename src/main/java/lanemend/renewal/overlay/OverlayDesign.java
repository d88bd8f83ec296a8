package lanemend.renewal.overlay;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Overlay thickness for each depth of milling, and the one the limits choose. {@code D = (SNf -
 * SNeff) / a}, up to the half inch; SNeff counts what milling leaves.
 *
 * @param needed SNf
 * @param options by growing mill depth
 * @param chosen the least milling that keeps to the limits; empty when none does
 * @param cautions what an engineer must look at
 */
public record OverlayDesign(
    Figure needed, List<Option> options, Optional<Option> chosen, List<String> cautions) {

  private static final double HALF_INCH_M = Conversion.M_PER_IN / 2;
  private static final String SOURCE = "AASHTO Guide 1993, part III, 5.4 (from memory)";

  /**
   * A layer of the pavement in place.
   *
   * @param coefficient structural coefficient per inch
   * @param drainage m; 1 for asphalt
   * @param reason where the coefficient comes from, in words
   */
  public record Layer(
      String name, double thicknessM, double coefficient, double drainage, String reason) {

    /** The asphalt of a table's row, at the middle of the row's range. */
    public static Layer of(String name, double thicknessM, LayerTable.Row row, double drainage) {
      return new Layer(name, thicknessM, row.middle(), drainage, row.condition());
    }
  }

  /**
   * What bounds the choice.
   *
   * @param overlayCoefficient of new asphalt per inch; 0.44 is the Guide's (from memory)
   * @param thinnestM least overlay that can be laid and compacted
   * @param leastMillM for instance to the depth of the ruts
   * @param mostRiseM how far the surface may rise: curbs, rails, clearances
   * @param leastLeftM asphalt that must be left under the mill
   */
  public record Limits(
      double overlayCoefficient,
      double thinnestM,
      double leastMillM,
      double mostRiseM,
      double leastLeftM) {
    /**
     * 0.44; 1.5 in overlay; no milling needed; 2 in rise; 1 in left (common practice, no source).
     */
    public static final Limits STANDARD =
        new Limits(
            0.44, 1.5 * Conversion.M_PER_IN, 0, 2 * Conversion.M_PER_IN, 1.0 * Conversion.M_PER_IN);
  }

  /** One depth of milling. */
  public record Option(double millM, Figure effective, Figure thickness, double riseM) {}

  public OverlayDesign {
    options = List.copyOf(options);
    cautions = List.copyOf(cautions);
  }

  /**
   * Designs the overlay; the first layer is the asphalt that would be milled.
   *
   * @throws IllegalArgumentException without layers
   */
  public static OverlayDesign of(
      FlexibleEquation.Demand demand, List<Layer> layers, Limits limits) {
    if (layers.isEmpty()) {
      throw new IllegalArgumentException("no layers: the structure in place is not known");
    }
    Figure needed = FlexibleEquation.structuralNumber(demand);
    List<Option> options = new ArrayList<>();
    double deepest = layers.get(0).thicknessM() - limits.leastLeftM();
    for (int k = 0; k == 0 || k * HALF_INCH_M <= deepest + 1e-9; k++) {
      options.add(option(needed, layers, k * HALF_INCH_M, limits));
    }
    Optional<Option> chosen =
        options.stream()
            .filter(o -> o.millM() >= limits.leastMillM() - 1e-9)
            .filter(o -> o.riseM() <= limits.mostRiseM() + 1e-9)
            .findFirst();
    List<String> cautions = new ArrayList<>();
    cautions.add(
        "For review by a licensed engineer: thickness, drainage and repairs before overlay.");
    cautions.add(
        "Layer coefficients of pavement in place are a judgement; cores and deflections settle it.");
    if (chosen.isEmpty()) {
      cautions.add("No milling depth keeps to the limits: reconstruct, or look at the limits.");
    }
    return new OverlayDesign(needed, options, chosen, cautions);
  }

  private static Option option(Figure needed, List<Layer> layers, double millM, Limits limits) {
    Figure effective = effective(layers, millM);
    double lacking = needed.value() - effective.value();
    double exactM = lacking / limits.overlayCoefficient() * Conversion.M_PER_IN;
    // A thousandth of a half inch of grace, so that rounding does not add a lift.
    double roundedM = Math.ceil(exactM / HALF_INCH_M - 1e-3) * HALF_INCH_M;
    double thicknessM = Math.max(roundedM, limits.thinnestM());
    Figure thickness =
        new Figure(
            "overlay thickness",
            thicknessM,
            Unit.THICKNESS_METER,
            roundedM < limits.thinnestM()
                ? "(SNf - SNeff) / a is less than the thinnest overlay: the thinnest"
                : "(SNf - SNeff) / a, up to the half inch",
            List.of(
                needed.asInput(),
                effective.asInput(),
                new Figure.Input("a of new asphalt", limits.overlayCoefficient(), Unit.RATIO),
                new Figure.Input("before rounding", exactM, Unit.THICKNESS_METER),
                new Figure.Input("milled", millM, Unit.THICKNESS_METER)),
            SOURCE);
    return new Option(millM, effective, thickness, thicknessM - millM);
  }

  /** SNeff of the layers with {@code millM} taken off the first. */
  public static Figure effective(List<Layer> layers, double millM) {
    double sn = 0;
    List<Figure.Input> inputs = new ArrayList<>();
    StringBuilder why = new StringBuilder("sum of a D m, D in inches");
    for (int i = 0; i < layers.size(); i++) {
      Layer layer = layers.get(i);
      double left = layer.thicknessM() - (i == 0 ? millM : 0);
      sn += layer.coefficient() * left / Conversion.M_PER_IN * layer.drainage();
      inputs.add(new Figure.Input(layer.name(), left, Unit.THICKNESS_METER));
      inputs.add(new Figure.Input(layer.name() + " a", layer.coefficient(), Unit.RATIO));
      inputs.add(new Figure.Input(layer.name() + " m", layer.drainage(), Unit.RATIO));
      why.append("; ").append(layer.name()).append(": ").append(layer.reason());
    }
    return new Figure("structural number left", sn, Unit.RATIO, why.toString(), inputs, SOURCE);
  }
}
