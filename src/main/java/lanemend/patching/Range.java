package lanemend.patching;

/**
 * Limits on one measure of a defect; null leaves that side open, so that the table can be written
 * as JSON.
 *
 * @param atLeast smallest value that fits, itself included
 * @param below smallest value that no longer fits
 */
public record Range(Double atLeast, Double below) {
  /** No limit on either side. */
  public static final Range ANY = new Range(null, null);

  /** {@code value} or more. */
  public static Range from(double value) {
    return new Range(value, null);
  }

  /** Less than {@code value}. */
  public static Range under(double value) {
    return new Range(null, value);
  }

  boolean holds(double value) {
    return (atLeast == null || value >= atLeast) && (below == null || value < below);
  }

  boolean isOpen() {
    return (atLeast == null || atLeast <= 0) && below == null;
  }

  boolean isEmpty() {
    return atLeast != null && below != null && atLeast >= below;
  }
}
