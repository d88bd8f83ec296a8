package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.crewdays.routing.DayClock;
import lanemend.crewdays.routing.MixDay;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.measure.Figure;

/** Writes crew days out: times by running each day's clock, figures and cost. */
final class DayWriter {

  /** A decided day: zones by number, in order. */
  record Draft(LocalDate date, int kind, List<Integer> zones) {}

  private final Agency agency;
  private final List<CrewKind> kinds;
  private final CrewFit fit;
  private final CountyLegs legs;
  private final DayFigures figures;
  private final FinishFigures finish;

  DayWriter(Agency agency, Zones zoning, List<CrewKind> kinds, CrewFit fit, CountyLegs legs) {
    this.agency = agency;
    this.kinds = kinds;
    this.fit = fit;
    this.legs = legs;
    figures = new DayFigures(agency.plan(), zoning);
    finish = new FinishFigures(agency.plan().finish());
  }

  static Comparator<Draft> byDateThenCrew(Agency agency, List<CrewKind> kinds) {
    return Comparator.comparing(Draft::date)
        .thenComparingInt(d -> agency.crews().indexOf(kinds.get(d.kind()).crew()));
  }

  /** The whole plan. */
  Plan plan(List<Draft> drafts, List<WorkZone> zones, List<Plan.LeftOut> leftOut) {
    List<CrewDay> days = drafts.parallelStream().map(draft -> day(draft, zones)).toList();
    BigDecimal cost = BigDecimal.ZERO.setScale(2);
    for (CrewDay day : days) {
      cost = cost.add(DayFigures.cost(day.figures()));
    }
    return new Plan(days, leftOut, cost, agency.plan().currency());
  }

  private CrewDay day(Draft draft, List<WorkZone> zones) {
    CrewKind kind = kinds.get(draft.kind());
    int yard = CrewFit.yardIndex(agency, kind.crew());
    MixDay mix = fit.mixDay(draft.kind());
    DayClock clock = new DayClock();
    clock.begin(mix);
    List<CrewDay.Stop> stops = new ArrayList<>();
    List<CrewFit.OnKind> work = new ArrayList<>();
    double km = 0;
    double tonnes = 0;
    double firstWait = 0;
    FinishChance chance = fit.finish();
    FinishChance.Minutes minutes = FinishChance.Minutes.NONE;
    int from = -1;
    for (int z : draft.zones()) {
      ZoneFit at = fit.at(zones.get(z), z);
      CrewFit.OnKind on = on(draft.kind(), zones.get(z), at);
      WorkZone zone = on.zone();
      double drive = from < 0 ? legs.out.minutes()[yard][z] : legs.minutesBetween(from, z);
      km += from < 0 ? legs.out.km()[yard][z] : legs.kmBetween(from, z);
      clock.visit(drive, on.serviceMinutes(), on.supply());
      boolean first = stops.isEmpty();
      // A crew that must wait at its first stop waits at the yard instead.
      double arrive = clock.arrive() + (first ? clock.waitMinutes() : 0);
      firstWait = first ? clock.waitMinutes() : firstWait;
      stops.add(
          new CrewDay.Stop(
              zone,
              drive,
              at(kind.crew(), arrive),
              at(kind.crew(), clock.now()),
              on.supply() == null ? null : at(kind.crew(), clock.firstLoadLeft()),
              stopFigures(draft.kind(), zone, z, on, drive, first ? 0 : clock.waitMinutes())));
      work.add(on);
      minutes =
          minutes
              .plus(drive, chance.ofDrive(drive))
              .plus(on.serviceMinutes(), at.variance(draft.kind(), on.trucking()));
      tonnes += zone.tonnes();
      from = z;
    }
    double home = from < 0 ? 0 : legs.back.minutes()[from][yard];
    km += from < 0 ? 0 : legs.back.km()[from][yard];
    double end = clock.end(home);
    minutes = minutes.plus(home, chance.ofDrive(home)).waiting(clock.waited());
    List<Figure> all = new ArrayList<>(figures.day(kind, draft.date(), stops, work, end, km));
    all.addAll(finish.of(minutes, kind.crew().shiftMinutes()));
    return new CrewDay(
        draft.date(),
        kind.crew(),
        kind.plant() == null ? "" : kind.plant().id(),
        kind.trucks(),
        stops,
        at(kind.crew(), firstWait),
        at(kind.crew(), end),
        tonnes,
        km,
        all);
  }

  private CrewFit.OnKind on(int kind, WorkZone zone, ZoneFit at) {
    CrewFit.OnKind on = at.on(kind);
    if (Double.isInfinite(on.serviceMinutes())) {
      throw new IllegalArgumentException(
          "crew "
              + kinds.get(kind).crew().name()
              + " cannot do work zone "
              + zone.id()
              + " on such a day ("
              + on.obstacle().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
              + ")");
    }
    return on;
  }

  private List<Figure> stopFigures(
      int k, WorkZone zone, int place, CrewFit.OnKind on, double drive, double mixWait) {
    List<Figure> all = new ArrayList<>();
    all.add(figures.drive(drive));
    ZoneSupply supply = on.supply();
    if (supply != null) {
      all.addAll(
          figures.trucking(
              kinds.get(k),
              zone,
              fit.haulage(k, Zones.laying(zone), place),
              on.trucking(),
              mixWait,
              fit.trucksAtLoader(kinds.get(k))));
    }
    all.add(figures.zoneMinutes(zone, on));
    return all;
  }

  private static LocalTime at(Crew crew, double minutes) {
    return crew.shiftStart().plusSeconds(Math.round(minutes * 60));
  }
}
