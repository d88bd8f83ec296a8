package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import lanemend.measure.UnitSystem;

/** An agency's own facts: where it works from, with whom and with what. */
public record Agency(
    String name,
    UnitSystem units,
    List<Yard> yards,
    List<Plant> plants,
    List<Crew> crews,
    List<EquipmentUnit> equipment,
    PlanSettings plan) {
  public Agency {
    yards = List.copyOf(yards);
    plants = List.copyOf(plants);
    crews = List.copyOf(crews);
    equipment = List.copyOf(equipment);
  }

  /**
   * The same agency planning another stretch of the calendar.
   *
   * @param from first day, or null to keep the agency's
   * @param calendarDays or null to keep the agency's
   */
  public Agency withHorizon(LocalDate from, Integer calendarDays) {
    PlanSettings p = plan;
    return new Agency(
        name,
        units,
        yards,
        plants,
        crews,
        equipment,
        new PlanSettings(
            from == null ? p.firstDay() : from,
            calendarDays == null ? p.calendarDays() : calendarDays,
            p.workdays(),
            p.blackout(),
            p.dueDays(),
            p.dueFactor(),
            p.maxZoneM(),
            p.truckPayloadTonnes(),
            p.truckSpeedFactor(),
            p.dumpMinutes(),
            p.truckCostPerHour(),
            p.costPerKm(),
            p.delayCostPerVehicleHour(),
            p.latePerDay(),
            p.currency()));
  }
}
