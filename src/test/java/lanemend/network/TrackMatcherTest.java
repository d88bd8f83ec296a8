package lanemend.network;

import static lanemend.network.TestRoads.EAST;
import static lanemend.network.TestRoads.NORTH;
import static lanemend.network.TestRoads.assemble;
import static lanemend.network.TestRoads.heading;
import static lanemend.network.TestRoads.line;
import static lanemend.network.TestRoads.oneWay;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** A patrol's track on the roads, on small drawings where the truth is plain. */
class TrackMatcherTest {
  private static final Instant START = Instant.parse("2026-04-30T13:00:00Z");

  /** A patrol at 15 m/s through x, y pairs, a fix every 2 s, each off by a normal error. */
  private static List<TrackFix> drive(double errorM, double... xy) {
    return drive(errorM, 0, 0, START, xy);
  }

  private static List<TrackFix> drive(
      double errorM, double shiftX, double shiftY, Instant from, double... xy) {
    Random random = new Random(7);
    List<TrackFix> fixes = new ArrayList<>();
    double left = 0;
    for (int i = 2; i < xy.length; i += 2) {
      double dx = xy[i] - xy[i - 2];
      double dy = xy[i + 1] - xy[i - 1];
      double length = Math.hypot(dx, dy);
      double at = left;
      for (; at < length; at += 30) {
        fixes.add(
            new TrackFix(
                EAST + xy[i - 2] + dx * at / length + shiftX + errorM * random.nextGaussian(),
                NORTH + xy[i - 1] + dy * at / length + shiftY + errorM * random.nextGaussian(),
                from.plusSeconds(2L * fixes.size())));
      }
      left = at - length;
    }
    return fixes;
  }

  private static TrackMatch match(Assembly roads, List<TrackFix> fixes, TrackSettings settings) {
    return new TrackMatcher(roads.network(), TestRoads.rules(roads, 60)).match(fixes, settings);
  }

  private static TrackMatch match(Assembly roads, List<TrackFix> fixes) {
    return match(roads, fixes, TrackSettings.STANDARD);
  }

  private static List<String> names(TrackMatch match) {
    return match.stretches().stream()
        .map(s -> s.routes().isEmpty() ? "" : s.routes().get(0).routeId())
        .toList();
  }

  @Test
  void aTrackIsAStretchOfEachRoadInTurnWithItsTimes() {
    // Given SR 1 going east and CR 2 north from its middle, at 1,000 m
    Assembly roads =
        assemble(
            line("r:1", "SR 1", 0, 0, 1_000, 0, 2_000, 0),
            line("r:2", "CR 2", 1_000, 0, 1_000, 900));
    // when a patrol drives from 200 m along SR 1 to CR 2 and up it
    TrackMatch match = match(roads, drive(4, 200, 0, 1_000, 0, 1_000, 600));
    // then it is on SR 1 from 200 to 1,000 m, then on CR 2 to 600 m
    assertEquals(List.of("SR 1", "CR 2"), names(match));
    RouteSpan first = match.stretches().get(0).routes().get(0);
    assertEquals(200, first.fromAlongM(), 10);
    assertEquals(1_000, first.toAlongM(), 10);
    assertEquals(600, match.stretches().get(1).routes().get(0).toAlongM(), 25);
    // and turned off after 800 m at 15 m/s
    Instant turned = START.plusSeconds(53);
    assertEquals(
        0, Math.abs(Duration.between(turned, match.stretches().get(0).to()).toSeconds()) / 4);
    assertTrue(match.stretches().stream().allMatch(DrivenStretch::clear));
    assertEquals(0, match.breaks().size());
  }

  @Test
  void roadwaysOfADividedRoadAreToldApartByTheWayDriven() {
    // Given roadways 14 m apart, and fixes that lie 9 m towards the wrong one
    Assembly roads =
        assemble(
            heading("NB", oneWay(line("r:1", "US 9", 14, 0, 14, 3_000))),
            heading("SB", oneWay(line("r:2", "US 9", 0, 3_000, 0, 0))));
    TrackMatch match = match(roads, drive(3, 9, 0, START, 0, 2_800, 0, 200));
    assertEquals(List.of("US 9 SB"), names(match));
    assertTrue(match.stretches().get(0).clear());
  }

