package lanemend.exchange;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;
import lanemend.inventory.Defect;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.network.Lane;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.PostSighting;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.network.TrackMatch;

/**
 * Puts rows on the road. What cannot be placed without guessing joins the rows refused before, so
 * that the count of the file still adds up. Looks at the network only; stores nothing.
 */
public final class EventLocator {
  /** Mileposts are written to a hundredth of a mile; two of them may hide this much. */
  private static final double MILEPOST_ROUNDING_M = 32.2;

  /** A point nearer to the centreline than this does not tell which side it is on. */
  private static final double SIDE_TELLS_M = 3;

  private final PlaceFinder places;
  private final LaneCounts lanes;
  private final DrivenSides driven;

  /**
   * @param lanes to refuse a lane the road does not have; {@link LaneCounts#UNKNOWN} when nothing
   *     is recorded yet
   */
  public EventLocator(Network network, Locator locator, LaneCounts lanes) {
    this(network, locator, lanes, Optional.empty());
  }

  /**
   * As above, for what was seen on a patrol.
   *
   * @param track tells roads that run beside or over each other apart
   */
  public EventLocator(
      Network network, Locator locator, LaneCounts lanes, Optional<TrackMatch> track) {
    this.places = new PlaceFinder(network, locator, track);
    this.lanes = lanes;
    this.driven = new DrivenSides(network, lanes, track);
  }

  /** What a row is made into. */
  interface Placing<R, T> {
    T place(R row) throws Refusal;
  }

  /**
   * Places defects.
   *
   * @param takenIds ids that stand in the store; rows with one of them are refused
   */
  public Read<Defect> defects(Read<RawDefect> read, Set<String> takenIds) {
    Set<String> taken = new HashSet<>(takenIds);
    return all(
        read,
        RawDefect::origin,
        d -> {
          PlaceFinder.Spot spot = places.find(d.place(), d.lengthM().orElse(0));
          Lane lane = d.lane() == null ? driven.lane(spot.place(), d.place()) : d.lane();
          checkLane(lane, spot);
          double length = length(d, spot);
          checkId(d.id(), taken);
          return new Defect(
              d.id(),
              d.kind(),
              d.severity(),
              spot.place(),
              lane,
              length,
              d.widthM(),
              d.depthM(),
              d.foundOn(),
              d.foundBy(),
              d.photo(),
              d.status(),
              d.note());
        });
  }

  /**
   * Places findings; a missing side is told by the coordinates.
   *
   * @param takenIds ids that stand in the store; rows with one of them are refused
   */
  public Read<Finding> findings(Read<RawFinding> read, Set<String> takenIds) {
    Set<String> taken = new HashSet<>(takenIds);
    return all(
        read,
        RawFinding::origin,
        f -> {
          PlaceFinder.Spot spot = places.find(f.place(), 0);
          Side side = f.side().isPresent() ? f.side().get() : side(spot.offsetM());
          if (f.sideAsDriven() && f.side().isPresent()) {
            side = driven.side(side, spot.place(), f.place());
          }
          checkId(f.id(), taken);
          return new Finding(
              f.id(), f.kind(), spot.place(), side, f.foundOn(), f.foundBy(), f.note());
        });
  }

  /**
   * Places past repairs.
   *
   * @param takenIds ids that stand in the store; rows with one of them are refused
   */
  public Read<PastPatch> patches(Read<RawPatch> read, Set<String> takenIds) {
    Set<String> taken = new HashSet<>(takenIds);
    return all(
        read,
        RawPatch::origin,
        p -> {
          PlaceFinder.Spot spot = places.find(p.place(), 0);
          if (p.lane() != null) {
            checkLane(p.lane(), spot);
          }
          checkId(p.id(), taken);
          return new PastPatch(
              p.id(),
              p.work(),
              spot.place(),
              p.lane(),
              p.doneOn(),
              p.tonnes(),
              p.crewHours(),
              p.cost());
        });
  }

  /** Places facts; a blank milepost stands for that end of the route. */
  public Read<RoadAttribute> attributes(Read<RawAttribute> read) {
    return all(
        read,
        RawAttribute::origin,
        a -> {
          WrittenPlace w = a.place();
          Route route = places.routes().one(w.route(), w.direction());
          double from =
              w.milepostFrom().isEmpty()
                  ? 0
                  : places.along(route, "milepost_from", w.milepostFrom());
          double to =
              w.milepostTo().isEmpty()
                  ? route.lengthM()
                  : places.along(route, "milepost_to", w.milepostTo());
          if (from == to) {
            throw new Refusal("milepost_to", w.milepostTo(), "a milepost other than milepost_from");
          }
          return new RoadAttribute(
              route.id(),
              Math.min(from, to),
              Math.max(from, to),
              a.name(),
              a.value(),
              a.validFrom(),
              a.validTo(),
              Entered.byMilepost(route.id(), orNull(w.milepostFrom()), orNull(w.milepostTo())));
        });
  }

