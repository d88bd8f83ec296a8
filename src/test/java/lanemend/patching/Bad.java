package lanemend.patching;

import java.time.LocalDate;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.network.Lane;
import lanemend.network.RoadClass;
import lanemend.network.Side;

/** Invented defects and roads for the tests, in US units as a patrol writes them. */
public final class Bad {
  private Bad() {}

  public static Defect spot(
      DefectKind kind, Severity severity, double lengthFt, double widthFt, double depthIn) {
    return spotM(
        kind,
        severity,
        lengthFt * Conversion.M_PER_FT,
        widthFt * Conversion.M_PER_FT,
        depthIn * Conversion.M_PER_IN);
  }

  public static Defect spotM(
      DefectKind kind, Severity severity, double lengthM, double widthM, double depthM) {
    return new Defect(
        "T1",
        kind,
        severity,
        new Place("Alder Road", 0, 10, 0, 0, Entered.byMilepost("Alder Road", "0.1", null)),
        new Lane(Side.RIGHT, 1),
        lengthM,
        widthM,
        depthM,
        LocalDate.of(2026, 4, 1),
        "patrol",
        "",
        DefectStatus.OPEN,
        "");
  }

  /** A rural two-lane collector with 12-ft lanes and 4-ft shoulders. */
  public static RoadSetting twoLane(double mph, double aadt) {
    return new RoadSetting(
        RoadClass.COLLECTOR,
        mph * Conversion.KMH_PER_MPH,
        2,
        12 * Conversion.M_PER_FT,
        4 * Conversion.M_PER_FT,
        false,
        false,
        aadt,
        0.08);
  }

  /** A divided rural freeway's roadway of two 12-ft lanes with 10-ft shoulders. */
  public static RoadSetting freeway(double mph, double aadt) {
    return new RoadSetting(
        RoadClass.FREEWAY,
        mph * Conversion.KMH_PER_MPH,
        2,
        12 * Conversion.M_PER_FT,
        10 * Conversion.M_PER_FT,
        true,
        false,
        aadt,
        0.15);
  }
}
