package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** The closed-form volume against sums over the solid itself. */
class TaperedMatTest {

  /** Given mats of random size, when their thickness is summed over a fine grid, it agrees. */
  @Test
  void volumeIsTheIntegralOfTheThickness() {
    Random random = new Random(20260401);
    for (int i = 0; i < 20; i++) {
      TaperedMat mat =
          new TaperedMat(
              1 + 60 * random.nextDouble(),
              0.5 + 4 * random.nextDouble(),
              0.01 + 0.1 * random.nextDouble(),
              8 * random.nextDouble(),
              0.1 + random.nextDouble());

      assertEquals(mat.volumeM3(), integral(mat, 700), mat.volumeM3() * 1e-4, mat.toString());
    }
  }

  /** A mat without core is a pyramid: a third of base times height. */
  @Test
  void aPointedMatIsAPyramid() {
    TaperedMat pyramid = new TaperedMat(0, 0, 0.3, 2, 1.5);

    assertEquals(4 * 3 * 0.3 / 3, pyramid.volumeM3(), 1e-12);
  }

  /** A mat that stops short everywhere is a plain box. */
  @Test
  void aMatWithoutTapersIsABox() {
    TaperedMat box = new TaperedMat(10, 3, 0.05, 0, 0);

    assertEquals(1.5, box.volumeM3(), 1e-12);
    assertEquals(0.05, box.thicknessAt(4.9, 1.4));
    assertEquals(0, box.thicknessAt(5.1, 0));
  }

  @Test
  void partsAreThinnerThanTheBoxRoundThem() {
    TaperedMat mat = new TaperedMat(20, 3, 0.05, 6, 0.3);

    assertTrue(mat.volumeM3() < mat.footprintM2() * mat.thicknessM());
    assertTrue(mat.volumeM3() > mat.prismM3());
  }

  /** Midpoint rule over the footprint. */
  private static double integral(TaperedMat mat, int n) {
    double dx = mat.lengthM() / n;
    double dy = mat.widthM() / n;
    double sum = 0;
    for (int i = 0; i < n; i++) {
      double x = -mat.lengthM() / 2 + (i + 0.5) * dx;
      for (int j = 0; j < n; j++) {
        sum += mat.thicknessAt(x, -mat.widthM() / 2 + (j + 0.5) * dy);
      }
    }
    return sum * dx * dy;
  }
}
