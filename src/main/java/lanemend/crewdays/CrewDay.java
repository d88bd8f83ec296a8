package lanemend.crewdays;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.OptionalDouble;
import lanemend.measure.Figure;

/**
 * One crew's day: yard, zones in order, yard.
 *
 * @param plantId where mix comes from, or empty when none is needed
 * @param trucks haul trucks for the day
 * @param tonnes mix to order
 * @param figures haul, truck count, hours and cost, each traced
 */
public record CrewDay(
    LocalDate date,
    Crew crew,
    String plantId,
    int trucks,
    List<Stop> stops,
    LocalTime leaveYard,
    LocalTime backAtYard,
    double tonnes,
    double driveKm,
    List<Figure> figures) {

  /**
   * A zone at its time.
   *
   * @param driveMinutes from the place before
   * @param firstLoadLeavesPlant null when no mix is needed
   * @param figures haul and truck figures of this zone
   */
  public record Stop(
      WorkZone zone,
      double driveMinutes,
      LocalTime arrive,
      LocalTime depart,
      LocalTime firstLoadLeavesPlant,
      List<Figure> figures) {}

  /** Chance, 0 to 1, of being back inside the shift; empty when no figure says so. */
  public OptionalDouble finishProbability() {
    return figures.stream()
        .filter(f -> f.name().equals(DayFigureName.FINISH))
        .mapToDouble(f -> f.value() / 100)
        .findFirst();
  }

  public CrewDay {
    stops = List.copyOf(stops);
    figures = List.copyOf(figures);
  }
}
