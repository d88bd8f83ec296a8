package lanemend.exchange;

import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import lanemend.inventory.Place;
import lanemend.network.Lane;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.network.TrackMatch;

/**
 * Sides and lanes as the patrol drove, turned into those of growing mileposts. Traffic keeps to the
 * right.
 */
final class DrivenSides {
  private final Network network;
  private final LaneCounts lanes;
  private final Optional<TrackMatch> track;

  DrivenSides(Network network, LaneCounts lanes, Optional<TrackMatch> track) {
    this.network = network;
    this.lanes = lanes;
    this.track = track;
  }

  /** The one lane there is for the patrol's way; refused where there are several, or none told. */
  Lane lane(Place place, WrittenPlace written) throws Refusal {
    Route route = network.route(place.routeId()).orElseThrow();
    OptionalInt count = lanes.lanes(route.id(), place.middleAlongM());
    int oneEachWay = route.divided() ? 1 : 2;
    if (count.isEmpty() || count.getAsInt() > oneEachWay) {
      throw new Refusal(
          "lane",
          "",
          EventCells.LANE_WANTED
              + (count.isEmpty()
                  ? " (how many lanes the road has here is not recorded)"
                  : " (the road has " + count.getAsInt() + " here)"));
    }
    return new Lane(rising("lane", "", place, written) ? Side.RIGHT : Side.LEFT, 1);
  }

  Side side(Side asDriven, Place place, WrittenPlace written) throws Refusal {
    if (rising("side", asDriven.name().toLowerCase(Locale.ROOT), place, written)) {
      return asDriven;
    }
    return asDriven == Side.LEFT ? Side.RIGHT : Side.LEFT;
  }

  private boolean rising(String field, String found, Place place, WrittenPlace written)
      throws Refusal {
    Optional<Boolean> rising = rising(place, written.seenAt());
    if (rising.isEmpty()) {
      rising = rising(place, null);
    }
    if (rising.isEmpty()) {
      throw new Refusal(
          field,
          found,
          "a place on "
              + place.routeId()
              + " that the track passes one way only, or this in a defects or findings file");
    }
    return rising.get();
  }

  private Optional<Boolean> rising(Place place, Instant at) {
    return track.flatMap(t -> t.rising(place.routeId(), place.middleAlongM(), at));
  }
}
