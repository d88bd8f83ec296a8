package lanemend.patching.traffic;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;

import lanemend.network.RoadClass;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficSettings;

/**
 * Distances of the MUTCD's temporary traffic control part. Its rules are in feet and miles an hour;
 * here metres and km/h go in and out. For a first plan only: the manual in force decides.
 */
public final class Mutcd {
  static final String TAPER_SOURCE =
      "MUTCD 11th edition table 6B-4, p. 775 (as transcribed in a public index); 2009 table 6H-4"
          + " (read)";
  static final String CRITERIA_SOURCE =
      "MUTCD 11th edition table 6B-3, p. 775 (as transcribed in a public index)";
  static final String BUFFER_SOURCE =
      "MUTCD 11th edition table 6B-2, p. 775, and 2009 table 6C-2 (as transcribed in a public"
          + " index), by the formula of the TxDOT Roadway Design Manual 4.11.1 (read)";
  static final String SIGN_SOURCE =
      "MUTCD 11th edition table 6B-1, p. 773 (as transcribed in a public index): which urban speeds"
          + " are low is left to the agency";
  static final String DEVICE_SOURCE =
      "MUTCD 11th edition section 6K.01: S ft in tapers, 2 S ft along, S in mph (as quoted)";

  private static final double REACTION_SECONDS = 2.5;
  private static final double BRAKING_FT_PER_S2 = 11.2;

  private Mutcd() {}

  /**
   * Merging taper: W S^2 / 60 to 40 mph, W S from 45 mph up. Speeds between, such as 70 km/h, take
   * the longer rule, as the manual's metric table did.
   *
   * @param offsetM width W taken from the traffic
   */
  public static double mergingTaperM(double offsetM, double kmh) {
    double mph = mph(kmh);
    double offsetFt = offsetM / M_PER_FT;
    return (mph <= 40 ? offsetFt * mph * mph / 60 : offsetFt * mph) * M_PER_FT;
  }

  /** Stopping sight distance, 1.47 V t + 1.075 V^2 / a in ft, rounded up to 5 ft. */
  public static double bufferM(double kmh) {
    double mph = mph(kmh);
    double feet = 1.47 * mph * REACTION_SECONDS + 1.075 * mph * mph / BRAKING_FT_PER_S2;
    return Math.ceil(feet / 5 - 1e-9) * 5 * M_PER_FT;
  }

  /** Devices in a taper at most this far apart: as many feet as the speed in mph. */
  public static double taperSpacingM(double kmh) {
    return mph(kmh) * M_PER_FT;
  }

  /** Devices along the work at most this far apart: twice as many feet as the speed in mph. */
  public static double tangentSpacingM(double kmh) {
    return 2 * taperSpacingM(kmh);
  }

  /** Devices over {@code lengthM} at most {@code spacingM} apart, one at each end. */
  public static int devices(double lengthM, double spacingM) {
    return (int) Math.ceil(lengthM / spacingM - 1e-9) + 1;
  }

  /** Distances A, B and C between advance signs, A nearest the work. */
  public static double[] signSpacingM(RoadSetting setting, TrafficSettings.SignSpacing table) {
    if (setting.roadClass() == RoadClass.FREEWAY) {
      return new double[] {table.freewayAM(), table.freewayBM(), table.freewayCM()};
    }
    double each = table.ruralM();
    if (setting.urban()) {
      double kmh = setting.postedKmh() - 1e-6;
      each =
          kmh <= table.slowUpToKmh()
              ? table.urbanSlowM()
              : kmh <= table.middleUpToKmh() ? table.urbanMiddleM() : table.urbanFastM();
    }
    return new double[] {each, each, each};
  }

  /** Speed in mph, free of the last digits a trip through km/h leaves. */
  static double mph(double kmh) {
    return Math.rint(kmh / KMH_PER_MPH * 1e6) / 1e6;
  }
}
