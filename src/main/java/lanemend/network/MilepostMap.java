package lanemend.network;

import java.util.List;

/** Along to milepost and back: piecewise linear between calibration posts. */
public interface MilepostMap {

  /** The milepost at a place of the route. */
  Milepost at(double alongM);

  /** Where a milepost is. */
  MilepostLookup find(Milepost milepost);

  /** False where no posts were given and mileposts are along / 1609.344. */
  boolean calibrated();

  /** The posts, by growing along; empty when uncalibrated. */
  List<CalibrationPost> posts();
}
