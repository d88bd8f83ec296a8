package lanemend.crewdays;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.crewdays.routing.DayClock;
import lanemend.crewdays.routing.MixDay;
import lanemend.crewdays.routing.ZoneSupply;

/** Which crews can do a work zone, with what plant and trucks, and what stands in the way. */
final class CrewFit {

  /** What keeps a crew from a zone, the nearest to success last. */
  enum Obstacle {
    TREATMENT,
    NO_DAY,
    MACHINE,
    NO_TRUCKS,
    NO_ROAD_FROM_YARD,
    NO_ROAD_FROM_PLANT,
    TONNES,
    MIX_WINDOW,
    PLANT_HOURS,
    SHIFT,
    NONE
  }

  /**
   * A zone on one kind of day.
   *
   * @param serviceMinutes at the zone, waits for later loads included
   * @param supply null when the zone takes no mix
   * @param trucking how the trucks supply it, or null
   * @param dayMinutes of a day with this zone alone, from shift start until back
   */
  record OnKind(
      Obstacle obstacle,
      double serviceMinutes,
      ZoneSupply supply,
      TruckFleet.Supply trucking,
      double dayMinutes) {
    private static OnKind no(Obstacle obstacle) {
      return new OnKind(obstacle, Double.POSITIVE_INFINITY, null, null, Double.NaN);
    }
  }

  /** The best answer over all kinds: {@code NONE} when some crew can do the zone in a day. */
  record Verdict(Obstacle obstacle, CrewKind kind, double dayMinutes) {}

  private final Agency agency;
  private final List<CrewKind> kinds;
  private final CrewCalendar calendar;
  private final CountyLegs legs;
  private final DayClock clock = new DayClock();
  private final List<Integer> yardOf = new ArrayList<>();
  private final List<Integer> plantOf = new ArrayList<>();

  CrewFit(Agency agency, List<CrewKind> kinds, CrewCalendar calendar, CountyLegs legs) {
    this.agency = agency;
    this.kinds = kinds;
    this.calendar = calendar;
    this.legs = legs;
    for (CrewKind kind : kinds) {
      yardOf.add(yardIndex(agency, kind.crew()));
      plantOf.add(plantIndex(agency, kind));
    }
  }

  static int yardIndex(Agency agency, Crew crew) {
    for (int i = 0; i < agency.yards().size(); i++) {
      if (agency.yards().get(i).id().equals(crew.yardId())) {
        return i;
      }
    }
    throw new IllegalArgumentException(
        "crew " + crew.name() + " has yard '" + crew.yardId() + "', which is not among the yards");
  }

  /** The plant's number among the agency's, or -1 on a day without mix. */
  static int plantIndex(Agency agency, CrewKind kind) {
    return kind.plant() == null ? -1 : agency.plants().indexOf(kind.plant());
  }

  /** Over all kinds; {@code place} is the zone's row in the legs. */
  Verdict best(WorkZone zone, int place) {
    Verdict best = new Verdict(Obstacle.TREATMENT, null, Double.POSITIVE_INFINITY);
    TruckFleet.Laying laying = Zones.laying(zone);
    for (int k = 0; k < kinds.size(); k++) {
      Crew crew = kinds.get(k).crew();
      OnKind on = onKind(k, zone, laying, place);
      Obstacle obstacle = on.obstacle();
      if (obstacle.compareTo(Obstacle.NO_DAY) > 0) {
        Obstacle dates = dates(crew, zone);
        obstacle = dates.compareTo(obstacle) < 0 ? dates : obstacle;
      }
      if (obstacle == Obstacle.NONE) {
        return new Verdict(obstacle, kinds.get(k), on.dayMinutes());
      }
      int order = obstacle.compareTo(best.obstacle());
      if (order > 0 || (order == 0 && on.dayMinutes() < best.dayMinutes())) {
        best = new Verdict(obstacle, kinds.get(k), on.dayMinutes());
      }
    }
    return best;
  }

  private Obstacle dates(Crew crew, WorkZone zone) {
    List<LocalDate> worked = calendar.worked(crew);
    if (worked.isEmpty()) {
      return Obstacle.NO_DAY;
    }
    for (LocalDate date : worked) {
      if (calendar.machinesThere(date, zone.equipment())) {
        return Obstacle.NONE;
      }
    }
    return Obstacle.MACHINE;
  }

