package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.DirectedWeightedPseudograph;
import org.jgrapht.traverse.ClosestFirstIterator;

/**
 * Fastest ways by JGraphT, as an oracle: every place is cut into its link as a node of its own, and
 * the library's search runs over the cut graph.
 */
final class JgraphtWays {
  private static final class Arc extends DefaultWeightedEdge {
    private double km;
  }

  private final DirectedWeightedPseudograph<Integer, Arc> graph =
      new DirectedWeightedPseudograph<>(Arc.class);
  private final int nodes;
  private final int places;

  JgraphtWays(HaulGraph roads, List<HaulPlace> at) {
    nodes = roads.nodeCount();
    places = at.size();
    for (int node = 0; node < nodes + places; node++) {
      graph.addVertex(node);
    }
    List<List<Integer>> onLink = new ArrayList<>();
    roads.links().forEach(link -> onLink.add(new ArrayList<>()));
    PlaceOnLink[] on = at.stream().map(roads::locate).toArray(PlaceOnLink[]::new);
    for (int i = 0; i < places; i++) {
      onLink.get(on[i].link()).add(i);
    }
    for (int l = 0; l < onLink.size(); l++) {
      HaulGraph.Link link = roads.links().get(l);
      onLink.get(l).sort(Comparator.comparingDouble(i -> on[i].along()));
      int node = link.from();
      double along = link.fromAlong();
      double minutes = 0;
      for (int i : onLink.get(l)) {
        join(link, node, nodes + i, on[i].along() - along, on[i].fromMinutes() - minutes);
        node = nodes + i;
        along = on[i].along();
        minutes = on[i].fromMinutes();
      }
      join(link, node, link.to(), link.toAlong() - along, roads.minutes(link) - minutes);
    }
  }

  /** Places at one spot reach each other on a one-way link too. */
  private void join(HaulGraph.Link link, int a, int b, double metres, double minutes) {
    arc(a, b, metres, minutes);
    if (!link.oneWay() || metres == 0) {
      arc(b, a, metres, minutes);
    }
  }

  private void arc(int a, int b, double metres, double minutes) {
    Arc arc = new Arc();
    arc.km = metres / 1000;
    graph.addEdge(a, b, arc);
    graph.setEdgeWeight(arc, Math.max(0, minutes));
  }

  HaulMatrix matrix() {
    double[][] minutes = new double[places][places];
    double[][] km = new double[places][places];
    for (int from = 0; from < places; from++) {
      Arrays.fill(minutes[from], Double.POSITIVE_INFINITY);
      Arrays.fill(km[from], Double.POSITIVE_INFINITY);
      double[] kmTo = new double[nodes + places];
      var nearestFirst = new ClosestFirstIterator<>(graph, nodes + from);
      while (nearestFirst.hasNext()) {
        int node = nearestFirst.next();
        Arc by = nearestFirst.getSpanningTreeEdge(node);
        kmTo[node] = by == null ? 0 : kmTo[graph.getEdgeSource(by)] + by.km;
        if (node >= nodes) {
          minutes[from][node - nodes] = nearestFirst.getShortestPathLength(node);
          km[from][node - nodes] = kmTo[node];
        }
      }
    }
    return new HaulMatrix(minutes, km);
  }
}
