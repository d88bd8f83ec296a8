package lanemend.crewdays;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;

/** What every way of making or changing a plan needs to know of the agency and its roads. */
record PlanBase(
    Haul haul,
    Agency agency,
    Zones zoning,
    HandRules rules,
    List<CrewKind> kinds,
    CrewCalendar calendar) {

  /** The agency with what is settled by hand, its calendar long enough for a plan at hand. */
  static PlanBase of(
      Haul haul, Agency agency, ZoneTraffic traffic, HandRules rules, Assignment kept) {
    Agency ruled = reaching(rules.applyTo(agency), kept);
    for (Crew crew : ruled.crews()) {
      CrewFit.yardIndex(ruled, crew);
    }
    CrewCalendar calendar = new CrewCalendar(ruled);
    return new PlanBase(
        haul,
        ruled,
        new Zones(ruled.plan(), traffic),
        rules,
        CrewKind.all(ruled, calendar.weather()),
        calendar);
  }

  /** A plan made for other days than the agency's own keeps them. */
  private static Agency reaching(Agency agency, Assignment kept) {
    LocalDate first = agency.plan().firstDay();
    LocalDate end = first.plusDays(agency.plan().calendarDays());
    for (Assignment.Day day : kept.days()) {
      first = day.date().isBefore(first) ? day.date() : first;
      end = day.date().isBefore(end) ? end : day.date().plusDays(1);
    }
    int days = (int) ChronoUnit.DAYS.between(first, end);
    return first.equals(agency.plan().firstDay()) && days == agency.plan().calendarDays()
        ? agency
        : agency.withHorizon(first, days);
  }
}
