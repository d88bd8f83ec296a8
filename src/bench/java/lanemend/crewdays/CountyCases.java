package lanemend.crewdays;

import lanemend.patching.Treatment;
import java.util.Set;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;

/** Makes the common case out of an agency's repairs, with the planner's own zones and drives. */
public final class CountyCases {
  /** Minutes of the crew that a day costs before it drives off; invented. */
  private static final double OPENING_MINUTES = 30;

  /** More defects than this for each crew, and the plan gets more days, so that all may be done. */
  private static final double DEFECTS_OF_A_CREW = 400 / 3.0;

  private CountyCases() {}

  /**
   * Zones as the planner cuts them. Repairs no crew could do alone in a day are not in the case.
   */
  public static CountyCase of(
      int defects, Haul haul, Agency own, ZoneTraffic traffic, List<PatchDesign> repairs) {
    double busy = Math.max(1, (double) defects / own.crews().size() / DEFECTS_OF_A_CREW);
    Agency agency = own.withHorizon(null, (int) Math.ceil(busy * own.plan().calendarDays()));
    Zones zoning = new Zones(agency.plan(), traffic);
    List<CrewKind> kinds = CrewKind.all(agency);
    CrewCalendar calendar = new CrewCalendar(agency);
    List<Place> at = repairs.stream().map(r -> r.defect().place()).toList();
    CountyLegs all = CountyLegs.of(haul, agency, at);
    CrewFit fit = new CrewFit(agency, kinds, calendar, all);
    List<PatchDesign> can = new ArrayList<>();
    Map<String, Integer> rows = new HashMap<>();
    for (int i = 0; i < repairs.size(); i++) {
      CrewFit.Verdict verdict = fit.best(zoning.zone(List.of(repairs.get(i))), i);
      if (verdict.obstacle() == CrewFit.Obstacle.NONE) {
        can.add(repairs.get(i));
        rows.put(repairs.get(i).defect().id(), i);
      }
    }
    List<WorkZone> shaped = new ZoneShaper(agency, zoning, fit).shape(can, rows);
    int[] zoneRows =
        shaped.stream()
            .mapToInt(z -> rows.get(Zones.anchor(z.repairs()).defect().id()))
            .toArray();
    return build(defects, agency, calendar, shaped, all.among(haul, zoneRows).packed());
  }

  private static CountyCase build(
      int defects, Agency agency, CrewCalendar calendar, List<WorkZone> zones, double[] legs) {
    int n = zones.size();
    int places = n + agency.yards().size();
    double[][] km = new double[places][places];
    double[][] minutes = new double[places][places];
    for (int a = 0; a < places; a++) {
      for (int b = 0; b < places; b++) {
        km[a][b] = legs[2 * (a * places + b)];
        minutes[a][b] = legs[2 * (a * places + b) + 1];
      }
    }
    CountyCase.Crew[] crews = crews(agency, calendar, n);
    double dearestDay = 0;
    for (CountyCase.Crew crew : crews) {
      dearestDay = Math.max(dearestDay, crew.costPerMinute() * crew.limitMinutes());
    }
    int[] skills = new int[n];
    int[] due = new int[n];
    double[] latePerDay = new double[n];
    double[] skip = new double[n];
    for (int z = 0; z < n; z++) {
      WorkZone zone = zones.get(z);
      int size = zone.repairs().size();
      skills[z] = bits(zone.treatments());
      due[z] = (int) Math.max(0, ChronoUnit.DAYS.between(agency.plan().firstDay(), zone.dueOn()));
      latePerDay[z] = agency.plan().latePerDay().doubleValue() * size;
      skip[z] = 2 * dearestDay * size + latePerDay[z] * agency.plan().calendarDays();
    }
    return new CountyCase(
        defects,
        km,
        minutes,
        zones.stream().mapToDouble(WorkZone::workMinutes).toArray(),
        zones.stream().mapToDouble(WorkZone::tonnes).toArray(),
        skills,
        due,
        latePerDay,
        skip,
        agency.plan().costPerKm().doubleValue(),
        crews);
  }

  private static int bits(Set<Treatment> treatments) {
    List<Treatment> all = List.of(Treatment.values());
    return treatments.stream().mapToInt(t -> 1 << all.indexOf(t)).sum();
  }

  /** A crew runs with all its trucks and may lay its equal share of all plants' daily tonnes. */
  private static CountyCase.Crew[] crews(Agency agency, CrewCalendar calendar, int zones) {
    double tonnes =
        agency.plants().stream().mapToDouble(Plant::dailyTonnes).sum() / agency.crews().size();
    return agency.crews().stream()
        .map(
            crew -> {
              double perMinute =
                  new CrewKind(crew, null, crew.trucks(), 1)
                          .costPerHour(agency.plan())
                          .doubleValue()
                      / 60;
              return new CountyCase.Crew(
                  crew.id(),
                  zones + CrewFit.yardIndex(agency, crew),
                  bits(crew.does()),
                  perMinute,
                  OPENING_MINUTES * perMinute,
                  crew.shiftMinutes(),
                  tonnes,
                  calendar.worked(crew).stream()
                      .mapToInt(
                          d -> (int) ChronoUnit.DAYS.between(agency.plan().firstDay(), d))
                      .toArray());
            })
        .toArray(CountyCase.Crew[]::new);
  }
}
