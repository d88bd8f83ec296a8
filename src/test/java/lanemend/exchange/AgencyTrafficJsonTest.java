package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.patching.AgencyTraffic;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficSettings;
import lanemend.patching.traffic.Situation;
import lanemend.patching.traffic.TrafficApproach;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.patching.traffic.WorkPosition;
import lanemend.patching.traffic.ZoneWork;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** An agency's own rules of traffic control in its file, as all its constants. */
class AgencyTrafficJsonTest {
  private static final RoadSetting TWO_LANES =
      new RoadSetting(
          RoadClass.COLLECTOR,
          55 * Conversion.KMH_PER_MPH,
          2,
          12 * Conversion.M_PER_FT,
          1,
          false,
          false,
          6_000,
          0.08);

  private static final String OWN =
      """
      {"patching": {"traffic": {
        "edition": "mutcd_2009",
        "choice": {"signals_from_minutes": 100, "attenuator": "always"},
        "agency": {
          "situations": {
            "flaggers": {"signs": [
                 {"code": "W20-1", "legend": "ROAD WORK AHEAD"},
                 {"code": "W20-7", "legend": "flagger symbol"}],
               "note": "Tell dispatch before you flag."},
            "signals": {"used": false}},
          "hour_shares": [0, 0, 0, 0, 0, 0.05, 0.1, 0.15, 0.05, 0.05, 0.05, 0.05, 0.05, 0.05,
                          0.05, 0.1, 0.15, 0.05, 0.05, 0, 0, 0, 0, 0]}}}}
      """;

  private static PatchSettings read(String json) {
    return PatchOverrides.parse("agency.json", json, PatchSettings.standard());
  }

  @Test
  void anAgencyMayKeepTheSidesOfARoadApart() {
    ZoneWork work =
        new ZoneWork(
            TWO_LANES, 30, 120, WorkPosition.OUTER_LANE, false, 60, true, Double.NaN, true);
    assertTrue(new TrafficPlanner(PatchSettings.standard()).plan(work).turnsOver());
    PatchSettings apart =
        read("{\"patching\": {\"traffic\": {\"choice\": {\"both_sides\": false}}}}");
    assertFalse(new TrafficPlanner(apart).plan(work).turnsOver());
    // nor where its own signs differ by direction: they would have to be moved too
    assertFalse(new TrafficPlanner(read(OWN)).plan(work).turnsOver());
    PatchSettings slower =
        read("{\"patching\": {\"traffic\": {\"effort\": {\"turn_over_minutes\": 7}}}}");
    assertEquals(
        new TrafficPlanner(PatchSettings.standard()).plan(work).turnOverMinutes() + 2,
        new TrafficPlanner(slower).plan(work).turnOverMinutes(),
        1e-9);
  }

  /**
   * Given an agency that has no use for signals and signs of its own, then flaggers stand with
   * those signs, and the hours its counts say one lane cannot carry are named.
   */
  @Test
  void anAgencyHasItsOwnForms() {
    TrafficPlan plan = new TrafficPlanner(read(OWN)).plan(ZoneWork.inLane(TWO_LANES, 30, 120));

    assertEquals(Situation.FLAGGERS, plan.choice().situation());
    assertTrue(
        plan.choice().reason().contains("not TA-12, which the agency does not use"),
        plan.choice().reason());
    assertTrue(plan.choice().source().contains("MUTCD 2009 edition figure 6H-10"));
    assertEquals(
        "[ROAD WORK AHEAD (W20-1), flagger symbol (W20-7), END ROAD WORK (G20-2)]",
        plan.signs().stream()
            .filter(s -> s.approach() == TrafficApproach.TOWARDS_WORK)
            .map(s -> s.sign().text())
            .toList()
            .toString());
    assertTrue(plan.cautions().contains("Agency: Tell dispatch before you flag."));
    // 6,000 a day: 900 in the hours of 15 %, 600 in those of 10 %, which is not above 600.
    assertTrue(
        plan.cautions().stream().anyMatch(c -> c.contains("in the hours from 7:00, 16:00")),
        plan.cautions().toString());
    assertTrue(plan.devices().toString().contains("truck-mounted attenuator"));
  }

  @Test
  void whatIsWrittenReadsBackTheSame() throws IOException {
    PatchSettings own = read(OWN);
    StringWriter text = new StringWriter();
    try (JsonGenerator out = new JsonFactory().createGenerator(text)) {
      out.writeStartObject();
      PatchOverrides.write(out, own, PatchSettings.standard());
      out.writeEndObject();
    }

    assertEquals(own, read(text.toString()));
    assertFalse(own.equals(PatchSettings.standard()));
    assertEquals(TrafficSettings.Edition.MUTCD_2009, own.traffic().edition());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"situations\": {\"flagers\": {}}} | flagers",
        "{\"situations\": {\"flaggers\": {\"used\": \"no\"}}} | true or false",
        "{\"situations\": {\"flaggers\": {\"signs\": []}}} | one sign or more",
        "{\"situations\": {\"flaggers\": {\"signs\": [{\"code\": \"20\", \"legend\": \"X\"}]}}}"
            + " | a sign designation such as W20-1",
        "{\"situations\": {\"flaggers\": {\"signs\": [{\"code\": \"W20-1\"}]}}} | a text",
        "{\"hour_shares\": [1, 2]} | a share from 0 to 1",
        "{\"hour_shares\": [0.5, 0.5]} | 24 numbers from midnight on that add up to 1",
        "{\"hours\": []} | hours"
      })
  void faultsAreNamedByField(String agency, String said) {
    ExchangeException refused =
        assertThrows(
            ExchangeException.class,
            () -> read("{\"patching\": {\"traffic\": {\"agency\": " + agency + "}}}"));

    String problems = refused.problems().toString();
    assertTrue(problems.contains("traffic.agency") && problems.contains(said), problems);
  }

  @Test
  void hoursThatDoNotFitAreRefusedInTheCoreToo() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new AgencyTraffic(java.util.Map.of(), java.util.List.of(0.5)));
  }
}
