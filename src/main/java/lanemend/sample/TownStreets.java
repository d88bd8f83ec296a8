package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;
import lanemend.sample.Terrain.Town;

/** Town streets without route numbers: a few blocks each way, ragged at the edges. */
final class TownStreets {
  private static final double BLOCK_ALONG_M = 125;
  private static final double BLOCK_ACROSS_M = 95;

  /** Clear of a state route that leaves a town, so that no street runs beside it. */
  private static final double CLEAR_M = 40;

  private TownStreets() {}

  static List<Draft> draw(Terrain terrain, Nearby state, Dice dice) {
    List<Draft> out = new ArrayList<>();
    for (Town t : terrain.towns()) {
      int along = t.blocksAlong() / 2;
      int across = t.blocksAcross() / 2;
      for (int k = -across; k <= across; k++) {
        street(t, true, k, -along, along, state, dice, out);
      }
      for (int k = -along; k <= along; k++) {
        street(t, false, k, -across, across, state, dice, out);
      }
    }
    return out;
  }

  private static void street(
      Town town,
      boolean along,
      int offset,
      int from,
      int to,
      Nearby state,
      Dice dice,
      List<Draft> out) {
    int ragged = StrictMath.abs(offset) / 2;
    int first = from + (ragged > 0 ? dice.below(ragged + 1) : 0);
    int last = to - (ragged > 0 ? dice.below(ragged + 1) : 0);
    List<Pt> points = new ArrayList<>();
    for (int k = first; k <= last; k++) {
      points.add(along ? corner(town, k, offset) : corner(town, offset, k));
    }
    if (points.size() < 3 || besideState(points, state)) {
      return;
    }
    out.add(Draft.twoWay(Kind.STREET, "", RoadClass.LOCAL, points));
  }

  private static Pt corner(Town t, int along, int across) {
    return t.middle()
        .step(t.axis(), along * BLOCK_ALONG_M)
        .step(t.axis() + StrictMath.PI / 2, across * BLOCK_ACROSS_M);
  }

  /** True when more than one corner lies by a state route: the street would double it. */
  private static boolean besideState(List<Pt> points, Nearby state) {
    int close = 0;
    for (Pt p : points) {
      close += state.vertex(p, CLEAR_M) != null ? 1 : 0;
    }
    return close > 1;
  }
}
