package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import lanemend.crewdays.ZoneSide;
import lanemend.inventory.Severity;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.web.page.LabelRoom;
import lanemend.web.page.Wording;
import org.junit.jupiter.api.Test;

/** Small pieces of a sheet, each by an example. */
class SheetPartsTest {
  private static final Wording US = new Wording(UnitSystem.US_CUSTOMARY, "USD");

  @Test
  void aSmallAmountIsNeverShownAsNothing() {
    assertEquals("0.04\u00a0tons", US.text(0.04 * 0.90718474, Unit.TONNE));
    assertEquals("12.4\u00a0tons", US.text(12.4 * 0.90718474, Unit.TONNE));
    assertEquals("0.0\u00a0tons", US.text(0, Unit.TONNE));
  }

  @Test
  void tracedNumbersCarryTheDigitsToWorkThemAgain() {
    assertEquals("12.6\u00a0min", US.precise(12.6, Unit.MINUTE));
    assertEquals("0.0463\u00a0yd\u00b3", US.precise(0.0463 * 0.764554857984, Unit.CUBIC_METER));
    assertEquals("8", US.precise(8, Unit.COUNT));
    assertEquals("6,142.50\u00a0USD", US.precise(6142.5, Unit.MONEY));
  }

  @Test
  void repairsAreLetteredPastTheAlphabet() {
    assertEquals("2A", Wording.repairId(2, 0));
    assertEquals("2Z", Wording.repairId(2, 25));
    assertEquals("2AA", Wording.repairId(2, 26));
    assertEquals("2AB", Wording.repairId(2, 27));
  }

  @Test
  void squaresAndCubesAreSetAsTheTradeWritesThem() {
    assertEquals("4.0 ft\u00b2 and 3 m\u00b3 at R2", Wording.typeset("4.0 ft2 and 3 m3 at R2"));
    assertEquals("60\u00a0\u00b0F", US.text(140 / 9.0, Unit.DEGREE_CELSIUS));
  }

  @Test
  void labelsThatWouldMeetAreSpreadInOrderBetweenTheEnds() {
    double[] at = LabelRoom.spread(new double[] {50, 52, 53, 300}, 27, 13, 321);
    assertArrayEquals(new double[] {50, 77, 104, 300}, at, 1e-9);
    double[] atEnd = LabelRoom.spread(new double[] {318, 319, 320}, 27, 13, 321);
    assertArrayEquals(new double[] {267, 294, 321}, atEnd, 1e-9);
    double[] full = LabelRoom.spread(new double[] {0, 0, 0, 0, 0}, 27, 0, 80);
    assertArrayEquals(new double[] {0, 20, 40, 60, 80}, full, 1e-9);
  }

  @Test
  void takenRoomIsNotGivenTwice() {
    LabelRoom room = new LabelRoom(100, 100);
    assertTrue(room.tryTake(new double[] {10, 10, 30, 20}));
    assertFalse(room.tryTake(new double[] {29, 19, 50, 30}), "over the first");
    assertTrue(room.tryTake(new double[] {30, 10, 50, 20}), "beside the first");
    assertFalse(room.tryTake(new double[] {90, 90, 105, 95}), "off the drawing");
  }

  @Test
  void theScaleBarIsARoundLength() {
    assertEquals(2, RoadMap.roundBelow(3.9));
    assertEquals(5, RoadMap.roundBelow(9.9));
    assertEquals(0.1, RoadMap.roundBelow(0.19), 1e-12);
  }

  @Test
  void aMapKeepsNorthUpAndItsShape() {
    MapView view =
        MapView.around(List.of(new double[] {0, 0}, new double[] {10_000, 5_000}), 500, 200, 300);
    double[] southWest = view.toPaper(0, 0);
    double[] northEast = view.toPaper(10_000, 5_000);
    assertTrue(northEast[1] < southWest[1], "north is up");
    assertEquals(2, (northEast[0] - southWest[0]) / (southWest[1] - northEast[1]), 1e-9);
    assertTrue(view.shows(southWest, 0) && view.shows(northEast, 0));
  }

  /** Points between the first and the last repair. */
  private static final double SCALED = StripFrame.WIDTH - 2 * (StripFrame.APPROACH + 12);

  @Test
  void aStripIsToScaleAlongTheRoad() {
    StripFrame frame =
        StripFrame.of(
            InventedDay.zone(
                "SR 14",
                ZoneSide.RIGHT,
                List.of(
                    InventedRepairs.blade("D-1", "SR 14", 3.2, 200, 10, 1, Severity.HIGH),
                    InventedRepairs.blade("D-2", "SR 14", 3.3, 100, 10, 1, Severity.HIGH))));
    // 528 ft between the starts: the second starts 528 / 628 of the scaled part past the first.
    double first = frame.x(3.2 * 1609.344);
    double second = frame.x(3.3 * 1609.344);
    assertEquals(SCALED * 528 / 628.0, second - first, 1e-6);
    double[] box = frame.box(InventedRepairs.blade("D", "SR 14", 3.2, 200, 6, 1, Severity.LOW));
    assertEquals(SCALED * 200 / 628.0, box[2], 1e-6);
    // 6 ft of a 12 ft lane.
    assertEquals(0.5 * (StripFrame.LANE - 3), box[3], 1e-9);
  }
}
