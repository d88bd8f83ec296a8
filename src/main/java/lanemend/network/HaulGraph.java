package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;

/**
 * The roads as trucks drive them: links between the places where lines meet. Fastest ways are found
 * by one closest-first search (Dijkstra) per place, which yields the kilometres as well and stops
 * once all places are reached; several places are searched from at once. Contraction hierarchies
 * were measured too: on a street grid they take longer to prepare than all these searches. Safe for
 * several threads.
 */
public final class HaulGraph {
  /** A link of a line between two nodes; minutes back are infinite on a one-way link. */
  record Link(int line, double fromAlong, double toAlong, int from, int to, boolean oneWay) {
    double km() {
      return (toAlong - fromAlong) / 1000;
    }
  }

  /** A link, or a piece of one, as driven. */
  private record Drive(int line, double fromAlong, double toAlong) {}

  /** Fewer searches than this are not worth a second thread. */
  private static final int FEW = 16;

  private final List<CenterlinePart> lines = new ArrayList<>();
  private final List<TravelTable> travel = new ArrayList<>();
  private final List<String> routeOfLine = new ArrayList<>();
  private final Map<String, List<Integer>> linesOfRoute = new HashMap<>();
  private final SegmentIndex index;
  private final List<Link> links = new ArrayList<>();
  private final int[] firstLinkOfLine;
  private final int nodes;
  private final Map<String, List<SideRoad>> sideRoads = new ConcurrentHashMap<>();
  private final LinkArcs onward;
  private final LinkArcs backward;

  private HaulGraph(Network network, TravelRules rules) {
    for (Route route : network.routes().values()) {
      TravelTable table = TravelTable.of(route, rules);
      for (CenterlinePart part : route.parts()) {
        linesOfRoute.computeIfAbsent(route.id(), r -> new ArrayList<>()).add(lines.size());
        addLine(part, table, route.id());
      }
    }
    for (Connector connector : network.connectors()) {
      addLine(connector.line(), TravelTable.of(connector, rules), "");
    }
    index = new SegmentIndex(lines);
    firstLinkOfLine = new int[lines.size() + 1];
    nodes = cutLinks(new LinkCutter(lines, travel, index));
    onward = LinkArcs.of(links, nodes, this::minutes, false);
    backward = LinkArcs.of(links, nodes, this::minutes, true);
  }

  /** Builds the graph of a network's routes and connectors. */
  public static HaulGraph build(Network network, TravelRules rules) {
    return new HaulGraph(network, rules);
  }

  private void addLine(CenterlinePart part, TravelTable table, String routeId) {
    lines.add(part);
    travel.add(table);
    routeOfLine.add(routeId);
  }

  private int cutLinks(LinkCutter cutter) {
    Map<Integer, Integer> numbers = new HashMap<>();
    for (int line = 0; line < lines.size(); line++) {
      firstLinkOfLine[line] = links.size();
      Map.Entry<Double, Integer> before = null;
      for (Map.Entry<Double, Integer> cut : cutter.cutsOf(line).entrySet()) {
        if (before != null) {
          double from = before.getKey();
          double to = cut.getKey();
          links.add(
              new Link(
                  line,
                  from,
                  to,
                  number(numbers, before.getValue()),
                  number(numbers, cut.getValue()),
                  travel.get(line).oneWayBetween(from, to)));
        }
        before = cut;
      }
    }
    firstLinkOfLine[lines.size()] = links.size();
    return numbers.size();
  }

  private static int number(Map<Integer, Integer> numbers, int node) {
    Integer known = numbers.get(node);
    if (known == null) {
      known = numbers.size();
      numbers.put(node, known);
    }
    return known;
  }

  List<Link> links() {
    return links;
  }

  /** The lines the links are cut from, in the order of their numbers. */
  SegmentIndex index() {
    return index;
  }

  /** Links in the order of their numbers, packed for searches from a place. */
  LinkArcs onward() {
    return onward;
  }

  /** As {@link #onward}, for searches to a place. */
  LinkArcs backward() {
    return backward;
  }

  int nodeCount() {
    return nodes;
  }

  String routeOf(Link link) {
    return routeOfLine.get(link.line);
  }

  CenterlinePart lineOf(Link link) {
    return lines.get(link.line);
  }

  /** Links of a route, by growing along within each of its parts. */
  List<Link> linksOf(String routeId) {
    List<Link> own = new ArrayList<>();
    for (int line : linesOfRoute.getOrDefault(routeId, List.of())) {
      own.addAll(links.subList(firstLinkOfLine[line], firstLinkOfLine[line + 1]));
    }
    return own;
  }

  /**
   * The roads from which traffic comes onto a route, by growing along; none for a route unknown.
   */
  public List<SideRoad> sideRoads(String routeId) {
    return sideRoads.computeIfAbsent(routeId, r -> new SideRoads(this, r).find());
  }

