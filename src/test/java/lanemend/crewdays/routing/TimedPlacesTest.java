package lanemend.crewdays.routing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Places found the short way against pricing the whole day with the stop at each place. */
class TimedPlacesTest {
  /** So seldom that no place is blinked past. */
  private static final double NEVER = 1e-12;

  private static final double NO_PLACE = Double.POSITIVE_INFINITY;

  /** A small county whose minutes are uncertain; the asked chance grows with the seed. */
  static DayProblem uncertain(Random random, int n, double quantile) {
    DayProblem p = DaySearchTest.county(random, n);
    double[][] variance = new double[p.kinds().length][n];
    for (double[] row : variance) {
      for (int c = 0; c < n; c++) {
        row[c] = random.nextInt(400);
      }
    }
    return new DayProblem(
        p.stops(),
        p.depots(),
        p.legs(),
        p.kinds(),
        p.slots(),
        p.service(),
        p.stopCost(),
        p.demand(),
        p.late(),
        p.shared(),
        p.skipCost(),
        p.supply(),
        new DayChance(quantile, 0.08, 0.15, variance));
  }

  @Test
  void thePlaceFoundCostsToTheLastDigitWhatTheDayPricedWholeCosts() {
    int found = 0;
    int full = 0;
    for (int seed = 0; seed < 300; seed++) {
      Random random = new Random(seed);
      double[] quantiles = {-0.2, 0.5, 1.04, 1.65, 2.4};
      DayProblem p =
          seed % 3 == 0
              ? DaySearchTest.county(random, 9)
              : uncertain(random, 9, quantiles[seed % quantiles.length]);
      Solution s = new Solution(p);
      new Recreate(p, Nearest.of(p, 9), new SplittableRandom(seed)).apply(s, 0);
      TimedPlaces places = new TimedPlaces(p, new Blinks(new SplittableRandom(1), NEVER));
      // What is asked twice is answered from memory.
      for (int round = 0; round < 2; round++) {
        for (int slot = 0; slot < s.size.length; slot++) {
          while (round == 1 && s.size[slot] > 2 && random.nextBoolean()) {
            s.leaveOut(slot, random.nextInt(s.size[slot]));
            s.refresh(slot);
          }
          for (int stop = 0; stop < 9 && s.size[slot] > 0; stop++) {
            if (s.slotOf[stop] != slot && s.admits(slot, s.kind[slot], stop)) {
              double least = least(p, s, slot, stop);
              double cheapest = places.cheapest(s, slot, stop, NO_PLACE);
              // Two places may cost the same but for rounding.
              assertEquals(least, cheapest, 1e-9, "seed " + seed);
              if (cheapest < NO_PLACE) {
                assertEquals(at(p, s, slot, stop, places.at), cheapest, 0.0, "seed " + seed);
              }
              assertEquals(cheapest, places.cheapest(s, slot, stop, NO_PLACE), 0.0);
              double bar = least + random.nextInt(3) - 1;
              assertEquals(Math.min(least, bar), places.cheapest(s, slot, stop, bar), 1e-9);
              found += least < NO_PLACE ? 1 : 0;
              full += least < NO_PLACE ? 0 : 1;
            }
          }
        }
      }
    }
    assertTrue(found > 500 && full > 500, found + " places, " + full + " full days");
  }

  private static double least(DayProblem p, Solution s, int slot, int stop) {
    double least = NO_PLACE;
    for (int at = 0; at <= s.size[slot]; at++) {
      least = Math.min(least, at(p, s, slot, stop, at));
    }
    return least;
  }

  /** What the whole day costs more with the stop at this place. */
  private static double at(DayProblem p, Solution s, int slot, int stop, int at) {
    DayPrice price = new DayPrice(p);
    int date = p.slots()[slot].date();
    boolean fits = price.price(s.kind[slot], date, s.seq[slot], s.size[slot], at, stop);
    return fits ? price.cost - s.cost[slot] : NO_PLACE;
  }

  @Test
  void aDayProvenToEndTooLateNeverKeepsItsLimit() {
    Random random = new Random(7);
    int proven = 0;
    for (int i = 0; i < 200_000; i++) {
      DayChance chance =
          new DayChance(
              random.nextDouble() * 3 - 0.5,
              random.nextDouble() * 0.3,
              random.nextDouble() * 0.3,
              null);
      double mean = 1 + random.nextDouble() * 500;
      double separate = random.nextDouble() * 20_000;
      double limit = 100 + random.nextDouble() * 500;
      if (chance.beyond(limit, mean, separate)) {
        proven++;
        // Any drives are at most as long together as the day.
        double longer = mean * (1 + random.nextDouble());
        double drives = random.nextDouble() * longer * longer;
        double ofDrives = chance.driveSpread() * chance.driveSpread() * drives;
        assertFalse(chance.minutes(longer, separate + ofDrives) <= limit);
        assertFalse(chance.minutes(mean, separate) <= limit);
      }
    }
    assertTrue(proven > 10_000, proven + " proven");
  }

  @Test
  void whatADayMayBeBusyAndWaitIsNeverToldTooLow() {
    Random random = new Random(9);
    int bounded = 0;
    int waits = 0;
    for (int i = 0; i < 200_000; i++) {
      DayChance chance =
          new DayChance(
              random.nextDouble() * 3 - 0.5,
              random.nextDouble() * 0.3,
              random.nextDouble() * 0.3,
              null);
      double separate = random.nextDouble() * 20_000;
      double limit = 100 + random.nextDouble() * 500;
      double most = chance.beyondFrom(limit, separate);
      // More variance, of the stops or of drives that are at most as long together as the day.
      double mean = limit * random.nextDouble() * 1.2;
      double more = separate + random.nextDouble() * 2_000;
      double ofDrives =
          chance.driveSpread() * chance.driveSpread() * random.nextDouble() * mean * mean;
      double minutes = chance.minutes(mean, more + ofDrives);
      if (most < limit && mean >= most && chance.growing(mean, more)) {
        bounded++;
        assertTrue(minutes > limit, mean + " of " + most);
      }
      if (mean < most && chance.growing(mean, more)) {
        waits++;
        assertTrue(limit - minutes <= limit / most * (most - mean) + 1e-6, mean + " of " + most);
      }
    }
    assertTrue(bounded > 1_000 && waits > 10_000, bounded + " bounded, " + waits + " waits");
  }

  @Test
  void placesPassedTogetherAreBlinkedPastLikePlacesOneByOne() {
    Blinks oneByOne = new Blinks(new SplittableRandom(3), 0.1);
    Blinks together = new Blinks(new SplittableRandom(3), 0.1);
    Random random = new Random(5);
    for (int i = 0; i < 1_000; i++) {
      int places = random.nextInt(30);
      for (int j = 0; j < places; j++) {
        oneByOne.past();
      }
      together.pass(places);
      assertEquals(oneByOne.past(), together.past());
    }
  }
}
