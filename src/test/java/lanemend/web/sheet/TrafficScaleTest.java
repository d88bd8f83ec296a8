package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Distances on the drawing of a zone's traffic control are true, or parted by a marked break. */
class TrafficScaleTest {

  @Test
  void oneScaleWhereTheClosureIsLongEnough() {
    TrafficScale scale = new TrafficScale(0, 1000, 1900, 2000, 20, 520);

    assertEquals(1, scale.parts().size());
    assertEquals(20, scale.x(0), 1e-9);
    assertEquals(270, scale.x(1000), 1e-9);
    assertEquals(520, scale.x(2000), 1e-9);
  }

  /** Each of three parts true to its own scale: equal metres are equal points inside a part. */
  @Test
  void breaksTheScaleWhereTheSignsAreFarOut() {
    TrafficScale scale = new TrafficScale(-1600, 0, 300, 1000, 0, 500);

    assertEquals(3, scale.parts().size());
    assertEquals(scale.x(100) - scale.x(0), scale.x(300) - scale.x(200), 1e-9);
    assertEquals(scale.x(-1500) - scale.x(-1600), scale.x(0) - scale.x(-100), 1e-6);
    double last = -1;
    for (double along = -1600; along <= 1000; along += 25) {
      assertTrue(scale.x(along) > last);
      last = scale.x(along);
    }
    assertEquals(500, last, 1e-9);
  }
}
