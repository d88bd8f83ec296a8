package lanemend.patching.traffic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Work-zone distances against the printed tables. */
class MutcdTest {
  private static final double FT = Conversion.M_PER_FT;
  private static final double MPH = Conversion.KMH_PER_MPH;

  /**
   * MUTCD 11th edition table 6B-4, p. 775 (transcribed in a public index): L = W S^2 / 60 to 40
   * mph, L = W S from 45 mph; by number the California MUTCD 2012 table 6H-4(CA), p. 1136, 12-ft
   * offset (read; the 75-mph row in a later printing): merging L, shifting L/2, shoulder L/3 to the
   * nearest foot, half up.
   */
  @ParameterizedTest
  @CsvSource({
    "20, 80, 40, 27",
    "25, 125, 63, 42",
    "30, 180, 90, 60",
    "35, 245, 123, 82",
    "40, 320, 160, 107",
    "45, 540, 270, 180",
    "50, 600, 300, 200",
    "55, 660, 330, 220",
    "60, 720, 360, 240",
    "65, 780, 390, 260",
    "70, 840, 420, 280",
    "75, 900, 450, 300"
  })
  void tapersOfATwelveFootLane(double mph, long merging, long shifting, long shoulder) {
    double feet = Mutcd.mergingTaperM(12 * FT, mph * MPH) / FT;

    assertEquals(merging, Math.round(feet));
    assertEquals(shifting, Math.round(Math.round(feet * 1e6) / 2e6));
    assertEquals(shoulder, Math.round(Math.round(feet * 1e6) / 3e6));
  }

  /** A published index of tapers at other offsets, its table 4 (read from a scan). */
  @ParameterizedTest
  @CsvSource({
    "30, 5, 75", "30, 8, 120", "30, 10, 150", "35, 5, 102", "35, 8, 163", "35, 10, 204",
    "40, 5, 133", "40, 8, 213", "40, 10, 267", "45, 5, 225", "45, 8, 360", "45, 10, 450",
    "55, 5, 275", "55, 8, 440", "55, 10, 550", "65, 5, 325", "65, 8, 520", "65, 10, 650"
  })
  void tapersAtOtherOffsets(double mph, double offsetFt, long feet) {
    assertEquals(feet, Math.round(Mutcd.mergingTaperM(offsetFt * FT, mph * MPH) / FT));
  }

  /**
   * MUTCD 2003 table 6H-4 in metric (read, blurred): W S^2 / 155 to 60 km/h and W S / 1.6 from 70.
   * Rounded constants, so it agrees within 1 %.
   */
  @ParameterizedTest
  @CsvSource({"50, 58.06", "60, 83.61", "70, 157.5", "80, 180", "100, 225"})
  void agreesWithTheMetricRule(double kmh, double meters) {
    assertEquals(meters, Mutcd.mergingTaperM(3.6, kmh), meters * 0.01);
  }

  /** The same index (read): taper / spacing + 1 devices; 45 mph and up give W + 1. */
  @ParameterizedTest
  @CsvSource({
    "55, 5, 6",
    "55, 10, 11",
    "45, 12, 13",
    "65, 12, 13",
    "60, 18, 19",
    "30, 12, 7",
    "35, 12, 8"
  })
  void countsDevicesInATaper(double mph, double offsetFt, int devices) {
    double taper = Mutcd.mergingTaperM(offsetFt * FT, mph * MPH);

    assertEquals(devices, Mutcd.devices(taper, Mutcd.taperSpacingM(mph * MPH)));
  }

  /**
   * MUTCD 11th edition table 6B-2, p. 775 (transcribed in a public index), the same as 2009 table
   * 6C-2 (as quoted by two other works): all twelve rows.
   */
  @ParameterizedTest
  @CsvSource({
    "20, 115", "25, 155", "30, 200", "35, 250", "40, 305", "45, 360", "50, 425", "55, 495",
    "60, 570", "65, 645", "70, 730", "75, 820"
  })
  void buffersAreTheTablesStoppingDistances(double mph, double feet) {
    assertEquals(feet, Mutcd.bufferM(mph * MPH) / FT, 1e-6);
  }

  /** Highway Engineering Handbook table 2.2, p. 79 (read): speeds between the MUTCD's rows. */
  @Test
  void buffersBetweenTheRows() {
    int[] from21 = {120, 130, 140, 145, 155, 165, 170, 180, 190, 200, 210, 220, 230, 240, 250, 260};
    for (int i = 0; i < from21.length; i++) {
      assertEquals(from21[i], Mutcd.bufferM((21 + i) * MPH) / FT, 1e-6, (21 + i) + " mph");
    }
    int[] from46 = {375, 385, 400, 415, 425, 440, 455, 465, 480, 495, 510, 525, 540, 555, 570, 585};
    for (int i = 0; i < from46.length; i++) {
      assertEquals(from46[i], Mutcd.bufferM((46 + i) * MPH) / FT, 1e-6, (46 + i) + " mph");
    }
  }

