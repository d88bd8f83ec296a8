package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Set;
import lanemend.patching.Treatment;

/**
 * A crew and its working day.
 *
 * @param trucks haul trucks it has at most
 * @param costPerHour people and machines, trucks apart
 * @param does treatments it is equipped for
 * @param daysOff dates besides weekends on which it does not work
 * @param pace what was learned of it; its cost is in {@code costPerHour} already
 */
public record Crew(
    String id,
    String name,
    String yardId,
    LocalTime shiftStart,
    int shiftMinutes,
    int trucks,
    BigDecimal costPerHour,
    Set<Treatment> does,
    Set<LocalDate> daysOff,
    CrewPace pace) {
  public Crew {
    does = Set.copyOf(does);
    daysOff = Set.copyOf(daysOff);
  }

  /** A crew of which nothing was learned. */
  public Crew(
      String id,
      String name,
      String yardId,
      LocalTime shiftStart,
      int shiftMinutes,
      int trucks,
      BigDecimal costPerHour,
      Set<Treatment> does,
      Set<LocalDate> daysOff) {
    this(
        id,
        name,
        yardId,
        shiftStart,
        shiftMinutes,
        trucks,
        costPerHour,
        does,
        daysOff,
        CrewPace.NONE);
  }

  /** The same crew off on these days. */
  Crew off(Set<LocalDate> days) {
    return new Crew(
        id, name, yardId, shiftStart, shiftMinutes, trucks, costPerHour, does, days, pace);
  }

  /** The same crew with what was learned of it. */
  Crew learned(CrewPace own) {
    return new Crew(
        id,
        name,
        yardId,
        shiftStart,
        shiftMinutes,
        trucks,
        own.hourCost(costPerHour),
        does,
        daysOff,
        own);
  }
}