  private static String orNull(String text) {
    return text.isEmpty() ? null : text;
  }

  /**
   * Posts ready to be set on their routes.
   *
   * @param byRoute by route id, in the order of the file
   */
  public record PlacedPosts(Map<String, List<PostSighting>> byRoute, Read<RawPost> read) {}

  /** Gives each post to its route; whether it stands near the road is judged when it is set. */
  public PlacedPosts posts(Read<RawPost> read) {
    Map<String, List<PostSighting>> byRoute = new LinkedHashMap<>();
    Read<RawPost> left =
        all(
            read,
            RawPost::origin,
            p -> {
              Route route = places.routes().one(p.route(), p.direction());
              double[] at = {0, 0};
              if (p.distanceM().isEmpty()) {
                at = project(p);
              } else if (p.distanceM().getAsDouble() > route.lengthM() + 1) {
                throw new Refusal(
                    "distance",
                    Numbers.shown(p.distanceM().getAsDouble()) + " m",
                    "a distance on "
                        + route.id()
                        + ", at most "
                        + Numbers.shown(route.lengthM())
                        + " m");
              }
              byRoute
                  .computeIfAbsent(route.id(), id -> new ArrayList<>())
                  .add(
                      new PostSighting(
                          p.origin().text(),
                          p.backMiles(),
                          p.aheadMiles(),
                          at[0],
                          at[1],
                          p.distanceM()));
              return p;
            });
    return new PlacedPosts(byRoute, left);
  }

  private double[] project(RawPost p) throws Refusal {
    double lon = p.longitude().getAsDouble();
    double lat = p.latitude().getAsDouble();
    try {
      return places.project(lon, lat);
    } catch (IllegalArgumentException e) {
      throw new Refusal(
          "longitude", Numbers.shown(lon) + " " + Numbers.shown(lat), "a point near the network");
    }
  }

  static <R, T> Read<T> all(Read<R> read, Function<R, RowOrigin> origin, Placing<R, T> placing) {
    List<T> placed = new ArrayList<>();
    List<RowProblem> problems = new ArrayList<>(read.problems());
    for (R row : read.rows()) {
      try {
        placed.add(placing.place(row));
      } catch (Refusal e) {
        problems.add(e.at(origin.apply(row)));
      }
    }
    return new Read<>(placed, problems, read.rowsSeen(), read.warnings(), read.notes());
  }

  static void checkId(String id, Set<String> taken) throws Refusal {
    if (!taken.add(id)) {
      throw new Refusal("id", id, "an id that is not in the store yet");
    }
  }

  private void checkLane(Lane lane, PlaceFinder.Spot spot) throws Refusal {
    OptionalInt count = lanes.lanes(spot.place().routeId(), spot.place().middleAlongM());
    if (count.isPresent() && lane.number() > count.getAsInt()) {
      throw new Refusal(
          "lane", lane.code(), "a lane of the road, which has " + count.getAsInt() + " here");
    }
  }

  private static double length(RawDefect d, PlaceFinder.Spot spot) throws Refusal {
    if (spot.stretchM().isEmpty()) {
      return d.lengthM().getAsDouble();
    }
    double stretch = spot.stretchM().getAsDouble();
    double length = d.lengthM().orElse(stretch);
    if (!(length > 0)) {
      throw new Refusal(
          "milepost_to", d.place().milepostTo(), "a milepost other than milepost, or a length");
    }
    if (length > stretch + MILEPOST_ROUNDING_M) {
      throw new Refusal(
          "length",
          Numbers.shown(length) + " m",
          "a length no greater than the stretch between the two mileposts, "
              + Numbers.shown(stretch)
              + " m");
    }
    return length;
  }

  private static Side side(OptionalDouble offsetM) throws Refusal {
    if (offsetM.isPresent() && Math.abs(offsetM.getAsDouble()) >= SIDE_TELLS_M) {
      return offsetM.getAsDouble() > 0 ? Side.RIGHT : Side.LEFT;
    }
    throw new Refusal("side", "", "left or right, as the point lies on the road and does not tell");
  }
}
