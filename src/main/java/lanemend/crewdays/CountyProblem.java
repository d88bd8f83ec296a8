package lanemend.crewdays;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;

/** An agency's zones, crews and dates as the plain arrays the search reads. */
final class CountyProblem {

  /** A crew on a date. */
  record CrewSlot(Crew crew, LocalDate date) {}

  private final Agency agency;
  private final Zones zoning;
  private final List<WorkZone> zones;
  private final List<CrewKind> kinds;
  private final CrewCalendar calendar;
  private final CountyLegs legs;
  private final CrewFit fit;
  private final List<CrewSlot> slots = new ArrayList<>();

  CountyProblem(
      Agency agency,
      Zones zoning,
      List<WorkZone> zones,
      List<CrewKind> kinds,
      CrewCalendar calendar,
      CountyLegs legs) {
    this.agency = agency;
    this.zoning = zoning;
    this.zones = zones;
    this.kinds = kinds;
    this.calendar = calendar;
    this.legs = legs;
    fit = new CrewFit(agency, kinds, calendar, legs);
    for (Crew crew : agency.crews()) {
      for (LocalDate date : calendar.worked(crew)) {
        slots.add(new CrewSlot(crew, date));
      }
    }
  }

  /** Crew and date of each slot of the problem. */
  List<CrewSlot> slots() {
    return slots;
  }

  DayProblem build() {
    return build(Stage.quiet());
  }

  DayProblem build(Stage stage) {
    int n = zones.size();
    double[][] service = new double[kinds.size()][n];
    // Kinds that trucks supply alike share these rows: with many crews they would fill the memory.
    double[][] stopCost = rowsByKind(n);
    double[][] variance = rowsByKind(n);
    ZoneSupply[][] supplied = new ZoneSupply[fit.supplies()][n];
    ZoneSupply[][] supply = new ZoneSupply[kinds.size()][];
    Arrays.setAll(supply, k -> supplied[fit.suppliedAs(k)]);
    stage.each(
        n,
        z -> {
          ZoneFit one = fit.at(zones.get(z), z);
          boolean[] known = new boolean[fit.supplies()];
          for (int k = 0; k < kinds.size(); k++) {
            CrewFit.OnKind on = one.on(k);
            boolean can = on.obstacle() == CrewFit.Obstacle.NONE;
            service[k][z] = can ? on.serviceMinutes() : Double.POSITIVE_INFINITY;
            if (can && !known[fit.suppliedAs(k)]) {
              known[fit.suppliedAs(k)] = true;
              supply[k][z] = on.supply();
              variance[k][z] = one.variance(k, on.trucking());
              stopCost[k][z] = stopCost(k, zones.get(z), on.serviceMinutes());
            }
          }
        });
    double[][] late = late();
    return new DayProblem(
        n,
        agency.yards().size(),
        legs.packed(),
        IntStream.range(0, kinds.size()).mapToObj(this::dayKind).toArray(DayKind[]::new),
        daySlots(),
        service,
        stopCost,
        zones.stream().mapToDouble(WorkZone::tonnes).toArray(),
        late,
        shared(),
        skipCost(late),
        supply,
        agency.plan().finish().asked() ? fit.finish().search(variance) : null);
  }

  /** A row for each kind, the same for those that trucks supply alike. */
  private double[][] rowsByKind(int n) {
    double[][] rows = new double[fit.supplies()][n];
    double[][] byKind = new double[kinds.size()][];
    Arrays.setAll(byKind, k -> rows[fit.suppliedAs(k)]);
    return byKind;
  }

  private double stopCost(int k, WorkZone zone, double minutes) {
    Plant plant = kinds.get(k).plant();
    double mix = plant == null ? 0 : plant.pricePerTonne().doubleValue() * zone.tonnes();
    return mix + delayCost(agency.plan(), zone, minutes);
  }

  /** Road-user delay while the zone stands. */
  static double delayCost(PlanSettings plan, WorkZone zone, double minutes) {
    return plan.delayCostPerVehicleHour().doubleValue()
        * zone.traffic().delayVehicleHoursPerHour()
        * minutes
        / 60;
  }

  private DayKind dayKind(int k) {
    CrewKind kind = kinds.get(k);
    int plant = CrewFit.plantIndex(agency, kind);
    return new DayKind(
        CrewFit.yardIndex(agency, kind.crew()),
        kind.crew().shiftMinutes(),
        kind.plant() == null ? Double.POSITIVE_INFINITY : kind.plant().dailyTonnes(),
        agency.plan().costPerKm().doubleValue(),
        kind.costPerHour(agency.plan()).doubleValue() / 60,
        0,
        plant,
        fit.mixDay(k));
  }

