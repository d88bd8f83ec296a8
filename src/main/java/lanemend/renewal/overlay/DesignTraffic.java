package lanemend.renewal.overlay;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Loads of the design lane.
 *
 * @param aadt vehicles a day, all lanes and both directions of what was counted
 * @param truckShare of the vehicles
 * @param loadsPerTruck equivalent axle loads of a mean truck (truck factor)
 * @param directionShare of the trucks in the heavier direction; 1 where one direction was counted
 * @param laneShare of that direction's trucks in the design lane
 * @param growth yearly, for instance 0.02
 * @param years design period
 */
public record DesignTraffic(
    double aadt,
    double truckShare,
    double loadsPerTruck,
    double directionShare,
    double laneShare,
    double growth,
    int years) {

  public DesignTraffic {
    if (!(aadt > 0) || !(truckShare > 0) || !(loadsPerTruck > 0) || years < 1) {
      throw new IllegalArgumentException(
          "%s vehicles a day, truck share %s, %s loads a truck, %d years"
              .formatted(aadt, truckShare, loadsPerTruck, years));
    }
  }

  /** W18 of the design lane over the design period. */
  public Figure loads() {
    double factor = growth == 0 ? years : Math.expm1(years * Math.log1p(growth)) / growth;
    return new Figure(
        "W18",
        aadt * truckShare * loadsPerTruck * directionShare * laneShare * 365 * factor,
        Unit.COUNT,
        "AADT T f D L 365 ((1+g)^n - 1)/g",
        List.of(
            new Figure.Input("AADT", aadt, Unit.VEHICLES_PER_DAY),
            new Figure.Input("truck share T", truckShare, Unit.RATIO),
            new Figure.Input("loads per truck f", loadsPerTruck, Unit.RATIO),
            new Figure.Input("direction share D", directionShare, Unit.RATIO),
            new Figure.Input("lane share L", laneShare, Unit.RATIO),
            new Figure.Input("growth g", growth, Unit.RATIO),
            new Figure.Input("years n", years, Unit.YEAR)),
        "AASHTO Guide 1993, part II and appendix D (from memory)");
  }
}
