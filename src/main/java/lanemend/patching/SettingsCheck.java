package lanemend.patching;

import java.lang.reflect.RecordComponent;
import java.util.Set;

/**
 * Checks the numbers of settings that an agency wrote: an unnoticed 0 for a speed would turn into
 * endless minutes far from where it was written. Walks the records' components so that no constant
 * can be forgotten and each is named as it is written.
 */
final class SettingsCheck {
  /** Constants that may be 0: the working adds or multiplies by them only. */
  private static final Set<String> MAY_BE_ZERO =
      Set.of(
          "bladeMarginM",
          "handMarginM",
          "digOutMarginM",
          "edgeMarginM",
          "marginM",
          "overlapM",
          "carryAngleDegrees",
          "featherM",
          "slowTaperPerThickness",
          "fastTaperPerThickness",
          "fastKmh",
          "dumpOverrunM",
          "turnOutM",
          "turnMinutes",
          "backUpToM",
          "reversalMinutes",
          "mixWaste",
          "waste",
          "rutFillShare",
          "holeFillShare",
          "sagFillShare",
          "emulsionExpansionPerCelsius",
          "sprayCelsius",
          "handMinutesPerM2",
          "tackSpotMinutes",
          "breakMinutes",
          "cleanUpMinutes",
          "sawMinutesPerM",
          "clearMinutesPerM2",
          "tackMinutes",
          "sprayedUpToM2",
          "backingM",
          "backMinutesPerM",
          "reservoirWidthM",
          "reservoirDepthM",
          "bandWidthM",
          "bandThicknessM",
          "routeMinutesPerM",
          "sealMinutesPerM",
          "coolMinutes",
          "cureMinutes",
          "spotAndDumpMinutes",
          "machine",
          "hand",
          "waiting",
          "shoulderClosedFromM",
          "pilotCarFromM",
          "lowVolumeAadt",
          "lowSpeedKmh",
          "encroachUpToKmh",
          "mobileUpToMinutes",
          "shadowVehicles",
          "yieldUpToAadt",
          "signalsFromMinutes",
          "pilotTurnSeconds",
          "slowUpToKmh",
          "thinC",
          "secondC",
          "thirdC",
          "fourthC",
          "thickestC",
          "tackC",
          "sealC",
          "crackC",
          "middleUpToKmh",
          "speedDropKmh",
          "startLostSeconds",
          "greenSecondsPerM",
          "briefingMinutes",
          "minutesPerSign",
          "minutesPerDevice",
          "arrowBoardMinutes",
          "takeDownShare",
          "turnOverMinutes");

  /** Constants that are a part of a whole. */
  private static final Set<String> AT_MOST_ONE =
      Set.of(
          "efficiency",
          "emulsionResidue",
          "emulsionShare",
          "shareBeforeFinish",
          "rutFillShare",
          "holeFillShare",
          "sagFillShare",
          "hourShare",
          "peakHourFactor");

  private SettingsCheck() {}

  static void numbers(String path, Object value) {
    if (value == null) {
      throw new IllegalArgumentException("patch setting " + path + " is missing");
    }
    if (value instanceof Record) {
      for (RecordComponent component : value.getClass().getRecordComponents()) {
        numbers(path + "." + component.getName(), read(component, value));
      }
    } else if (value instanceof Number number) {
      number(path, number.doubleValue());
    }
  }

  private static void number(String path, double value) {
    String name = path.substring(path.lastIndexOf('.') + 1);
    boolean zero = MAY_BE_ZERO.contains(name);
    boolean part = AT_MOST_ONE.contains(name);
    boolean good = zero ? value >= 0 : value > 0;
    if (!good || Double.isInfinite(value) || (part && value > 1)) {
      throw new IllegalArgumentException(
          "patch setting "
              + path
              + " is "
              + value
              + "; "
              + (zero ? "0 or more" : "more than 0")
              + (part ? " and at most 1" : "")
              + " is expected");
    }
  }

  private static Object read(RecordComponent component, Object record) {
    try {
      return component.getAccessor().invoke(record);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("cannot read " + component, e);
    }
  }
}
