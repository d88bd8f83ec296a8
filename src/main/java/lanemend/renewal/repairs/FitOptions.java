package lanemend.renewal.repairs;

import java.util.OptionalDouble;

/**
 * What is fitted.
 *
 * @param fixedShape the power of age held at this value (1 is a rate that does not change with
 *     age), or empty to fit it
 * @param frailty whether cells of a family may differ
 */
public record FitOptions(OptionalDouble fixedShape, boolean frailty) {
  /** Shape and frailty fitted: what forecasts use. */
  public static final FitOptions FULL = new FitOptions(OptionalDouble.empty(), true);

  /** One power law for all cells alike. */
  public static final FitOptions WITHOUT_FRAILTY = new FitOptions(OptionalDouble.empty(), false);
}
