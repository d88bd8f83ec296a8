package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Map;
import java.util.Set;
import lanemend.inventory.Severity;
import lanemend.network.RoadClass;

/**
 * What the agency asks of a plan.
 *
 * @param firstDay first calendar day that may be worked
 * @param calendarDays how many calendar days the plan may use
 * @param workdays days of the week worked
 * @param blackout dates nobody works
 * @param dueDays days from finding to due date, by severity
 * @param dueFactor multiplies due days by road class
 * @param maxZoneM longest work zone by road class
 * @param truckPayloadTonnes one truck's load
 * @param truckSpeedFactor truck speed as a share of the legal speed
 * @param dumpMinutes spot and dump of one truck
 * @param truckCostPerHour one truck with driver
 * @param costPerKm of the crew's convoy on the road
 * @param delayCostPerVehicleHour road-user delay
 * @param latePerDay cost of each day a defect is repaired after its due date
 * @param currency ISO 4217 code of every amount
 * @param finish how sure a day must be to end inside its shift
 * @param season when hot mix is laid and how weather counts
 */
public record PlanSettings(
    LocalDate firstDay,
    int calendarDays,
    Set<DayOfWeek> workdays,
    Set<LocalDate> blackout,
    Map<Severity, Integer> dueDays,
    Map<RoadClass, Double> dueFactor,
    Map<RoadClass, Double> maxZoneM,
    double truckPayloadTonnes,
    double truckSpeedFactor,
    double dumpMinutes,
    BigDecimal truckCostPerHour,
    BigDecimal costPerKm,
    BigDecimal delayCostPerVehicleHour,
    BigDecimal latePerDay,
    String currency,
    FinishRule finish,
    WorkSeason season) {

  /** Settings that ask for no chance of finishing and take every date as dry and warm. */
  public PlanSettings(
      LocalDate firstDay,
      int calendarDays,
      Set<DayOfWeek> workdays,
      Set<LocalDate> blackout,
      Map<Severity, Integer> dueDays,
      Map<RoadClass, Double> dueFactor,
      Map<RoadClass, Double> maxZoneM,
      double truckPayloadTonnes,
      double truckSpeedFactor,
      double dumpMinutes,
      BigDecimal truckCostPerHour,
      BigDecimal costPerKm,
      BigDecimal delayCostPerVehicleHour,
      BigDecimal latePerDay,
      String currency) {
    this(
        firstDay,
        calendarDays,
        workdays,
        blackout,
        dueDays,
        dueFactor,
        maxZoneM,
        truckPayloadTonnes,
        truckSpeedFactor,
        dumpMinutes,
        truckCostPerHour,
        costPerKm,
        delayCostPerVehicleHour,
        latePerDay,
        currency,
        FinishRule.NONE,
        WorkSeason.NONE);
  }

  /** The same over other dates. */
  public PlanSettings over(LocalDate from, int days) {
    return with(from, days, finish, season);
  }

  /** The same with another rule for finishing and another season. */
  public PlanSettings under(FinishRule rule, WorkSeason weather) {
    return with(firstDay, calendarDays, rule, weather);
  }

  private PlanSettings with(LocalDate from, int days, FinishRule rule, WorkSeason weather) {
    return new PlanSettings(
        from,
        days,
        workdays,
        blackout,
        dueDays,
        dueFactor,
        maxZoneM,
        truckPayloadTonnes,
        truckSpeedFactor,
        dumpMinutes,
        truckCostPerHour,
        costPerKm,
        delayCostPerVehicleHour,
        latePerDay,
        currency,
        rule,
        weather);
  }
}
