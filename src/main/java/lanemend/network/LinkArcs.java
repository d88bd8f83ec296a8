package lanemend.network;

import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Links as they may be driven, packed: the arcs out of node {@code n} are numbered {@code first[n]}
 * up to, not including, {@code first[n + 1]}.
 *
 * @param head node each arc leads to
 * @param link link each arc drives along, {@code ~link} when against its drawing
 */
record LinkArcs(int[] first, int[] head, int[] link, double[] minutes, double[] km) {

  /**
   * Packs links.
   *
   * @param reversed every arc turned round: searches then find ways to a place, not from it
   */
  static LinkArcs of(
      List<HaulGraph.Link> links,
      int nodes,
      ToDoubleFunction<HaulGraph.Link> minutes,
      boolean reversed) {
    int[] first = new int[nodes + 1];
    int count = 0;
    for (HaulGraph.Link link : links) {
      if (!link.oneWay() || !reversed) {
        first[link.from() + 1]++;
        count++;
      }
      if (!link.oneWay() || reversed) {
        first[link.to() + 1]++;
        count++;
      }
    }
    for (int n = 0; n < nodes; n++) {
      first[n + 1] += first[n];
    }
    int[] next = first.clone();
    LinkArcs arcs =
        new LinkArcs(first, new int[count], new int[count], new double[count], new double[count]);
    for (int i = 0; i < links.size(); i++) {
      HaulGraph.Link link = links.get(i);
      double time = minutes.applyAsDouble(link);
      if (!link.oneWay() || !reversed) {
        arcs.put(next[link.from()]++, link.to(), reversed ? ~i : i, time, link.km());
      }
      if (!link.oneWay() || reversed) {
        arcs.put(next[link.to()]++, link.from(), reversed ? i : ~i, time, link.km());
      }
    }
    return arcs;
  }

  private void put(int arc, int to, int by, double time, double length) {
    head[arc] = to;
    link[arc] = by;
    minutes[arc] = time;
    km[arc] = length;
  }
}
