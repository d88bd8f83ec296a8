package lanemend.bench.county;

import ai.timefold.solver.core.api.domain.entity.PlanningEntity;
import ai.timefold.solver.core.api.domain.solution.PlanningEntityCollectionProperty;
import ai.timefold.solver.core.api.domain.solution.PlanningScore;
import ai.timefold.solver.core.api.domain.solution.PlanningSolution;
import ai.timefold.solver.core.api.domain.valuerange.ValueRangeProvider;
import ai.timefold.solver.core.api.domain.variable.InverseRelationShadowVariable;
import ai.timefold.solver.core.api.domain.variable.PlanningListVariable;
import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import java.util.ArrayList;
import java.util.List;
import lanemend.crewdays.CountyCase;

/** The case in the words of Timefold: each crew day has a list of zones. */
@PlanningSolution
public class CrewDays {
  CountyCase county;

  @PlanningEntityCollectionProperty List<Slot> slots;

  @PlanningEntityCollectionProperty @ValueRangeProvider List<Zone> zones;

  @PlanningScore HardSoftLongScore score;

  /** A work zone. */
  @PlanningEntity
  public static class Zone {
    int number;

    @InverseRelationShadowVariable(sourceVariableName = "zones")
    Slot slot;

    @Override
    public String toString() {
      return "zone " + number;
    }
  }

  /** One day of a crew. */
  @PlanningEntity
  public static class Slot {
    int number;
    int crew;
    int date;

    @PlanningListVariable(allowsUnassignedValues = true)
    List<Zone> zones = new ArrayList<>();

    @Override
    public String toString() {
      return "crew " + crew + " on " + date;
    }
  }

  static CrewDays empty(CountyCase county) {
    CrewDays empty = new CrewDays();
    empty.county = county;
    empty.slots = new ArrayList<>();
    empty.zones = new ArrayList<>();
    for (int z = 0; z < county.zones(); z++) {
      Zone zone = new Zone();
      zone.number = z;
      empty.zones.add(zone);
    }
    for (int crew = 0; crew < county.crews().length; crew++) {
      for (int date : county.crews()[crew].dates()) {
        Slot slot = new Slot();
        slot.number = empty.slots.size();
        slot.crew = crew;
        slot.date = date;
        empty.slots.add(slot);
      }
    }
    return empty;
  }

  List<CountyCase.Day> days() {
    return slots.stream()
        .map(
            s ->
                new CountyCase.Day(
                    s.crew, s.date, s.zones.stream().mapToInt(z -> z.number).toArray()))
        .toList();
  }
}
