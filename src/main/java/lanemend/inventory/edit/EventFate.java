package lanemend.inventory.edit;

import java.util.List;
import lanemend.network.edit.Image;

/**
 * What an edit does to one event.
 *
 * @param why a plain sentence
 * @param now where it lies afterwards; none when it lies on no road of today any more, several for
 *     a fact that is cut
 * @param changed false where only the number of its milepost is another
 * @param look what somebody must look at, or empty
 */
public record EventFate(
    RoadEvent event, Outcome outcome, String why, List<Image> now, boolean changed, String look) {

  public EventFate {
    now = List.copyOf(now);
  }

  /** True where the event lies on no road of today. */
  public boolean leavesRoad() {
    return now.isEmpty();
  }

  public boolean needsLook() {
    return !look.isEmpty();
  }
}
