package lanemend.renewal.sections;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import org.junit.jupiter.api.Test;

class CumulativeDifferenceTest {

  @Test
  void sixMilesOfTwoAndSix() {
    // Worked by hand after AASHTO 1993 appendix J, r constant over each mile: 2, 2, 2, 6, 6, 6;
    // mean 4; Z = -2, -4, -6, -4, -2, 0; the unit ends after mile 3.
    double[] r = {2, 2, 2, 6, 6, 6};
    double[] mile = {1, 1, 1, 1, 1, 1};
    assertArrayEquals(
        new double[] {-2, -4, -6, -4, -2, 0}, CumulativeDifference.differences(r, mile), 1e-12);
    assertArrayEquals(new int[] {3, 6}, CumulativeDifference.ends(r, mile));
  }

  @Test
  void aCellAtTheMeanStaysWithTheUnitBeforeIt() {
    double[] r = {1, 3, 2, 3, 1};
    double[] one = {1, 1, 1, 1, 1};
    assertArrayEquals(new int[] {1, 4, 5}, CumulativeDifference.ends(r, one));
  }

  @Test
  void moreYearsWatchedAreNotMoreRepairs() {
    // Two cells of one rate, the second watched three times as long: one unit.
    assertArrayEquals(
        new int[] {2}, CumulativeDifference.ends(new double[] {2, 6}, new double[] {1, 3}));
  }
}