  /**
   * MUTCD 11th edition table 6B-1, p. 773 (transcribed in a public index): urban low speed 100,
   * urban high speed 350, rural 500, expressway or freeway 1,000, 1,500, 2,640 ft. Which urban
   * speeds are low is the agency's to say: here those to 25 mph.
   */
  @ParameterizedTest
  @CsvSource({
    "LOCAL, true, 20, 100, 100, 100",
    "COLLECTOR, true, 25, 100, 100, 100",
    "COLLECTOR, true, 30, 350, 350, 350",
    "ARTERIAL, true, 45, 350, 350, 350",
    "COLLECTOR, false, 25, 500, 500, 500",
    "COLLECTOR, false, 55, 500, 500, 500",
    "FREEWAY, false, 70, 1000, 1500, 2640",
    "FREEWAY, true, 55, 1000, 1500, 2640"
  })
  void spacesAdvanceSigns(
      RoadClass roadClass, boolean urban, double mph, double a, double b, double c) {
    double[] spacing =
        Mutcd.signSpacingM(road(roadClass, urban, mph), TrafficSettings.SignSpacing.standard());

    assertArrayEquals(new double[] {a * FT, b * FT, c * FT}, spacing, 1e-9);
  }

  /** California MUTCD 2014 table 6H-3, p. 1136 (read), given as an agency's own bands. */
  @ParameterizedTest
  @CsvSource({"25, 100", "30, 250", "40, 250", "45, 350"})
  void spacesAdvanceSignsByAnAgencysBands(double mph, double feet) {
    TrafficSettings.SignSpacing federal = TrafficSettings.SignSpacing.standard();
    TrafficSettings.SignSpacing california =
        new TrafficSettings.SignSpacing(
            federal.slowUpToKmh(),
            federal.middleUpToKmh(),
            federal.urbanSlowM(),
            250 * FT,
            federal.urbanFastM(),
            federal.ruralM(),
            federal.freewayAM(),
            federal.freewayBM(),
            federal.freewayCM());

    double[] spacing = Mutcd.signSpacingM(road(RoadClass.ARTERIAL, true, mph), california);

    assertEquals(feet, spacing[0] / FT, 1e-9);
  }

  private static RoadSetting road(RoadClass roadClass, boolean urban, double mph) {
    return new RoadSetting(roadClass, mph * MPH, 2, 12 * FT, 4 * FT, false, urban, 1000, 0.05);
  }

  /**
   * MUTCD 11th edition table 6B-3, p. 775 (transcribed in a public index): merging at least L,
   * shifting at least 0.5 L, shoulder at least 0.33 L, one-lane two-way and downstream 50 to 100
   * ft. Shown by the plans of the situations that have each.
   */
  @ParameterizedTest
  @CsvSource({"30", "40", "45", "55", "65"})
  void tapersByTheirCriteria(double mph) {
    TrafficPlanner planner = new TrafficPlanner(PatchSettings.standard());
    double length = Mutcd.mergingTaperM(12 * FT, mph * MPH);
    RoadSetting divided =
        new RoadSetting(RoadClass.ARTERIAL, mph * MPH, 2, 12 * FT, 10 * FT, true, false, 4000, 0);
    RoadSetting single =
        new RoadSetting(RoadClass.ARTERIAL, mph * MPH, 1, 12 * FT, 10 * FT, true, false, 900, 0);
    RoadSetting twoWay =
        new RoadSetting(RoadClass.COLLECTOR, mph * MPH, 2, 12 * FT, 4 * FT, false, false, 900, 0);
    TrafficPlan merge = planner.plan(ZoneWork.inLane(divided, 50, 120));
    TrafficPlan shift = planner.plan(ZoneWork.inLane(single, 50, 120));
    TrafficPlan turns = planner.plan(ZoneWork.inLane(twoWay, 50, 120));

    assertTrue(taper(merge, "merging taper") >= length - 1e-9);
    assertTrue(taper(shift, "shifting taper") >= 0.5 * length - 1e-9);
    assertTrue(taper(merge, "shoulder taper") >= 0.33 * length * 10 / 12);
    for (String name : new String[] {"one-lane two-way taper", "downstream taper"}) {
      double feet = taper(turns, name) / FT;
      assertTrue(feet >= 50 - 1e-9 && feet <= 100 + 1e-9, name + " " + feet);
    }
  }

  private static double taper(TrafficPlan plan, String name) {
    return plan.figure(name).orElseThrow().value();
  }

  /** MUTCD 11th edition section 6K.01 (as quoted): 55 mph, 55 ft in tapers, 110 ft along. */
  @Test
  void spacesDevicesBySpeed() {
    assertEquals(55, Mutcd.taperSpacingM(55 * MPH) / FT, 1e-9);
    assertEquals(110, Mutcd.tangentSpacingM(55 * MPH) / FT, 1e-9);
  }
}
