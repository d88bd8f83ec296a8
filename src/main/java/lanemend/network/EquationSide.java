package lanemend.network;

/**
 * Which side of a milepost equation a milepost belongs to, where the same number occurs twice:
 * {@code BACK} before the equation, {@code AHEAD} after it, {@code ONLY} where it occurs once.
 */
public enum EquationSide {
  ONLY,
  BACK,
  AHEAD
}
