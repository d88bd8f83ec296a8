package lanemend.network;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jgrapht.alg.connectivity.KosarajuStrongConnectivityInspector;
import org.jgrapht.alg.util.UnionFind;
import org.jgrapht.graph.DefaultEdge;
import org.jgrapht.graph.DirectedPseudograph;

/** Works out which roads hang together. */
final class Connectivity {
  private Connectivity() {}

  static GraphReport report(HaulGraph graph) {
    Set<Integer> nodes = IntStream.range(0, graph.nodeCount()).boxed().collect(Collectors.toSet());
    UnionFind<Integer> joined = new UnionFind<>(nodes);
    graph.links().forEach(link -> joined.union(link.from(), link.to()));
    Map<Integer, Double> kmOfPart = new TreeMap<>();
    graph.links().forEach(l -> kmOfPart.merge(joined.find(l.from()), l.km(), Double::sum));
    double all = kmOfPart.values().stream().mapToDouble(d -> d).sum();
    if (kmOfPart.isEmpty()) {
      return new GraphReport(0, 0, 0, 0, 0, List.of(), 0);
    }
    int largest =
        kmOfPart.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
    Set<String> outside = new TreeSet<>();
    Set<String> inside = new TreeSet<>();
    for (HaulGraph.Link link : graph.links()) {
      (joined.find(link.from()) == largest ? inside : outside).add(graph.routeOf(link));
    }
    outside.removeAll(inside);
    outside.remove("");
    return new GraphReport(
        graph.nodeCount(),
        graph.links().size(),
        all,
        joined.numberOfSets(),
        kmOfPart.get(largest) / all,
        List.copyOf(outside),
        trapKm(graph, joined, largest));
  }

  /** Length in the largest part whose ends are not both in its largest drivable core. */
  private static double trapKm(HaulGraph graph, UnionFind<Integer> joined, int largest) {
    var directed = new DirectedPseudograph<Integer, DefaultEdge>(DefaultEdge.class);
    for (int node = 0; node < graph.nodeCount(); node++) {
      directed.addVertex(node);
    }
    for (HaulGraph.Link link : graph.links()) {
      directed.addEdge(link.from(), link.to());
      if (!link.oneWay()) {
        directed.addEdge(link.to(), link.from());
      }
    }
    Map<Integer, Integer> coreOf = new HashMap<>();
    int number = 0;
    for (Set<Integer> core :
        new KosarajuStrongConnectivityInspector<>(directed).stronglyConnectedSets()) {
      int id = number++;
      core.forEach(node -> coreOf.put(node, id));
    }
    Map<Integer, Double> kmOfCore = new TreeMap<>();
    double inPart = 0;
    for (HaulGraph.Link link : graph.links()) {
      if (joined.find(link.from()) == largest) {
        inPart += link.km();
        if (coreOf.get(link.from()).equals(coreOf.get(link.to()))) {
          kmOfCore.merge(coreOf.get(link.from()), link.km(), Double::sum);
        }
      }
    }
    return inPart - kmOfCore.values().stream().max(Comparator.naturalOrder()).orElse(0.0);
  }
}
