package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;

/**
 * What a plan of some dates leaves alone: the crew days on all others stay, and no other work comes
 * onto those dates. Past crew days whose work still waits are none of them, unless the dates asked
 * for are past as well: what was missed is planned again.
 *
 * @param stay the crew days that stay
 * @param agency the county's over the dates planned and those that stay; crews are off on the rest
 * @param rules those set by hand, with the days that stay locked
 */
record OtherDays(Assignment stay, Agency agency, HandRules rules) {

  /**
   * @param dates the agency over the dates to plan
   * @param kept the plan so far, of repairs that wait
   */
  static OtherDays of(Agency dates, HandRules rules, Assignment kept, LocalDate today) {
    LocalDate first = dates.plan().firstDay();
    LocalDate end = first.plusDays(dates.plan().calendarDays());
    LocalDate from = first;
    LocalDate to = end;
    HandRules locking = rules;
    List<Assignment.Day> others = new ArrayList<>();
    for (Assignment.Day day : kept.days()) {
      boolean planned = !day.date().isBefore(first) && day.date().isBefore(end);
      boolean missed = day.date().isBefore(today) && end.isAfter(today);
      if (planned || missed || rules.closed(day.crewId(), day.date()).isPresent()) {
        continue;
      }
      others.add(day);
      from = day.date().isBefore(from) ? day.date() : from;
      to = day.date().isBefore(to) ? to : day.date().plusDays(1);
      if (rules.locked(day.crewId(), day.date()).isEmpty()) {
        locking =
            locking.with(
                HandRule.lockDay(day.crewId(), day.date(), "only other dates are planned"));
      }
    }
    Agency over = dates.withHorizon(from, Math.toIntExact(to.toEpochDay() - from.toEpochDay()));
    return new OtherDays(new Assignment(others), offElsewhere(over, first, end, others), locking);
  }

  private static Agency offElsewhere(
      Agency over, LocalDate first, LocalDate end, List<Assignment.Day> others) {
    LocalDate from = over.plan().firstDay();
    LocalDate to = from.plusDays(over.plan().calendarDays());
    return over.withDaysOff(
        crew -> {
          Set<LocalDate> off = new HashSet<>(crew.daysOff());
          from.datesUntil(to).filter(d -> d.isBefore(first) || !d.isBefore(end)).forEach(off::add);
          others.stream()
              .filter(o -> o.crewId().equals(crew.id()))
              .forEach(o -> off.remove(o.date()));
          return off;
        });
  }
}
