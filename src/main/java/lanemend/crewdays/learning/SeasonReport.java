package lanemend.crewdays.learning;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * A season's plan against what was done. Sums compare like with like: planned and actual are both
 * over the repairs that have both; what was done without a plan on record is told apart.
 *
 * @param from first day of the season
 * @param to last day, itself included
 * @param lines by group, each line a group
 * @param total over all groups
 * @param notDone what was to be done by now and is not, with the reason
 */
public record SeasonReport(
    LocalDate from, LocalDate to, Map<By, List<Line>> lines, Line total, List<NotDone> notDone) {

  /** What lines are drawn up by. */
  public enum By {
    CREW,
    TREATMENT,
    ROUTE,
    MONTH;

    private String group(DoneRepair r) {
      return switch (this) {
        case CREW -> r.crewId().isEmpty() ? "crew not recorded" : r.crewId();
        case TREATMENT ->
            r.treatment() == null ? "other work" : r.treatment().name().toLowerCase(Locale.ROOT);
        case ROUTE -> r.routeId();
        case MONTH -> YearMonth.from(r.doneOn()).toString();
      };
    }
  }

  /**
   * Planned against actual.
   *
   * @param planned sum over the repairs that have both
   * @param actual of the same repairs
   * @param repairs how many they are
   * @param unplanned actual of those without a plan on record
   */
  public record Held(double planned, double actual, int repairs, double unplanned) {
    static Held of(
        List<DoneRepair> done, Function<DoneRepair, Double> plan, Function<DoneRepair, Double> is) {
      double planned = 0;
      double actual = 0;
      double unplanned = 0;
      int both = 0;
      for (DoneRepair r : done) {
        Double p = r.planned() == null ? null : plan.apply(r);
        Double a = is.apply(r);
        if (p != null && a != null) {
          planned += p;
          actual += a;
          both++;
        } else if (a != null) {
          unplanned += a;
        }
      }
      return new Held(planned, actual, both, unplanned);
    }

    public double difference() {
      return actual - planned;
    }
  }

  /**
   * One group.
   *
   * @param crewDaysPlanned days of crews on which these repairs were planned
   * @param crewDays days of crews on which they were done; without a crew on record, dates
   */
  public record Line(
      String group,
      int repairs,
      int crewDaysPlanned,
      int crewDays,
      Held tonnes,
      Held hours,
      Held cost) {
    static Line of(String group, List<DoneRepair> done) {
      Set<String> planned = new HashSet<>();
      Set<String> worked = new HashSet<>();
      for (DoneRepair r : done) {
        worked.add(r.crewId() + " " + r.doneOn());
        if (r.planned() != null && r.planned().on() != null) {
          planned.add(r.crewId() + " " + r.planned().on());
        }
      }
      return new Line(
          group,
          done.size(),
          planned.size(),
          worked.size(),
          Held.of(done, r -> r.planned().tonnes(), DoneRepair::tonnes),
          Held.of(
              done,
              r -> r.planned().minutes() == null ? null : r.planned().minutes() / 60,
              DoneRepair::crewHours),
          Held.of(
              done,
              r -> r.planned().cost(),
              r -> r.cost() == null ? null : r.cost().doubleValue()));
    }
  }

  /**
   * A repair that was to be done and is not.
   *
   * @param crewId empty where no crew had it
   * @param plannedOn or null
   */
  public record NotDone(String repairId, String crewId, LocalDate plannedOn, String reason) {}

  /** The report of the work done from one day to another, both included. */
  public static SeasonReport of(
      List<DoneRepair> all, LocalDate from, LocalDate to, List<NotDone> notDone) {
    List<DoneRepair> done =
        all.stream().filter(r -> !r.doneOn().isBefore(from) && !r.doneOn().isAfter(to)).toList();
    Map<By, List<Line>> lines = new TreeMap<>();
    for (By by : By.values()) {
      Map<String, List<DoneRepair>> groups = new TreeMap<>();
      done.forEach(r -> groups.computeIfAbsent(by.group(r), g -> new ArrayList<>()).add(r));
      List<Line> of = new ArrayList<>();
      groups.forEach((group, own) -> of.add(Line.of(group, own)));
      lines.put(by, of);
    }
    List<NotDone> open = new ArrayList<>(notDone);
    open.sort(
        Comparator.comparing(NotDone::plannedOn, Comparator.nullsLast(Comparator.naturalOrder()))
            .thenComparing(NotDone::repairId));
    return new SeasonReport(from, to, lines, Line.of("all", done), open);
  }
}
