package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Conversion;

/** The whole road network on the drawing board, before it is cut into lines. */
final class Board {
  private static final double HILL_SHARE = 0.2;

  private Board() {}

  /** Draws every road of a county; the miles come within a road's length of those wanted. */
  static List<Draft> draw(SampleSize size, Terrain terrain, Dice dice) {
    List<Draft> state = StateRoads.draw(terrain, dice.fork());
    Nearby built = new Nearby();
    for (int i = 0; i < state.size(); i++) {
      built.add(i, state.get(i).points());
    }
    List<Draft> all = new ArrayList<>(state);
    List<Draft> streets = TownStreets.draw(terrain, built, dice.fork());
    all.addAll(
        HillRoads.draw(
            terrain, state, built, all.size(), size.roadMiles() * HILL_SHARE, dice.fork()));
    double left = size.roadMiles() - miles(all) - miles(streets);
    all.addAll(CountyRoads.draw(terrain, state, built, all.size(), left, dice.fork()));
    all.addAll(streets);
    List<Draft> out = new ArrayList<>();
    for (Draft d : all) {
      out.add(d.name().equals(StateRoads.SHARING) ? d : d.usual());
    }
    return out;
  }

  /** Road miles: the two roadways of a divided road count once. */
  static double miles(List<Draft> drafts) {
    double m = 0;
    for (Draft d : drafts) {
      m += d.lengthM() * d.countedShare();
    }
    return m / Conversion.M_PER_MILE;
  }
}
