package lanemend.network.edit;

/**
 * A stretch of a route before an edit, and where it is to be found afterwards. Between its ends
 * along runs straight.
 *
 * @param fromM along at its start before; {@code fromM <= toM}
 * @param startM along at that place afterwards
 * @param endM along at its other end afterwards; less than {@code startM} where the edit turns the
 *     road round
 */
public record Carry(
    String routeBefore,
    double fromM,
    double toM,
    String routeAfter,
    double startM,
    double endM,
    Ground ground) {

  public Carry {
    if (!(fromM <= toM)) {
      throw new IllegalArgumentException("a carried stretch runs from " + fromM + " to " + toM);
    }
  }

  /** A stretch moved along by a shift, on the same ground. */
  static Carry shifted(String before, double fromM, double toM, String after, double shiftM) {
    return new Carry(before, fromM, toM, after, fromM + shiftM, toM + shiftM, Ground.SAME);
  }

  /** True where along grows the other way afterwards, so that left and right change places. */
  public boolean turned() {
    return endM < startM;
  }

  /** Along afterwards of a place of this stretch. */
  public double along(double beforeM) {
    if (endM - startM == toM - fromM) {
      // Kept free of rounding, so that a road that is only shifted keeps its events to the bit.
      return beforeM + (startM - fromM);
    }
    double share = toM == fromM ? 0 : (beforeM - fromM) / (toM - fromM);
    double along = startM + share * (endM - startM);
    return Math.max(Math.min(startM, endM), Math.min(Math.max(startM, endM), along));
  }
}
