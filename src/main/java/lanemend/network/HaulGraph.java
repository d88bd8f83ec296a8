package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.DirectedWeightedPseudograph;
import org.jgrapht.traverse.ClosestFirstIterator;

/**
 * The roads as trucks drive them: links between the places where lines meet. Fastest ways are found
 * by one closest-first search (Dijkstra) per place, which yields the kilometres as well and stops
 * once all places are reached. Contraction hierarchies were measured too: on a street grid they
 * take longer to prepare than all these searches. Safe for several threads.
 */
public final class HaulGraph {
  /** A link of a line between two nodes; minutes back are infinite on a one-way link. */
  record Link(int line, double fromAlong, double toAlong, int from, int to, boolean oneWay) {
    double km() {
      return (toAlong - fromAlong) / 1000;
    }
  }

  /** A link, or a piece of one, as driven. */
  private static final class Arc extends DefaultWeightedEdge {
    private final int line;
    private final double fromAlong;
    private final double toAlong;

    Arc(int line, double fromAlong, double toAlong) {
      this.line = line;
      this.fromAlong = fromAlong;
      this.toAlong = toAlong;
    }
  }

  private final List<CenterlinePart> lines = new ArrayList<>();
  private final List<TravelTable> travel = new ArrayList<>();
  private final List<String> routeOfLine = new ArrayList<>();
  private final Map<String, List<Integer>> linesOfRoute = new HashMap<>();
  private final SegmentIndex index;
  private final List<Link> links = new ArrayList<>();
  private final int[] firstLinkOfLine;
  private final int nodes;

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

  int nodeCount() {
    return nodes;
  }

  String routeOf(Link link) {
    return routeOfLine.get(link.line);
  }

  double minutes(Link link) {
    return travel.get(link.line).minutes(link.fromAlong, link.toAlong);
  }

  /** How well the roads hang together. */
  public GraphReport report() {
    return Connectivity.report(this);
  }

  private record OnLink(int place, int link, double along) {}

  /**
   * Fastest ways between all places. A place beside the road starts and ends at the nearest place
   * of the road; the way across to it is not counted.
   *
   * @throws IllegalArgumentException when a place names a route the network lacks, or there are no
   *     roads
   */
  public HaulMatrix between(List<HaulPlace> places) {
    int n = places.size();
    double[][] minutes = new double[n][n];
    double[][] km = new double[n][n];
    var graph = graph(places);
    for (int from = 0; from < n; from++) {
      Arrays.fill(minutes[from], Double.POSITIVE_INFINITY);
      Arrays.fill(km[from], Double.POSITIVE_INFINITY);
      double[] kmTo = new double[nodes + n];
      int left = n;
      var nearestFirst = new ClosestFirstIterator<>(graph, nodes + from);
      while (left > 0 && nearestFirst.hasNext()) {
        int node = nearestFirst.next();
        Arc by = nearestFirst.getSpanningTreeEdge(node);
        if (by != null) {
          kmTo[node] = kmTo[graph.getEdgeSource(by)] + Math.abs(by.toAlong - by.fromAlong) / 1000;
        }
        if (node >= nodes) {
          minutes[from][node - nodes] = nearestFirst.getShortestPathLength(node);
          km[from][node - nodes] = kmTo[node];
          left--;
        }
      }
    }
    return new HaulMatrix(minutes, km);
  }

  /** The fastest way as a polyline of {x, y}; empty when there is none. */
  public List<double[]> path(HaulPlace from, HaulPlace to) {
    var graph = graph(List.of(from, to));
    var nearestFirst = new ClosestFirstIterator<>(graph, nodes);
    while (nearestFirst.hasNext()) {
      int reached = nearestFirst.next();
      if (reached == nodes + 1) {
        List<Arc> arcs = new ArrayList<>();
        for (int node = reached; node != nodes; ) {
          Arc by = nearestFirst.getSpanningTreeEdge(node);
          arcs.add(0, by);
          node = graph.getEdgeSource(by);
        }
        return drawn(arcs);
      }
    }
    return List.of();
  }

