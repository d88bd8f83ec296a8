package lanemend.renewal.exposure;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.network.CenterlinePart;
import lanemend.network.Lane;
import lanemend.network.Route;
import lanemend.network.Side;

/**
 * Stretches where routes run together: one pavement, counted once, under the route that comes
 * first. Two routes share a stretch where their centrelines have the same straights between the
 * same vertices.
 */
final class SharedStretches {
  private final Map<String, List<Piece>> byRoute = new HashMap<>();

  /**
   * A straight of a later route that an earlier one has too.
   *
   * @param ownerFromM along on the owner at {@code fromM}; above {@code ownerToM} where they run
   *     against each other
   */
  private record Piece(double fromM, double toM, String owner, double ownerFromM, double ownerToM) {
    double onOwner(double alongM) {
      double share = Math.max(0, Math.min(1, (alongM - fromM) / (toM - fromM)));
      return ownerFromM + share * (ownerToM - ownerFromM);
    }

    /** Both ends meet on both routes: one stretch, drawn in several straights. */
    boolean runsOnInto(Piece next) {
      return owner.equals(next.owner)
          && Math.abs(toM - next.fromM) < 1e-3
          && Math.abs(ownerToM - next.ownerFromM) < 1e-3;
    }

    Piece with(Piece next) {
      return new Piece(fromM, next.toM, owner, ownerFromM, next.ownerToM);
    }

    boolean against() {
      return ownerToM < ownerFromM;
    }
  }

  /** Vertices to the millimetre, the smaller first, so that direction does not matter. */
  private record Straight(long x1, long y1, long x2, long y2) {}

  private record Owned(String route, double fromM, double toM, boolean turned) {}

  static SharedStretches of(Collection<Route> routes) {
    SharedStretches out = new SharedStretches();
    Map<Straight, Owned> owners = new HashMap<>();
    for (Route route : routes) {
      for (CenterlinePart part : route.parts()) {
        for (int k = 0; k + 1 < part.size(); k++) {
          out.add(route.id(), part, k, owners);
        }
      }
    }
    return out;
  }

  private void add(String route, CenterlinePart part, int k, Map<Straight, Owned> owners) {
    long x1 = Math.round(part.x(k) * 1000);
    long y1 = Math.round(part.y(k) * 1000);
    long x2 = Math.round(part.x(k + 1) * 1000);
    long y2 = Math.round(part.y(k + 1) * 1000);
    boolean turned = x1 > x2 || (x1 == x2 && y1 > y2);
    Straight straight = turned ? new Straight(x2, y2, x1, y1) : new Straight(x1, y1, x2, y2);
    Owned mine = new Owned(route, part.along(k), part.along(k + 1), turned);
    Owned first = owners.putIfAbsent(straight, mine);
    if (first != null && !first.route().equals(route)) {
      boolean same = first.turned() == turned;
      Piece next =
          new Piece(
              mine.fromM(),
              mine.toM(),
              first.route(),
              same ? first.fromM() : first.toM(),
              same ? first.toM() : first.fromM());
      List<Piece> pieces = byRoute.computeIfAbsent(route, id -> new ArrayList<>());
      int last = pieces.size() - 1;
      if (last >= 0 && pieces.get(last).runsOnInto(next)) {
        pieces.set(last, pieces.get(last).with(next));
      } else {
        pieces.add(next);
      }
    }
  }

  /** Metres of a stretch of this route that an earlier route owns. */
  double sharedM(String route, double fromM, double toM) {
    double sum = 0;
    for (Piece p : byRoute.getOrDefault(route, List.of())) {
      sum += Math.max(0, Math.min(toM, p.toM()) - Math.max(fromM, p.fromM()));
    }
    return sum;
  }

  /**
   * Work recorded under a later route, moved to the one that owns the pavement: a repair by its
   * middle, a resurfacing by its part on the shared stretch, the rest staying where it was
   * recorded.
   */
  List<PastPatch> settle(PastPatch patch, boolean resurfacing) {
    List<PastPatch> out = new ArrayList<>();
    Place place = patch.place();
    for (Piece p : byRoute.getOrDefault(place.routeId(), List.of())) {
      double from = Math.max(place.fromAlongM(), p.fromM());
      double to = Math.min(place.toAlongM(), p.toM());
      if (resurfacing && from < to) {
        out.add(moved(patch, p, p.onOwner(from), p.onOwner(to)));
      } else if (!resurfacing
          && place.middleAlongM() >= p.fromM()
          && place.middleAlongM() <= p.toM()) {
        double half = (place.toAlongM() - place.fromAlongM()) / 2;
        double at = p.onOwner(place.middleAlongM());
        return List.of(moved(patch, p, Math.max(0, at - half), at + half));
      }
    }
    out.add(patch);
    return out;
  }

  private static PastPatch moved(PastPatch patch, Piece p, double a, double b) {
    Place was = patch.place();
    Place place =
        new Place(p.owner(), Math.min(a, b), Math.max(a, b), was.x(), was.y(), was.entered());
    Lane lane = patch.lane();
    if (lane != null && p.against()) {
      lane = new Lane(lane.side() == Side.LEFT ? Side.RIGHT : Side.LEFT, lane.number());
    }
    return new PastPatch(
        patch.id(),
        patch.work(),
        place,
        lane,
        patch.doneOn(),
        patch.tonnes(),
        patch.crewHours(),
        patch.cost());
  }
}