  /** One kind of day with this zone, dates apart. */
  OnKind onKind(int k, WorkZone zone, TruckFleet.Laying laying, int place) {
    CrewKind kind = kinds.get(k);
    if (!kind.crew().does().containsAll(zone.treatments())) {
      return OnKind.no(Obstacle.TREATMENT);
    }
    double out = legs.out.minutes()[yardOf.get(k)][place];
    double back = legs.back.minutes()[place][yardOf.get(k)];
    if (!Double.isFinite(out) || !Double.isFinite(back)) {
      return OnKind.no(
          laying != null && kind.plant() == null ? Obstacle.NO_TRUCKS : Obstacle.NO_ROAD_FROM_YARD);
    }
    if (laying == null) {
      return alone(k, zone.workMinutes(), null, null, out, back);
    }
    if (kind.plant() == null) {
      return OnKind.no(Obstacle.NO_TRUCKS);
    }
    TruckFleet.Haulage haulage = haulage(k, place);
    if (!Double.isFinite(haulage.cycleMinutes()) || !Double.isFinite(firstTrip(k))) {
      return OnKind.no(Obstacle.NO_ROAD_FROM_PLANT);
    }
    if (zone.tonnes() > kind.plant().dailyTonnes()) {
      return OnKind.no(Obstacle.TONNES);
    }
    Optional<TruckFleet.Supply> trucking = TruckFleet.supply(kind.trucks(), laying, haulage);
    if (trucking.isEmpty()) {
      return OnKind.no(Obstacle.MIX_WINDOW);
    }
    TruckFleet.Supply s = trucking.get();
    ZoneSupply supply =
        new ZoneSupply(
            haulage.haulMinutes() + haulage.dumpMinutes(),
            haulage.returnMinutes(),
            Zones.readyMinutes(zone),
            laying.spanMinutes() + s.waitMinutes(),
            s.loads(),
            zone.tonnes());
    return alone(k, zone.workMinutes() + s.waitMinutes(), supply, s, out, back);
  }

  private OnKind alone(
      int k,
      double service,
      ZoneSupply supply,
      TruckFleet.Supply trucking,
      double out,
      double back) {
    clock.begin(mixDay(k));
    boolean open = clock.visit(out, service, supply);
    double day = clock.end(back);
    Obstacle obstacle = Obstacle.NONE;
    if (!open) {
      obstacle = Obstacle.PLANT_HOURS;
    } else if (day > kinds.get(k).crew().shiftMinutes()) {
      obstacle = Obstacle.SHIFT;
    }
    return new OnKind(obstacle, service, supply, trucking, day);
  }

  /** Trucks between the kind's plant and a place. */
  TruckFleet.Haulage haulage(int k, int place) {
    Plant plant = kinds.get(k).plant();
    int base = legs.plantBase(plantOf.get(k));
    return new TruckFleet.Haulage(
        legs.out.minutes()[base][place],
        legs.back.minutes()[place][base],
        plant.loadMinutes(),
        agency.plan().dumpMinutes(),
        plant.mixWindowMinutes(),
        agency.plan().truckPayloadTonnes());
  }

  private double firstTrip(int k) {
    return legs.bases.minutes()[yardOf.get(k)][legs.plantBase(plantOf.get(k))];
  }

  /** The day's plant and trucks in minutes from the shift's start; null on a day without mix. */
  MixDay mixDay(int k) {
    CrewKind kind = kinds.get(k);
    Plant plant = kind.plant();
    if (plant == null) {
      return null;
    }
    double[] open = openMinutes(kind.crew(), plant);
    return new MixDay(
        kind.trucks(),
        open[0],
        open[1],
        plant.loadMinutes(),
        plant.mixWindowMinutes(),
        agency.plan().truckPayloadTonnes(),
        firstTrip(k));
  }

  /** Opening and closing, on whichever day the shift overlaps most: shifts may pass midnight. */
  private static double[] openMinutes(Crew crew, Plant plant) {
    double opens = minutes(crew.shiftStart(), plant.opens());
    double hours = minutes(plant.opens(), plant.closes());
    double length = hours > 0 ? hours : hours + 1440;
    double best = opens;
    double most = Double.NEGATIVE_INFINITY;
    for (double start : new double[] {opens, opens - 1440, opens + 1440}) {
      double overlap = Math.min(start + length, crew.shiftMinutes()) - Math.max(start, 0);
      if (overlap > most) {
        most = overlap;
        best = start;
      }
    }
    return new double[] {best, best + length};
  }

  private static double minutes(LocalTime from, LocalTime to) {
    return Duration.between(from, to).toSeconds() / 60.0;
  }
}
