package lanemend.crewdays;

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
}
