package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Finds the roads from which traffic comes onto a route. Roads that run with the route, carry it on
 * at its ends, or only lead away from it are none.
 */
final class SideRoads {
  /** A leg's side is looked for this far from the route at most. */
  private static final double LOOK_M = 30;

  /** A leg that is no further off the route's own way than this runs with it. */
  private static final double ASIDE_M = 1;

  /** Mouths of one road closer than this are one place: a road that crosses at an offset. */
  private static final double ONE_PLACE_M = 15;

  private final HaulGraph graph;
  private final String routeId;

  SideRoads(HaulGraph graph, String routeId) {
    this.graph = graph;
    this.routeId = routeId;
  }

  /** By growing along. */
  List<SideRoad> find() {
    List<SideRoad> mouths = new ArrayList<>();
    List<HaulGraph.Link> own = graph.linksOf(routeId);
    for (HaulGraph.Link link : own) {
      addMouths(link.from(), graph.lineOf(link), link.fromAlong(), mouths);
      boolean goesOn =
          own.stream().anyMatch(l -> l.from() == link.to() && l.fromAlong() == link.toAlong());
      if (!goesOn) {
        addMouths(link.to(), graph.lineOf(link), link.toAlong(), mouths);
      }
    }
    mouths.sort(Comparator.comparingDouble(SideRoad::alongM).thenComparing(SideRoad::name));
    return joined(mouths);
  }

  /** A way by which traffic comes to a node, with a point of it near there. */
  private record Leg(String name, double[] far) {
    boolean runsWith(Leg other) {
      return Math.hypot(far[0] - other.far[0], far[1] - other.far[1]) <= ASIDE_M;
    }
  }

  private void addMouths(int node, CenterlinePart line, double along, List<SideRoad> mouths) {
    for (Leg leg : legs(node)) {
      int side = side(line, along, leg.far());
      if (side != 0) {
        mouths.add(new SideRoad(along, leg.name(), side > 0, side < 0));
      }
    }
  }

  /** Routes that come together by one road are one leg, named by all of them. */
  private List<Leg> legs(int node) {
    List<Leg> legs = new ArrayList<>();
    LinkArcs in = graph.backward();
    for (int arc = in.first()[node]; arc < in.first()[node + 1]; arc++) {
      int by = in.link()[arc];
      HaulGraph.Link link = graph.links().get(by < 0 ? ~by : by);
      String name = graph.routeOf(link);
      if (name.equals(routeId)) {
        continue;
      }
      Leg leg = new Leg(name, far(link, link.to() == node && link.from() != node));
      Leg same = legs.stream().filter(leg::runsWith).findFirst().orElse(null);
      legs.remove(same);
      legs.add(same == null ? leg : new Leg(together(same.name(), name), leg.far()));
    }
    return legs;
  }

  private static String together(String a, String b) {
    if (a.isEmpty() || b.isEmpty()) {
      return a + b;
    }
    return a.compareTo(b) < 0 ? a + ", " + b : b + ", " + a;
  }

  private double[] far(HaulGraph.Link leg, boolean fromItsEnd) {
    double reach = Math.min(LOOK_M, leg.toAlong() - leg.fromAlong());
    return Piece.at(
        graph.lineOf(leg), fromItsEnd ? leg.toAlong() - reach : leg.fromAlong() + reach);
  }

  /** 1 for a leg on the left of growing along, -1 on the right, 0 for one that is no side road. */
  private static int side(CenterlinePart line, double along, double[] far) {
    double[] mouth = Piece.at(line, along);
    double before = Math.max(line.fromAlong(), along - LOOK_M);
    double after = Math.min(line.toAlong(), along + LOOK_M);
    boolean starts = along - before < ASIDE_M;
    boolean ends = after - along < ASIDE_M;
    double leg = heading(mouth, far);
    double onward =
        ends
            ? Math.PI + heading(mouth, Piece.at(line, before))
            : heading(mouth, Piece.at(line, after));
    double backward = starts ? Math.PI + onward : heading(mouth, Piece.at(line, before));
    double away = Math.hypot(far[0] - mouth[0], far[1] - mouth[1]);
    for (double own : new double[] {onward, backward}) {
      double apart = Math.abs(Math.IEEEremainder(leg - own, 2 * Math.PI));
      boolean carriesOn = own == onward ? ends : starts;
      if (apart < Math.PI / 4 && (carriesOn || away * Math.sin(apart) <= ASIDE_M)) {
        return 0;
      }
    }
    // Turning left from the way on, one meets what lies on the left before the way back.
    return turn(onward, leg) < turn(onward, backward) ? 1 : -1;
  }

  private static double heading(double[] from, double[] to) {
    return Math.atan2(to[1] - from[1], to[0] - from[0]);
  }

  /** Radians to turn left, 0 to 2 pi. */
  private static double turn(double from, double to) {
    double left = (to - from) % (2 * Math.PI);
    return left < 0 ? left + 2 * Math.PI : left;
  }

  /** Mouths of one road at one place are one side road. */
  private static List<SideRoad> joined(List<SideRoad> mouths) {
    List<SideRoad> roads = new ArrayList<>();
    for (SideRoad mouth : mouths) {
      int same = roads.size() - 1;
      while (same >= 0
          && !(roads.get(same).name().equals(mouth.name())
              && mouth.alongM() - roads.get(same).alongM() <= ONE_PLACE_M)) {
        same--;
      }
      if (same < 0) {
        roads.add(mouth);
      } else {
        SideRoad known = roads.get(same);
        roads.set(
            same,
            new SideRoad(
                known.alongM(),
                known.name(),
                known.left() || mouth.left(),
                known.right() || mouth.right()));
      }
    }
    return List.copyOf(roads);
  }
}