  double minutes(Link link) {
    return travel.get(link.line).minutes(link.fromAlong, link.toAlong);
  }

  /** How well the roads hang together. */
  public GraphReport report() {
    return Connectivity.report(this);
  }

  /** Fastest ways between all of these places, as {@link #between(List, List)}. */
  public HaulMatrix between(List<HaulPlace> places) {
    return between(places, places);
  }

  /**
   * Fastest ways from each of some places to each of others. A place beside the road starts and
   * ends at the nearest place of the road; the way across to it is not counted.
   *
   * @throws IllegalArgumentException when a place names a route the network lacks, or there are no
   *     roads
   */
  public HaulMatrix between(List<HaulPlace> from, List<HaulPlace> to) {
    double[][] minutes = new double[from.size()][to.size()];
    double[][] km = new double[from.size()][to.size()];
    if (to.size() < from.size()) {
      // Fewer searches when they start from the few and run against the traffic.
      rows(
          to,
          from,
          true,
          (column, columnMinutes, columnKm) -> {
            for (int row = 0; row < columnMinutes.length; row++) {
              minutes[row][column] = columnMinutes[row];
              km[row][column] = columnKm[row];
            }
          });
    } else {
      each(
          from,
          to,
          (row, rowMinutes, rowKm) -> {
            System.arraycopy(rowMinutes, 0, minutes[row], 0, rowMinutes.length);
            System.arraycopy(rowKm, 0, km[row], 0, rowKm.length);
          });
    }
    return new HaulMatrix(minutes, km);
  }

  /**
   * Hands out the rows of {@link #between(List, List)} one by one, in no order, to callers who keep
   * them in a shape of their own.
   */
  public void each(List<HaulPlace> from, List<HaulPlace> to, HaulRow taker) {
    rows(from, to, false, taker);
  }

  private void rows(List<HaulPlace> from, List<HaulPlace> to, boolean against, HaulRow taker) {
    PlaceOnLink[] starts = located(from);
    PlaceOnLink[] goals = from.equals(to) ? starts : located(to);
    int threads = starts.length < FEW ? 1 : Runtime.getRuntime().availableProcessors();
    AtomicInteger next = new AtomicInteger();
    IntStream.range(0, threads)
        .parallel()
        .forEach(
            thread -> {
              FastestWays ways = new FastestWays(against ? backward : onward);
              ways.aimAt(goals);
              double[] minutes = new double[goals.length];
              double[] km = new double[goals.length];
              for (int i = next.getAndIncrement(); i < starts.length; i = next.getAndIncrement()) {
                row(ways, against, starts[i], goals, minutes, km);
                taker.take(i, minutes, km);
              }
            });
  }

  private static void row(
      FastestWays ways,
      boolean against,
      PlaceOnLink start,
      PlaceOnLink[] goals,
      double[] minutes,
      double[] km) {
    ways.search(
        start,
        against ? start.comeByStart() : start.leaveByStart(),
        against ? start.comeByEnd() : start.leaveByEnd());
    for (int g = 0; g < goals.length; g++) {
      PlaceOnLink goal = goals[g];
      double byStart =
          ways.minutesTo(goal.from()) + (against ? goal.leaveByStart() : goal.comeByStart());
      double byEnd = ways.minutesTo(goal.to()) + (against ? goal.leaveByEnd() : goal.comeByEnd());
      minutes[g] = Math.min(byStart, byEnd);
      if (minutes[g] == Double.POSITIVE_INFINITY) {
        km[g] = minutes[g];
      } else {
        km[g] =
            byStart <= byEnd
                ? ways.kmTo(goal.from()) + goal.fromKm()
                : ways.kmTo(goal.to()) + goal.toKm();
      }
      if (against ? goal.leadsTo(start) : start.leadsTo(goal)) {
        double direct = Math.abs(goal.fromMinutes() - start.fromMinutes());
        if (direct <= minutes[g]) {
          minutes[g] = direct;
          km[g] = Math.abs(goal.along() - start.along()) / 1000;
        }
      }
    }
  }

