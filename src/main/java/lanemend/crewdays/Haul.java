package lanemend.crewdays;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lanemend.network.HaulGraph;
import lanemend.network.HaulMatrix;
import lanemend.network.HaulPlace;

/** Driving between places at legal speed; {@code network.HaulGraph} answers it. */
@FunctionalInterface
public interface Haul {

  /**
   * A place trucks drive from or to; projected coordinates.
   *
   * @param routeId route it lies on, or empty when it is joined to the nearest road
   */
  record Place(String label, double x, double y, String routeId, double alongM) {}

  /** Minutes and kilometres, by from and to; infinite where there is no road. */
  record Legs(double[][] minutes, double[][] km) {}

  /** Drives from each of {@code from} to each of {@code to}. */
  Legs between(List<Place> from, List<Place> to);

  /** Driving over a county's roads. */
  static Haul over(HaulGraph roads) {
    return (from, to) -> {
      List<HaulPlace> all = new ArrayList<>();
      from.forEach(p -> all.add(haulPlace(p)));
      boolean same = from.equals(to);
      if (!same) {
        to.forEach(p -> all.add(haulPlace(p)));
      }
      HaulMatrix matrix = roads.between(all);
      int first = same ? 0 : from.size();
      return new Legs(
          block(matrix.minutes(), from.size(), first, to.size()),
          block(matrix.km(), from.size(), first, to.size()));
    };
  }

  private static HaulPlace haulPlace(Place p) {
    return new HaulPlace(p.label(), p.x(), p.y(), p.routeId(), p.alongM());
  }

  private static double[][] block(double[][] table, int rows, int firstColumn, int columns) {
    double[][] block = new double[rows][];
    for (int i = 0; i < rows; i++) {
      block[i] = Arrays.copyOfRange(table[i], firstColumn, firstColumn + columns);
    }
    return block;
  }
}
