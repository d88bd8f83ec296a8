package lanemend.renewal.sections;

import java.util.List;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * A stretch of even behaviour, long enough to be a project.
 *
 * @param firstCell number of its first cell on the route
 * @param endCell number of the cell after its last
 * @param repairs under the surface now in place
 * @param expected of its families and ages
 * @param laneYears lane-years watched, by whole cells
 */
public record Section(
    String routeId,
    int firstCell,
    int endCell,
    double fromAlongM,
    double toAlongM,
    int repairs,
    double expected,
    double laneYears) {

  public double lengthM() {
    return toAlongM - fromAlongM;
  }

  /** Repairs per lane mile and year, 0 where nothing was watched. */
  public Figure rate() {
    double cellM = lengthM() / (endCell - firstCell);
    double laneMileYears = laneYears * cellM / Conversion.M_PER_MILE;
    return new Figure(
        "repairs per lane mile and year",
        laneMileYears == 0 ? 0 : repairs / laneMileYears,
        Unit.RATIO,
        "repairs / lane-mile-years watched",
        List.of(
            new Figure.Input("repairs", repairs, Unit.COUNT),
            new Figure.Input("lane-mile-years", laneMileYears, Unit.YEAR),
            new Figure.Input("length", lengthM(), Unit.ROAD_METER)),
        "counted from the records");
  }
}