  @Test
  void roadsSideBySideThatTheTrackDoesNotTellApartAreSaidAndBothNamed() {
    // Given a road and another 12 m beside it, joined at both ends
    Assembly roads =
        assemble(
            line("r:1", "SR 1", 0, 0, 3_000, 0),
            line("r:2", "CR 2", 0, 0, 20, 12, 2_980, 12, 3_000, 0));
    // when the track lies halfway between them
    TrackMatch between = match(roads, drive(4, 0, 6, START, 100, 0, 2_900, 0));
    // then what is not told is said, with the other road
    DrivenStretch longest =
        between.stretches().stream()
            .max((a, b) -> Double.compare(a.lengthM(), b.lengthM()))
            .orElseThrow();
    assertFalse(longest.clear());
    assertEquals(1, longest.others().size());
    // and a track that lies on SR 1 is told
    TrackMatch on = match(roads, drive(3, 0, -2, START, 100, 0, 2_900, 0));
    assertEquals(List.of("SR 1"), names(on));
    assertTrue(on.stretches().get(0).clear());
  }

  /** SR 1 and SR 2 run together from 1,000 to 2,000 m east; SR 2 comes and goes from the north. */
  private static Assembly together() {
    return assemble(
        line("r:1", "SR 1", 0, 0, 1_000, 0),
        line("r:2", "SR 1;SR 2", 1_000, 0, 2_000, 0),
        line("r:3", "SR 1", 2_000, 0, 3_000, 0),
        line("r:4", "SR 2", 1_000, 800, 1_000, 0),
        line("r:5", "SR 2", 2_000, 0, 2_000, 800));
  }

  @Test
  void whereRoutesRunTogetherTheOneComeAndGoneByIsThePatrols() {
    TrackMatch match = match(together(), drive(4, 200, 0, 2_800, 0));
    assertEquals(List.of("SR 1", "SR 1", "SR 1"), names(match));
    DrivenStretch shared = match.stretches().get(1);
    assertEquals(
        List.of("SR 1", "SR 2"), shared.routes().stream().map(RouteSpan::routeId).toList());
    assertTrue(shared.told());
    // A defect seen there at 1,500 m is on SR 1, 20 to 1
    assertTrue(match.belief("SR 1", 1_500, null) > 0.9);
    double onSecond = shared.routes().get(1).fromAlongM() + 500;
    assertTrue(match.belief("SR 2", onSecond, null) < 0.1);
  }

  @Test
  void comingByOneRouteAndLeavingByTheOtherIsAskedAbout() {
    List<TrackFix> fixes = drive(4, 200, 0, 2_000, 0, 2_000, 600);
    DrivenStretch shared = match(together(), fixes).stretches().get(1);
    assertEquals(2, shared.routes().size());
    assertFalse(shared.told());
    // unless the patrol says which one it was sent along
    DrivenStretch said =
        match(together(), fixes, TrackSettings.STANDARD.along("sr 2")).stretches().get(1);
    assertTrue(said.told());
    assertEquals("SR 2", said.routes().get(0).routeId());
  }

  @Test
  void turningRoundIsTwoStretchesAndAJitterIsNone() {
    Assembly roads = assemble(line("r:1", "SR 1", 0, 0, 3_000, 0));
    TrackMatch match = match(roads, drive(5, 200, 0, 2_000, 0, 600, 0));
    assertEquals(2, match.stretches().size());
    assertTrue(match.stretches().get(0).routes().get(0).rising());
    assertFalse(match.stretches().get(1).routes().get(0).rising());
    assertEquals(Optional.of(true), match.rising("SR 1", 300, START.plusSeconds(6)));
    // Driven both ways, the direction at a place is told by the time only
    assertEquals(Optional.empty(), match.rising("SR 1", 1_200, null));
  }

  @Test
  void sideRoadsPassedAreNotEntered() {
    List<SourceLine> lines = new ArrayList<>(List.of(line("r:0", "SR 1", 0, 0, 3_000, 0)));
    for (int i = 1; i < 10; i++) {
      lines.add(line("r:" + i, "CR " + i, 300 * i, -200, 300 * i, 200));
    }
    TrackMatch match = match(assemble(lines.toArray(SourceLine[]::new)), drive(8, 50, 0, 2_950, 0));
    assertEquals(List.of("SR 1"), names(match));
  }