  private List<double[]> drawn(List<Arc> arcs) {
    List<double[]> points = new ArrayList<>();
    for (Arc arc : arcs) {
      CenterlinePart line = lines.get(arc.line);
      points.add(Piece.at(line, arc.fromAlong));
      double low = Math.min(arc.fromAlong, arc.toAlong);
      double high = Math.max(arc.fromAlong, arc.toAlong);
      List<double[]> inside = new ArrayList<>();
      for (int v = Piece.segmentAt(line, low) + 1; v < line.size() && line.along(v) < high; v++) {
        inside.add(new double[] {line.x(v), line.y(v)});
      }
      if (arc.fromAlong > arc.toAlong) {
        Collections.reverse(inside);
      }
      points.addAll(inside);
      points.add(Piece.at(line, arc.toAlong));
    }
    List<double[]> distinct = new ArrayList<>();
    for (double[] p : points) {
      if (distinct.isEmpty() || !Arrays.equals(p, distinct.get(distinct.size() - 1))) {
        distinct.add(p);
      }
    }
    return distinct;
  }

  /** Nodes are numbered 0 on, places after them; links that hold places are cut there. */
  private DirectedWeightedPseudograph<Integer, Arc> graph(List<HaulPlace> places) {
    var graph = new DirectedWeightedPseudograph<Integer, Arc>(Arc.class);
    for (int node = 0; node < nodes + places.size(); node++) {
      graph.addVertex(node);
    }
    Map<Integer, List<OnLink>> onLinks = new LinkedHashMap<>();
    for (int i = 0; i < places.size(); i++) {
      OnLink on = locate(i, places.get(i));
      onLinks.computeIfAbsent(on.link, l -> new ArrayList<>()).add(on);
    }
    for (int i = 0; i < links.size(); i++) {
      Link link = links.get(i);
      List<OnLink> on = onLinks.getOrDefault(i, List.of());
      TreeMap<Double, List<OnLink>> byAlong = new TreeMap<>();
      on.forEach(o -> byAlong.computeIfAbsent(o.along, a -> new ArrayList<>()).add(o));
      double along = link.fromAlong;
      int node = link.from;
      for (List<OnLink> here : byAlong.values()) {
        for (OnLink place : here) {
          addArcs(graph, link, node, nodes + place.place, along, place.along);
          along = place.along;
          node = nodes + place.place;
        }
      }
      addArcs(graph, link, node, link.to, along, link.toAlong);
    }
    letPlacesAtOneSpotMeet(graph, onLinks);
    return graph;
  }

  private void addArcs(
      DirectedWeightedPseudograph<Integer, Arc> graph,
      Link link,
      int a,
      int b,
      double fromAlong,
      double toAlong) {
    double minutes = travel.get(link.line).minutes(fromAlong, toAlong);
    Arc forward = new Arc(link.line, fromAlong, toAlong);
    graph.addEdge(a, b, forward);
    graph.setEdgeWeight(forward, minutes);
    if (!link.oneWay) {
      Arc back = new Arc(link.line, toAlong, fromAlong);
      graph.addEdge(b, a, back);
      graph.setEdgeWeight(back, minutes);
    }
  }

  /** On a one-way link two places at the same spot would else be a whole detour apart. */
  private void letPlacesAtOneSpotMeet(
      DirectedWeightedPseudograph<Integer, Arc> graph, Map<Integer, List<OnLink>> onLinks) {
    onLinks.forEach(
        (number, on) -> {
          Link link = links.get(number);
          List<OnLink> sorted = new ArrayList<>(on);
          sorted.sort(Comparator.comparingDouble(OnLink::along));
          double along = link.fromAlong;
          int node = link.from;
          for (OnLink place : sorted) {
            if (link.oneWay && place.along == along) {
              Arc back = new Arc(link.line, along, along);
              graph.addEdge(nodes + place.place, node, back);
              graph.setEdgeWeight(back, 0);
            }
            along = place.along;
            node = nodes + place.place;
          }
          if (link.oneWay && along == link.toAlong) {
            Arc back = new Arc(link.line, along, along);
            graph.addEdge(link.to, node, back);
            graph.setEdgeWeight(back, 0);
          }
        });
  }

  private OnLink locate(int place, HaulPlace at) {
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
    int link = firstLinkOfLine[line];
    while (link + 1 < firstLinkOfLine[line + 1] && links.get(link).toAlong < along) {
      link++;
    }
    return new OnLink(place, link, atJunction(links.get(link), along));
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
