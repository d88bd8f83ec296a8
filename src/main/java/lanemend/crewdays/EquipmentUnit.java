package lanemend.crewdays;

import java.time.LocalDate;
import java.util.Set;
import lanemend.patching.Equipment;

/** One machine that crews share, with the dates it is out of service. */
public record EquipmentUnit(String id, Equipment kind, Set<LocalDate> outOfService) {
  public EquipmentUnit {
    outOfService = Set.copyOf(outOfService);
  }
}
