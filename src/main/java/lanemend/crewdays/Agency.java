package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import lanemend.measure.UnitSystem;
import lanemend.patching.LearnedFactors;

/**
 * An agency's own facts: where it works from, with whom and with what.
 *
 * @param plants hot mix plants and stockpiles of cold mix
 * @param forecast weather foretold for the plan's dates
 */
public record Agency(
    String name,
    UnitSystem units,
    List<Yard> yards,
    List<Plant> plants,
    List<Crew> crews,
    List<EquipmentUnit> equipment,
    PlanSettings plan,
    Forecast forecast) {
  public Agency {
    yards = List.copyOf(yards);
    plants = List.copyOf(plants);
    crews = List.copyOf(crews);
    equipment = List.copyOf(equipment);
  }

  /** An agency without a forecast. */
  public Agency(
      String name,
      UnitSystem units,
      List<Yard> yards,
      List<Plant> plants,
      List<Crew> crews,
      List<EquipmentUnit> equipment,
      PlanSettings plan) {
    this(name, units, yards, plants, crews, equipment, plan, Forecast.NONE);
  }

  /**
   * The same agency planning another stretch of the calendar.
   *
   * @param from first day, or null to keep the agency's
   * @param calendarDays or null to keep the agency's
   */
  public Agency withHorizon(LocalDate from, Integer calendarDays) {
    return planning(
        plan.over(
            from == null ? plan.firstDay() : from,
            calendarDays == null ? plan.calendarDays() : calendarDays));
  }

  /** The same agency with other settings. */
  public Agency planning(PlanSettings settings) {
    return new Agency(name, units, yards, plants, crews, equipment, settings, forecast);
  }

  /** The same agency with these days off, and no others, for each crew. */
  public Agency withDaysOff(Function<Crew, Set<LocalDate>> off) {
    return new Agency(
        name,
        units,
        yards,
        plants,
        crews.stream().map(c -> c.off(off.apply(c))).toList(),
        equipment,
        plan,
        forecast);
  }

  /** The same agency with crews as these factors have them. */
  public Agency withLearned(LearnedFactors learned) {
    List<Crew> own = crews.stream().map(c -> c.learned(CrewPace.of(c.id(), learned))).toList();
    return new Agency(name, units, yards, plants, own, equipment, plan, forecast);
  }

  /** The same agency with weather foretold. */
  public Agency withForecast(Forecast told) {
    return new Agency(name, units, yards, plants, crews, equipment, plan, told);
  }
}