  @Test
  void aRouteThatCrossesItselfIsFollowedThroughItsCrossing() {
    // Given a road that loops over itself at (1,000, 0); it is numbered from its south end, so
    // the patrol that comes from the west drives it from its far end
    Assembly roads =
        assemble(
            line(
                "r:1", "SR 1", 0, 0, 1_000, 0, 1_900, 0, 1_900, 900, 1_000, 900, 1_000, 0, 1_000,
                -1_000));
    double length = roads.network().routes().get("SR 1").lengthM();
    TrackMatch match =
        match(roads, drive(5, 100, 0, 1_900, 0, 1_900, 900, 1_000, 900, 1_000, -800));
    // then it is one stretch through the whole loop: along does not jump at the crossing
    assertEquals(List.of("SR 1"), names(match));
    RouteSpan span = match.stretches().get(0).routes().get(0);
    assertEquals(length - 100, span.fromAlongM(), 15);
    assertEquals(200, span.toAlongM(), 35);
  }

  @Test
  void straysFixesOffTheRoadAndSilencesAreSaid() {
    Assembly roads =
        assemble(line("r:1", "SR 1", 0, 0, 9_000, 0), line("r:2", "CR 2", 0, 500, 9_000, 500));
    List<TrackFix> fixes = new ArrayList<>(drive(3, 100, 0, 1_000, 0));
    // One fix thrown 500 m aside onto another road, and one thrown onto none
    TrackFix f = fixes.get(10);
    fixes.set(10, new TrackFix(f.x(), NORTH + 500, f.at()));
    TrackFix g = fixes.get(20);
    fixes.set(20, new TrackFix(g.x(), NORTH + 250, g.at()));
    // Then ten minutes and 4 km without a fix
    fixes.addAll(drive(3, 0, 0, START.plusSeconds(700), 5_000, 0, 6_000, 0));
    TrackMatch match = match(roads, fixes);
    assertEquals(List.of("SR 1", "SR 1"), names(match));
    assertEquals(1, match.stray());
    assertEquals(1, match.offRoad());
    assertEquals(1, match.breaks().size());
    assertEquals(30, match.breaks().get(0).afterFix(), 1);
  }

  @Test
  void aTrackWithoutTimesIsMatchedToo() {
    Assembly roads = assemble(line("r:1", "SR 1", 0, 0, 3_000, 0));
    List<TrackFix> fixes =
        drive(4, 100, 0, 2_000, 0).stream().map(f -> new TrackFix(f.x(), f.y(), null)).toList();
    TrackMatch match = match(roads, fixes);
    assertEquals(List.of("SR 1"), names(match));
    assertTrue(match.belief("SR 1", 1_000, null) > 0.9);
    assertEquals(0, match.belief("SR 1", 1_000, START));
  }

  @Test
  void aTrackNowhereNearARoadGivesNothing() {
    Assembly roads = assemble(line("r:1", "SR 1", 0, 0, 3_000, 0));
    TrackMatch match = match(roads, drive(4, 0, 900, START, 100, 0, 2_000, 0));
    assertEquals(List.of(), match.stretches());
    assertEquals(64, match.offRoad());
    assertEquals(List.of(), match(roads, List.of()).stretches());
  }

  @Test
  void aParkedPatrolIsOnePlace() {
    Assembly roads = assemble(line("r:1", "SR 1", 0, 0, 3_000, 0));
    List<TrackFix> fixes = new ArrayList<>();
    Random random = new Random(1);
    for (int i = 0; i < 600; i++) {
      fixes.add(
          new TrackFix(
              EAST + 500 + 2 * random.nextGaussian(),
              NORTH + 2 * random.nextGaussian(),
              START.plusSeconds(i)));
    }
    TrackMatch match = match(roads, fixes);
    assertEquals(1, match.stretches().size());
    assertTrue(match.stretches().get(0).lengthM() < 20);
  }
}
