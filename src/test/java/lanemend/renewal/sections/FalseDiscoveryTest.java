package lanemend.renewal.sections;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class FalseDiscoveryTest {

  /**
   * Benjamini and Hochberg 1995, 15 p-values of Neuhaus et al. 1992 (read in public test files).
   */
  private static final double[] NEUHAUS = {
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719,
    0.6528, 0.7590, 1.0000
  };

  private static long rejected(double[] p, double q) {
    return Arrays.stream(FalseDiscovery.adjusted(p)).filter(a -> a <= q).count();
  }

  @Test
  void thePapersExampleRejectsFour() {
    assertEquals(4, rejected(NEUHAUS, 0.05));
    // The line is 4/15 x 0.05 = 0.01333 (paper).
    assertEquals(0.0133333, FalseDiscovery.line(NEUHAUS, 0.05), 1e-7);
    // Adjusted values as SciPy computes them.
    double[] scipy = {
      .0015, .003, .0095, .035625, .0603, .063857, .063857, .0645, .0765, .486, .581182, .714875,
      .753231, .813214, 1
    };
    assertArrayEquals(scipy, FalseDiscovery.adjusted(NEUHAUS), 5e-7);
  }

  @Test
  void aSecondPublishedSetRejectsThree() {
    // isolution.pro question 13492998 (read)
    double[] p = {.0001, .0008, .0021, .0234, .0293, .05, .3354, .5211, .9123, 1};
    assertEquals(3, rejected(p, 0.05));
  }

  @Test
  void aValueAboveItsOwnLineIsRejectedWithALaterOne() {
    // By hand: 0.049 <= 0.05 at rank 3 of 3, so all three go.
    assertEquals(3, rejected(new double[] {.04, .045, .049}, 0.05));
    assertEquals(0, FalseDiscovery.line(new double[] {.4, .9}, 0.05));
  }
}