  private DayProblem.Slot[] daySlots() {
    DayProblem.Slot[] result = new DayProblem.Slot[slots.size()];
    Map<Crew, int[]> kindsOf = new HashMap<>();
    for (int s = 0; s < result.length; s++) {
      Crew crew = slots.get(s).crew();
      LocalDate date = slots.get(s).date();
      int[] own =
          Arrays.stream(kindsOf.computeIfAbsent(crew, this::kindsOf))
              .filter(k -> kinds.get(k).suits(calendar.weather().on(date)))
              .toArray();
      int day = (int) ChronoUnit.DAYS.between(agency.plan().firstDay(), date);
      result[s] = new DayProblem.Slot(day, agency.crews().indexOf(crew), own);
    }
    return result;
  }

  private int[] kindsOf(Crew crew) {
    return IntStream.range(0, kinds.size()).filter(k -> kinds.get(k).crew().equals(crew)).toArray();
  }

  private double[][] late() {
    double perDay = agency.plan().latePerDay().doubleValue();
    double[][] late = new double[calendar.dates().size()][zones.size()];
    for (int z = 0; z < zones.size(); z++) {
      for (PatchDesign repair : zones.get(z).repairs()) {
        LocalDate due = zoning.dueOn(repair);
        for (int d = 0; d < late.length; d++) {
          late[d][z] += perDay * daysLate(due, calendar.dates().get(d));
        }
      }
    }
    return late;
  }

  static long daysLate(LocalDate due, LocalDate done) {
    return Math.max(0, ChronoUnit.DAYS.between(due, done));
  }

  private DayProblem.Shared shared() {
    int[] bits = new int[zones.size()];
    for (int z = 0; z < bits.length; z++) {
      for (int m = 0; m < calendar.shared().size(); m++) {
        if (zones.get(z).equipment().contains(calendar.shared().get(m))) {
          bits[z] |= 1 << m;
        }
      }
    }
    int[][] machines = new int[calendar.dates().size()][calendar.shared().size()];
    double[][] tonnes = new double[calendar.dates().size()][agency.plants().size()];
    for (int d = 0; d < machines.length; d++) {
      for (int m = 0; m < machines[d].length; m++) {
        machines[d][m] = calendar.inService(calendar.dates().get(d), calendar.shared().get(m));
      }
      Arrays.setAll(tonnes[d], i -> agency.plants().get(i).dailyTonnes());
    }
    return new DayProblem.Shared(
        bits,
        machines,
        tonnes,
        agency.plants().stream().mapToDouble(Plant::stockTonnes).toArray(),
        kinds.stream().mapToInt(CrewKind::trucks).toArray(),
        pool());
  }

  private int[] pool() {
    return calendar.pooled()
        ? calendar.dates().stream()
            .mapToInt(d -> calendar.inService(d, Equipment.HAUL_TRUCK))
            .toArray()
        : new int[0];
  }

  /**
   * Leaving a zone out costs, for each repair, a whole day of the dearest crew, and its lateness at
   * the end of the plan: never worth it while a day has room, and the urgent are left out last.
   */
  private double[] skipCost(double[][] late) {
    double dearest = 0;
    for (int k = 0; k < kinds.size(); k++) {
      dearest =
          Math.max(
              dearest,
              kinds.get(k).costPerHour(agency.plan()).doubleValue()
                  * kinds.get(k).crew().shiftMinutes()
                  / 60);
    }
    double perKm = agency.plan().costPerKm().doubleValue();
    double[] cost = new double[zones.size()];
    for (int z = 0; z < cost.length; z++) {
      double atSite = 0;
      for (Plant plant : agency.plants()) {
        atSite = Math.max(atSite, plant.pricePerTonne().doubleValue() * zones.get(z).tonnes());
      }
      double far = 0;
      for (double[] row : legs.out.km()) {
        far = Math.max(far, Double.isFinite(row[z]) ? row[z] : 0);
      }
      double standing = delayCost(agency.plan(), zones.get(z), 2 * zones.get(z).workMinutes());
      double lateness = late.length == 0 ? 0 : late[late.length - 1][z];
      cost[z] =
          zones.get(z).repairs().size() * 2 * dearest
              + atSite
              + standing
              + 2 * far * perKm
              + lateness;
    }
    return cost;
  }
}
