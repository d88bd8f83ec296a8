package lanemend.measure;

/**
 * Exact conversion factors between US customary units and SI. The international foot, pound and US
 * gallon are exact by definition (NIST Special Publication 811, appendix B; values from memory).
 */
public final class Conversion {
  public static final double M_PER_FT = 0.3048;
  public static final double M_PER_IN = 0.0254;
  public static final double M_PER_YD = 0.9144;
  public static final double M_PER_MILE = 1609.344;
  public static final double M2_PER_YD2 = M_PER_YD * M_PER_YD;
  public static final double M3_PER_YD3 = M_PER_YD * M_PER_YD * M_PER_YD;
  public static final double M3_PER_FT3 = M_PER_FT * M_PER_FT * M_PER_FT;
  public static final double KG_PER_LB = 0.45359237;

  /** Tonnes in one US short ton of 2,000 lb. */
  public static final double T_PER_SHORT_TON = 0.90718474;

  public static final double L_PER_US_GAL = 3.785411784;
  public static final double KMH_PER_MPH = 1.609344;

  /** From the pound, standard gravity 9.80665 m/s2 and the square inch. */
  public static final double KPA_PER_PSI = KG_PER_LB * 9.80665 / (M_PER_IN * M_PER_IN) / 1000;

  private Conversion() {}
}
