package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The haul graph as a track sees it: where routes run together, their links lie on one roadbed and
 * cannot be told apart by driving on it, so one link stands for all of them.
 */
final class TrackRoads {
  /** Links between the same nodes are one roadbed when length and middle agree this closely. */
  private static final double SAME_BED_M = 1;

  /** A link of a roadbed; {@code reversed} when its along grows against the standing one's. */
  record Member(int link, boolean reversed) {}

  /** A place on the roads where a fix may have been taken. */
  record State(PlaceOnLink place, double x, double y, double distanceM) {}

  private record Ends(int low, int high) {}

  private final HaulGraph graph;
  private final int[] bedOf;
  private final boolean[] reversed;
  private final List<List<Member>> members = new ArrayList<>();

  TrackRoads(HaulGraph graph) {
    this.graph = graph;
    int n = graph.links().size();
    bedOf = new int[n];
    reversed = new boolean[n];
    Map<Ends, List<Integer>> between = new HashMap<>();
    for (int i = 0; i < n; i++) {
      members.add(new ArrayList<>(List.of(new Member(i, false))));
      bedOf[i] = i;
      HaulGraph.Link link = link(i);
      Ends ends = new Ends(Math.min(link.from(), link.to()), Math.max(link.from(), link.to()));
      List<Integer> others = between.computeIfAbsent(ends, e -> new ArrayList<>(1));
      for (int other : others) {
        if (bedOf[other] == other && sameBed(link(other), link)) {
          join(other, i);
          break;
        }
      }
      others.add(i);
    }
  }

  private void join(int bed, int link) {
    bedOf[link] = bed;
    double[] start = pointOn(link, link(link).fromAlong());
    double[] bedStart = pointOn(bed, link(bed).fromAlong());
    double[] bedEnd = pointOn(bed, link(bed).toAlong());
    reversed[link] =
        Math.hypot(start[0] - bedEnd[0], start[1] - bedEnd[1])
            < Math.hypot(start[0] - bedStart[0], start[1] - bedStart[1]);
    members.get(bed).add(new Member(link, reversed[link]));
  }

  private boolean sameBed(HaulGraph.Link a, HaulGraph.Link b) {
    double lengthA = a.toAlong() - a.fromAlong();
    double lengthB = b.toAlong() - b.fromAlong();
    if (Math.abs(lengthA - lengthB) > SAME_BED_M) {
      return false;
    }
    double[] middleA = middle(a);
    double[] middleB = middle(b);
    return Math.hypot(middleA[0] - middleB[0], middleA[1] - middleB[1]) <= SAME_BED_M;
  }

  private double[] middle(HaulGraph.Link link) {
    return Piece.at(graph.index().line(link.line()), (link.fromAlong() + link.toAlong()) / 2);
  }

  HaulGraph.Link link(int i) {
    return graph.links().get(i);
  }

  int bedOf(int link) {
    return bedOf[link];
  }

  /** Every link on a bed, the standing one first. */
  List<Member> members(int bed) {
    return members.get(bed);
  }

  String routeOf(int link) {
    return graph.routeOf(link(link));
  }

  double[] pointOn(int link, double along) {
    return Piece.at(graph.index().line(link(link).line()), along);
  }

  /** Along of a bed's place as one of its members counts it. */
  double alongOn(int bed, Member member, double along) {
    if (member.link() == bed) {
      return along;
    }
    HaulGraph.Link own = link(bed);
    HaulGraph.Link other = link(member.link());
    double share = (along - own.fromAlong()) / (own.toAlong() - own.fromAlong());
    return member.reversed()
        ? other.toAlong() - share * (other.toAlong() - other.fromAlong())
        : other.fromAlong() + share * (other.toAlong() - other.fromAlong());
  }

  /** A drive on a link, from and to along, as driven on the standing link of its bed. */
  double alongOnBed(int link, double along) {
    int bed = bedOf[link];
    if (bed == link) {
      return along;
    }
    HaulGraph.Link own = link(link);
    HaulGraph.Link stands = link(bed);
    double share = (along - own.fromAlong()) / (own.toAlong() - own.fromAlong());
    double length = stands.toAlong() - stands.fromAlong();
    return reversed[link] ? stands.toAlong() - share * length : stands.fromAlong() + share * length;
  }

  /** Places within reach of a fix, nearest first; one for each roadbed and pass of it. */
  List<State> near(double x, double y, double reachM) {
    Map<Integer, List<SegmentIndex.Foot>> byLine = new LinkedHashMap<>();
    for (SegmentIndex.Foot foot : graph.index().near(x, y, reachM)) {
      byLine.computeIfAbsent(foot.line(), l -> new ArrayList<>()).add(foot);
    }
    List<State> found = new ArrayList<>();
    byLine.forEach(
        (line, feet) -> {
          for (SegmentIndex.Foot foot : SeparatePlaces.of(feet, graph.index(), x, y)) {
            add(found, onBed(graph.placeOn(line, foot.alongM())), foot.distance());
          }
        });
    found.sort(
        Comparator.comparingDouble(State::distanceM)
            .thenComparingInt(s -> s.place().link())
            .thenComparingDouble(s -> s.place().along()));
    return found;
  }

  private void add(List<State> found, PlaceOnLink place, double distance) {
    for (State s : found) {
      if (s.place().link() == place.link()
          && Math.abs(s.place().along() - place.along()) <= SAME_BED_M) {
        return;
      }
    }
    double[] at = pointOn(place.link(), place.along());
    found.add(new State(place, at[0], at[1], distance));
  }

  private PlaceOnLink onBed(PlaceOnLink place) {
    int bed = bedOf[place.link()];
    if (bed == place.link()) {
      return place;
    }
    return graph.placeOnLink(bed, alongOnBed(place.link(), place.along()));
  }
}
