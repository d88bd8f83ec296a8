package lanemend.crewdays;

/** A plan has more work zones than one table of drives can hold. */
public final class TooManyZonesException extends RuntimeException {
  private static final long serialVersionUID = 1;

  TooManyZonesException(int zones, int most) {
    super(
        String.format(
            java.util.Locale.ROOT,
            "%,d work zones are more than one plan can hold (%,d): plan fewer defects at a time, for"
                + " instance one part of the county after another",
            zones,
            most));
  }
}
