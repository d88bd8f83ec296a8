package lanemend.county;

import java.util.ArrayList;
import java.util.List;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.HaulGraph;

/**
 * Yards, plants and stockpiles so far from every road that the way across, which is not counted,
 * would make the haul wrong: a wrong coordinate, or a plant beyond the roads that were imported.
 */
public final class OffRoadPlaces {
  /** A mile, longer than a yard's or plant's own drive. Common practice, no source. */
  private static final double FAR_M = 1_609.344;

  private OffRoadPlaces() {}

  /** One sentence for each. */
  public static List<String> of(Agency agency, HaulGraph roads) {
    List<String> far = new ArrayList<>();
    for (Yard yard : agency.yards()) {
      note("yard " + yard.id(), yard.x(), yard.y(), roads, agency.units(), far);
    }
    for (Plant plant : agency.plants()) {
      note("plant " + plant.id(), plant.x(), plant.y(), roads, agency.units(), far);
    }
    return far;
  }

  private static void note(
      String place, double x, double y, HaulGraph roads, UnitSystem units, List<String> far) {
    double m = roads.besideM(x, y);
    if (m > FAR_M) {
      far.add(
          place
              + " lies "
              + units.show(m, Unit.ROAD_METER).text()
              + " from the nearest road and the way across is not counted: look at its longitude and"
              + " latitude, or import the roads there");
    }
  }
}
