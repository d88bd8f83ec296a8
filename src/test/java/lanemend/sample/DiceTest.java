package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Draws against the textbook moments of their distributions (formulas from memory). */
class DiceTest {
  private static final int DRAWS = 200_000;

  private record Moments(double mean, double variance) {}

  private static Moments of(DoubleSupplier draw) {
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < DRAWS; i++) {
      double v = draw.getAsDouble();
      sum += v;
      squares += v * v;
    }
    double mean = sum / DRAWS;
    return new Moments(mean, squares / DRAWS - mean * mean);
  }

  @Test
  void theNormalHasMeanZeroAndVarianceOne() {
    Dice dice = new Dice(1);
    Moments m = of(dice::normal);
    assertEquals(0, m.mean(), 0.01);
    assertEquals(1, m.variance(), 0.02);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.5, 1.2, 6})
  void theGammaHasMeanOneAndVarianceOneOverItsShape(double shape) {
    Dice dice = new Dice(2);
    Moments m = of(() -> dice.gammaMeanOne(shape));
    assertEquals(1, m.mean(), 0.02);
    assertEquals(1 / shape, m.variance(), 0.06 / shape);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.03, 2.5, 55})
  void thePoissonHasItsMeanAsVariance(double mean) {
    Dice dice = new Dice(3);
    Moments m = of(() -> dice.poisson(mean));
    assertEquals(mean, m.mean(), 5 * StrictMath.sqrt(mean / DRAWS));
    assertEquals(mean, m.variance(), 0.03 * mean);
  }

  @Test
  void theLognormalHasItsMedian() {
    Dice dice = new Dice(4);
    int below = 0;
    for (int i = 0; i < DRAWS; i++) {
      below += dice.lognormal(1.3, 0.85) < 1.3 ? 1 : 0;
    }
    assertEquals(0.5, (double) below / DRAWS, 0.005);
  }

  @Test
  void aForkGoesItsOwnWay() {
    Dice a = new Dice(5);
    Dice b = new Dice(5);
    Dice fork = a.fork();
    Dice same = b.fork();
    fork.normal();
    assertNotEquals(fork.normal(), a.normal());
    assertTrue(b.normal() != 0);
    same.normal();
    // The parent's next draw does not depend on how much the fork drew.
    assertEquals(new Dice(5).fork().normal(), new Dice(5).fork().normal());
  }
}
