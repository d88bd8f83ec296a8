package lanemend.network;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;

/** Cuts lines where the end of another touches their middle on the same level. */
final class LineSplitter {
  private final LineCleaner nodes;

  LineSplitter(LineCleaner nodes) {
    this.nodes = nodes;
  }

  /** All lines as pieces between shared nodes. A line is not cut by its own ends. */
  List<Piece> split(List<CleanLine> lines, boolean filler) {
    SegmentIndex index = new SegmentIndex(lines.stream().map(CleanLine::geometry).toList());
    List<NavigableMap<Double, Integer>> cuts = new ArrayList<>();
    lines.forEach(line -> cuts.add(new TreeMap<>()));
    for (int i = 0; i < lines.size(); i++) {
      CleanLine line = lines.get(i);
      for (int node : new int[] {line.startNode(), line.endNode()}) {
        double[] p = nodes.node(node);
        for (SegmentIndex.Foot foot : index.near(p[0], p[1], LineCleaner.SNAP_M)) {
          CleanLine other = lines.get(foot.line());
          boolean inside =
              foot.alongM() > LineCleaner.SNAP_M
                  && foot.alongM() < other.lengthM() - LineCleaner.SNAP_M;
          if (foot.line() != i
              && inside
              && node != other.startNode()
              && node != other.endNode()
              && other.source().level() == line.source().level()) {
            addCut(cuts.get(foot.line()), foot.alongM(), node);
          }
        }
      }
    }
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      cutInto(lines.get(i), cuts.get(i), filler, pieces);
    }
    return pieces;
  }

  private static void addCut(NavigableMap<Double, Integer> cuts, double along, int node) {
    double close = 2 * LineCleaner.SNAP_M;
    boolean known =
        cuts.subMap(along - close, true, along + close, true).containsValue(node)
            || !cuts.subMap(along - 0.01, true, along + 0.01, true).isEmpty();
    if (!known) {
      cuts.put(along, node);
    }
  }

  private void cutInto(
      CleanLine line, NavigableMap<Double, Integer> cuts, boolean filler, List<Piece> pieces) {
    double from = 0;
    int fromNode = line.startNode();
    for (Map.Entry<Double, Integer> cut : cuts.entrySet()) {
      pieces.add(piece(line, from, cut.getKey(), fromNode, cut.getValue(), filler));
      from = cut.getKey();
      fromNode = cut.getValue();
    }
    pieces.add(piece(line, from, line.lengthM(), fromNode, line.endNode(), filler));
  }

  private Piece piece(
      CleanLine line, double from, double to, int fromNode, int toNode, boolean filler) {
    CenterlinePart shape = line.geometry();
    if (from > 0 || to < line.lengthM()) {
      shape = Piece.cut(shape, from, to);
      shape = Piece.withEnds(shape, nodes.node(fromNode), nodes.node(toNode));
    }
    return new Piece(line, shape, fromNode, toNode, line.source().oneWay(), filler);
  }
}
