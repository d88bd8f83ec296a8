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
    Set<LocalDate> daysOff) {
  public Crew {
    does = Set.copyOf(does);
    daysOff = Set.copyOf(daysOff);
  }
}
