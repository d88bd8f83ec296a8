package lanemend.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.network.CalibrationPost;
import lanemend.network.Route;

/** Whether a route's calibration posts make a milepost map. */
final class PostCheck {

  private PostCheck() {}

  static List<String> check(Route route) {
    List<String> found = new ArrayList<>();
    CalibrationPost before = null;
    for (CalibrationPost p : route.mileposts().posts()) {
      if (p.alongM() < -StoreCheck.ALONG_TOLERANCE_M
          || p.alongM() > route.lengthM() + StoreCheck.ALONG_TOLERANCE_M) {
        found.add(
            name(route, p)
                + String.format(Locale.ROOT, " lies off the road at %.2f m", p.alongM()));
      }
      if (before != null && p.alongM() <= before.alongM()) {
        found.add(name(route, p) + " stands where another post stands");
      } else if (before != null && p.backMiles() == before.aheadMiles()) {
        found.add(name(route, p) + " has the same milepost as the post before it");
      }
      before = p;
    }
    return found;
  }

  private static String name(Route route, CalibrationPost p) {
    return "post " + p.backMiles() + " of " + route.id();
  }
}
