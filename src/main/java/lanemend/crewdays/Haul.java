package lanemend.crewdays;

import java.util.List;
import lanemend.network.HaulGraph;
import lanemend.network.HaulMatrix;
import lanemend.network.HaulPlace;

/** Driving between places at legal speed; {@code network.HaulGraph} answers it. */
@FunctionalInterface
public interface Haul {

  /** Takes drives from one place to several; asked from several threads at once. */
  @FunctionalInterface
  interface Row {
    /** Minutes and kilometres by place; to be copied, for the arrays are used again. */
    void take(int from, double[] minutes, double[] km);
  }

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

  /** Hands the same drives out row by row, for tables too large to stand in memory twice. */
  default void each(List<Place> from, List<Place> to, Row row) {
    Legs legs = between(from, to);
    for (int i = 0; i < from.size(); i++) {
      row.take(i, legs.minutes()[i], legs.km()[i]);
    }
  }

  /** Driving over a county's roads. */
  static Haul over(HaulGraph roads) {
    return new Haul() {
      @Override
      public Legs between(List<Place> from, List<Place> to) {
        HaulMatrix matrix = roads.between(haulPlaces(from), haulPlaces(to));
        return new Legs(matrix.minutes(), matrix.km());
      }

      @Override
      public void each(List<Place> from, List<Place> to, Row row) {
        roads.each(haulPlaces(from), haulPlaces(to), row::take);
      }
    };
  }

  private static List<HaulPlace> haulPlaces(List<Place> places) {
    return places.stream()
        .map(p -> new HaulPlace(p.label(), p.x(), p.y(), p.routeId(), p.alongM()))
        .toList();
  }
}