  /** The fastest way as a polyline of {x, y}; empty when there is none. */
  public List<double[]> path(HaulPlace from, HaulPlace to) {
    PlaceOnLink start = locate(from);
    PlaceOnLink goal = locate(to);
    FastestWays ways = new FastestWays(onward);
    ways.aimAt(new PlaceOnLink[] {goal});
    ways.search(start, start.leaveByStart(), start.leaveByEnd());
    double byStart = ways.minutesTo(goal.from()) + goal.comeByStart();
    double byEnd = ways.minutesTo(goal.to()) + goal.comeByEnd();
    int line = links.get(goal.link()).line;
    if (start.leadsTo(goal)
        && Math.abs(goal.fromMinutes() - start.fromMinutes()) <= Math.min(byStart, byEnd)) {
      return drawn(List.of(new Drive(line, start.along(), goal.along())));
    }
    if (Math.min(byStart, byEnd) == Double.POSITIVE_INFINITY) {
      return List.of();
    }
    Link last = links.get(goal.link());
    List<Drive> drives = new ArrayList<>();
    drives.add(new Drive(line, byStart <= byEnd ? last.fromAlong : last.toAlong, goal.along()));
    int node = byStart <= byEnd ? goal.from() : goal.to();
    while (ways.arcTo(node) >= 0) {
      int by = onward.link()[ways.arcTo(node)];
      Link link = links.get(by < 0 ? ~by : by);
      drives.add(
          by < 0
              ? new Drive(link.line, link.toAlong, link.fromAlong)
              : new Drive(link.line, link.fromAlong, link.toAlong));
      node = by < 0 ? link.to : link.from;
    }
    Link firstLink = links.get(start.link());
    boolean byItsStart = node == firstLink.from && ways.minutesTo(node) == start.leaveByStart();
    drives.add(
        new Drive(
            firstLink.line, start.along(), byItsStart ? firstLink.fromAlong : firstLink.toAlong));
    Collections.reverse(drives);
    return drawn(drives);
  }

  private List<double[]> drawn(List<Drive> drives) {
    List<double[]> points = new ArrayList<>();
    for (Drive drive : drives) {
      CenterlinePart line = lines.get(drive.line);
      points.add(Piece.at(line, drive.fromAlong));
      double low = Math.min(drive.fromAlong, drive.toAlong);
      double high = Math.max(drive.fromAlong, drive.toAlong);
      List<double[]> inside = new ArrayList<>();
      for (int v = Piece.segmentAt(line, low) + 1; v < line.size() && line.along(v) < high; v++) {
        inside.add(new double[] {line.x(v), line.y(v)});
      }
      if (drive.fromAlong > drive.toAlong) {
        Collections.reverse(inside);
      }
      points.addAll(inside);
      points.add(Piece.at(line, drive.toAlong));
    }
    List<double[]> distinct = new ArrayList<>();
    for (double[] p : points) {
      if (distinct.isEmpty() || !Arrays.equals(p, distinct.get(distinct.size() - 1))) {
        distinct.add(p);
      }
    }
    return distinct;
  }

  /** How far beside the nearest road a point lies, projected metres; infinite without roads. */
  public double besideM(double x, double y) {
    SegmentIndex.Foot foot = index.nearest(x, y, index.reach(x, y));
    return foot == null ? Double.POSITIVE_INFINITY : foot.distance();
  }

  private PlaceOnLink[] located(List<HaulPlace> places) {
    return places.stream().map(this::locate).toArray(PlaceOnLink[]::new);
  }

  PlaceOnLink locate(HaulPlace at) {
    int line;
    double along;
    if (at.routeId().isEmpty()) {
      SegmentIndex.Foot foot = index.nearest(at.x(), at.y(), index.reach(at.x(), at.y()));
      if (foot == null) {
        throw new IllegalArgumentException(at.label() + ": the network has no roads");
      }
      line = foot.line();
      along = foot.alongM();
    } else {
      List<Integer> parts = linesOfRoute.get(at.routeId());
      if (parts == null) {
        throw new IllegalArgumentException(at.label() + ": no route " + at.routeId());
      }
      line =
          parts.stream()
              .min(Comparator.comparingDouble(p -> outside(lines.get(p), at.alongM())))
              .orElseThrow();
      CenterlinePart part = lines.get(line);
      along = Math.max(part.fromAlong(), Math.min(part.toAlong(), at.alongM()));
    }
    return placeOn(line, along);
  }

  /** A place of a line, which must be on it. */
  PlaceOnLink placeOn(int line, double along) {
    int link = firstLinkOfLine[line];
    while (link + 1 < firstLinkOfLine[line + 1] && links.get(link).toAlong < along) {
      link++;
    }
    return placeOnLink(link, along);
  }

  /** A place of a link, which must be on it. */
  PlaceOnLink placeOnLink(int number, double along) {
    Link link = links.get(number);
    return PlaceOnLink.of(number, link, atJunction(link, along), travel.get(link.line));
  }

  /** A place at a junction is in it, or a one-way link would let it leave to one side only. */
  private static double atJunction(Link link, double along) {
    if (along - link.fromAlong <= LineCleaner.SNAP_M) {
      return link.fromAlong;
    }
    return link.toAlong - along <= LineCleaner.SNAP_M ? link.toAlong : along;
  }

  private static double outside(CenterlinePart part, double along) {
    return Math.max(0, Math.max(part.fromAlong() - along, along - part.toAlong()));
  }
}
