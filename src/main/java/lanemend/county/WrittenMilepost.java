package lanemend.county;

import java.util.stream.Collectors;
import lanemend.exchange.MilepostText;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.Route;

/** A milepost as people write it, on a road that is known. */
public final class WrittenMilepost {
  private WrittenMilepost() {}

  /**
   * Along of a milepost such as {@code 12.4} or {@code 12.4 back}.
   *
   * @throws NotReady with one sentence when it is none, or not one place
   */
  public static double along(Route route, String written) {
    Milepost wanted =
        MilepostText.parse(written)
            .orElseThrow(() -> new NotReady("'" + written + "' is not a milepost such as 12.4"));
    MilepostLookup found = route.mileposts().find(wanted);
    if (found instanceof MilepostLookup.Found f) {
      return f.alongM();
    }
    if (found instanceof MilepostLookup.Ambiguous several) {
      throw new NotReady(
          "milepost "
              + written
              + " occurs more than once on "
              + route.id()
              + ": write "
              + several.choices().stream()
                  .map(c -> "'" + c.milepost().text() + "'")
                  .collect(Collectors.joining(" or ")));
    }
    throw new NotReady(((MilepostLookup.Missing) found).why());
  }
}
