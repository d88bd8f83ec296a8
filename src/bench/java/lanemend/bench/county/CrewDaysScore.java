package lanemend.bench.county;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.score.calculator.IncrementalScoreCalculator;
import java.util.List;
import lanemend.crewdays.CountyCase;

/** Score of crew days for Timefold: only days that a move changed are added up again. */
public class CrewDaysScore implements IncrementalScoreCalculator<CrewDays, HardSoftLongScore> {
  /** Parts of a unit of money, of a minute and of a tonne. */
  private static final double FINE = 1_000;

  private CountyCase c;
  private long[] hardOf;
  private long[] softOf;
  private long hard;
  private long soft;

  @Override
  public void resetWorkingSolution(CrewDays solution) {
    c = solution.county;
    hardOf = new long[solution.slots.size()];
    softOf = new long[solution.slots.size()];
    hard = 0;
    soft = 0;
    for (CrewDays.Zone zone : solution.zones) {
      soft -= Math.round(FINE * c.skip()[zone.number]);
    }
    for (CrewDays.Slot slot : solution.slots) {
      for (CrewDays.Zone zone : slot.zones) {
        soft += Math.round(FINE * c.skip()[zone.number]);
      }
      add(slot);
    }
  }

  private void add(CrewDays.Slot slot) {
    hard -= hardOf[slot.number];
    soft -= softOf[slot.number];
    long own = 0;
    double cost = 0;
    List<CrewDays.Zone> zones = slot.zones;
    int size = zones.size();
    if (size > 0) {
      CountyCase.Crew crew = c.crews()[slot.crew];
      double km = 0;
      double minutes = 0;
      double tonnes = 0;
      int at = crew.place();
      for (int i = 0; i < size; i++) {
        int zone = zones.get(i).number;
        km += c.km()[at][zone];
        minutes += c.minutes()[at][zone] + c.service()[zone];
        tonnes += c.tonnes()[zone];
        cost += c.late(zone, slot.date);
        if (!c.can(slot.crew, zone)) {
          own -= 1_000_000;
        }
        at = zone;
      }
      km += c.km()[at][crew.place()];
      minutes += c.minutes()[at][crew.place()];
      cost += crew.openingCost() + km * c.costPerKm() + minutes * crew.costPerMinute();
      own -= (long) Math.ceil(FINE * Math.max(0, minutes - crew.limitMinutes()));
      own -= (long) Math.ceil(FINE * Math.max(0, tonnes - crew.limitTonnes()));
    }
    hardOf[slot.number] = own;
    softOf[slot.number] = -Math.round(FINE * cost);
    hard += own;
    soft += softOf[slot.number];
  }

  @Override
  public void afterListVariableChanged(Object entity, String variable, int from, int to) {
    add((CrewDays.Slot) entity);
  }

  @Override
  public void afterListVariableElementAssigned(String variable, Object element) {
    soft += Math.round(FINE * c.skip()[((CrewDays.Zone) element).number]);
  }

  @Override
  public void afterListVariableElementUnassigned(String variable, Object element) {
    soft -= Math.round(FINE * c.skip()[((CrewDays.Zone) element).number]);
  }

  @Override
  public void beforeVariableChanged(Object entity, String variable) {
    // Shadow variables do not count.
  }

  @Override
  public void afterVariableChanged(Object entity, String variable) {
    // Shadow variables do not count.
  }

  @Override
  public void beforeEntityAdded(Object entity) {
    // No move adds a day or a zone.
  }

  @Override
  public void afterEntityAdded(Object entity) {
    // No move adds a day or a zone.
  }

  @Override
  public void beforeEntityRemoved(Object entity) {
    // No move removes a day or a zone.
  }

  @Override
  public void afterEntityRemoved(Object entity) {
    // No move removes a day or a zone.
  }

  @Override
  public HardSoftLongScore calculateScore() {
    return HardSoftLongScore.of(hard, soft);
  }
}
