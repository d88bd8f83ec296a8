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

  /** The number of a kind of day, or -1; where weather has turned since, the nearest there is. */
  int kindOf(Assignment.Day day) {
    int found = -1;
    for (int k = 0; k < kinds.size(); k++) {
      CrewKind kind = kinds.get(k);
      String plant = kind.plant() == null ? "" : kind.plant().id();
      if (kind.crew().id().equals(day.crewId())
          && plant.equals(day.plantId())
          && kind.trucks() == day.trucks()) {
        found = found < 0 || kind.suits(calendar.weather().on(day.date())) ? k : found;
      }
    }
    return found;
  }
}
