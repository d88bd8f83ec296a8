package lanemend.bench.county;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import lanemend.crewdays.CountyCase;

/** Counts an answer's cost and limits from the case alone; shares no code with any solver. */
final class Evaluator {
  private static final double SLACK = 1e-6;

  /** What an answer comes to. */
  record Cost(double cost, int leftOut, int crewDays) {}

  private Evaluator() {}

  /**
   * The cost of an answer.
   *
   * @throws IllegalStateException when it breaks a limit
   */
  static Cost of(CountyCase c, List<CountyCase.Day> days) {
    boolean[] done = new boolean[c.zones()];
    Set<List<Integer>> used = new HashSet<>();
    double cost = 0;
    int crewDays = 0;
    for (CountyCase.Day day : days) {
      if (day.zones().length > 0) {
        crewDays++;
        demand(used.add(List.of(day.crew(), day.date())), "a crew has two days on one date");
        cost += day(c, day, done);
      }
    }
    int leftOut = 0;
    for (int z = 0; z < c.zones(); z++) {
      if (!done[z]) {
        leftOut++;
        cost += c.skip()[z];
      }
    }
    return new Cost(cost, leftOut, crewDays);
  }

  /** Cost of one day by itself, whatever its limits. */
  static double daysCost(CountyCase c, List<CountyCase.Day> days) {
    double cost = 0;
    boolean[] done = new boolean[c.zones()];
    for (CountyCase.Day day : days) {
      cost += day.zones().length == 0 ? 0 : day(c, day, done);
    }
    return cost;
  }

  private static double day(CountyCase c, CountyCase.Day day, boolean[] done) {
    CountyCase.Crew crew = c.crews()[day.crew()];
    boolean works = false;
    for (int date : crew.dates()) {
      works |= date == day.date();
    }
    demand(works, "a crew works on a day off");
    double km = 0;
    double minutes = 0;
    double tonnes = 0;
    double late = 0;
    int at = crew.place();
    for (int zone : day.zones()) {
      demand(!done[zone], "a zone is done twice");
      done[zone] = true;
      demand((c.skills()[zone] & crew.skills()) == c.skills()[zone], "a crew cannot do a zone");
      km += c.km()[at][zone];
      minutes += c.minutes()[at][zone] + c.service()[zone];
      tonnes += c.tonnes()[zone];
      late += c.latePerDay()[zone] * Math.max(0, day.date() - c.due()[zone]);
      at = zone;
    }
    km += c.km()[at][crew.place()];
    minutes += c.minutes()[at][crew.place()];
    demand(minutes <= crew.limitMinutes() + SLACK, "a day is too long");
    demand(tonnes <= crew.limitTonnes() + SLACK, "a day lays too much");
    return crew.openingCost() + km * c.costPerKm() + minutes * crew.costPerMinute() + late;
  }

  private static void demand(boolean holds, String otherwise) {
    if (!holds) {
      throw new IllegalStateException(otherwise);
    }
  }
}
