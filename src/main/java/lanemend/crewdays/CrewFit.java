package lanemend.crewdays;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.routing.DayClock;
import lanemend.crewdays.routing.MixDay;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.patching.Treatment;

/** Which crews can do a work zone, with what plant and trucks, and what stands in the way. */
final class CrewFit {

  /** What keeps a crew from a zone, the nearest to success last. */
  enum Obstacle {
    TREATMENT,
    NO_DAY,
    MACHINE,
    NO_TRUCKS,
    OTHER_MIX,
    NO_ROAD_FROM_YARD,
    NO_ROAD_FROM_PLANT,
    TONNES,
    MIX_WINDOW,
    PLANT_HOURS,
    SHIFT,
    CHANCE,
    SEASON,
    NONE;

    /** True when a smaller repair at the same place might be done. */
    boolean eased() {
      return this == TONNES || this == PLANT_HOURS || this == SHIFT || this == CHANCE;
    }
  }

  /**
   * A zone on one kind of day.
   *
   * @param serviceMinutes at the zone, waits for later loads included
   * @param supply null when the zone takes no mix
   * @param trucking how the trucks supply it, or null
   * @param dayMinutes of a day with this zone alone, from shift start until back
   * @param chance that such a day ends inside the shift
   * @param zone at the crew's pace
   */
  record OnKind(
      Obstacle obstacle,
      double serviceMinutes,
      ZoneSupply supply,
      TruckFleet.Supply trucking,
      double dayMinutes,
      double chance,
      WorkZone zone) {
    private static OnKind no(Obstacle obstacle) {
      return new OnKind(
          obstacle, Double.POSITIVE_INFINITY, null, null, Double.NaN, Double.NaN, null);
    }
  }

  /** The best answer over all kinds: {@code NONE} when some crew can do the zone in a day. */
  record Verdict(Obstacle obstacle, CrewKind kind, double dayMinutes, double chance) {}

  private final Agency agency;
  private final List<CrewKind> kinds;
  private final CrewCalendar calendar;
  private final CountyLegs legs;
  private final DayClock clock = new DayClock();
  private final FinishChance finish;
  private final LoaderTurns loader;
  private final List<Integer> yardOf = new ArrayList<>();
  private final List<Integer> plantOf = new ArrayList<>();

  /** By kind, worked out once: each is asked for with every zone. */
  private final List<MixDay> mixDays = new ArrayList<>();

  private final List<Integer> atLoader = new ArrayList<>();

  CrewFit(Agency agency, List<CrewKind> kinds, CrewCalendar calendar, CountyLegs legs) {
    this.agency = agency;
    this.kinds = kinds;
    this.calendar = calendar;
    this.legs = legs;
    finish = new FinishChance(agency.plan().finish());
    loader = new LoaderTurns(agency);
    for (CrewKind kind : kinds) {
      yardOf.add(yardIndex(agency, kind.crew()));
      plantOf.add(plantIndex(agency, kind));
      atLoader.add(kind.plant() == null ? 0 : trucksAtLoader(kind));
      mixDays.add(mixDayOf(mixDays.size()));
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
    Verdict best = new Verdict(Obstacle.TREATMENT, null, Double.POSITIVE_INFINITY, Double.NaN);
    TruckFleet.Laying laying = Zones.laying(zone);
    for (int k = 0; k < kinds.size(); k++) {
      OnKind on = onKind(k, zone, laying, place);
      Obstacle obstacle = on.obstacle();
      if (obstacle.compareTo(Obstacle.NO_DAY) > 0) {
        Obstacle dates = dates(kinds.get(k), zone);
        obstacle = dates.compareTo(obstacle) < 0 ? dates : obstacle;
      }
      if (obstacle == Obstacle.NONE) {
        return new Verdict(obstacle, kinds.get(k), on.dayMinutes(), on.chance());
      }
      int order = obstacle.compareTo(best.obstacle());
      if (order > 0 || (order == 0 && on.dayMinutes() < best.dayMinutes())) {
        best = new Verdict(obstacle, kinds.get(k), on.dayMinutes(), on.chance());
      }
    }
    return best;
  }

  private Obstacle dates(CrewKind kind, WorkZone zone) {
    List<LocalDate> worked = calendar.worked(kind.crew());
    if (worked.isEmpty()) {
      return Obstacle.NO_DAY;
    }
    boolean machines = false;
    for (LocalDate date : worked) {
      if (calendar.machinesThere(date, zone.equipment())) {
        machines = true;
        if (kind.suits(calendar.weather().on(date))) {
          return Obstacle.NONE;
        }
      }
    }
    return machines ? Obstacle.SEASON : Obstacle.MACHINE;
  }

  /** One kind of day with this zone, dates apart; {@code designed} is what the zone lays. */
  OnKind onKind(int k, WorkZone asDesigned, TruckFleet.Laying designed, int place) {
    CrewKind kind = kinds.get(k);
    WorkZone zone = Zones.paced(asDesigned, kind.crew().pace());
    TruckFleet.Laying laying = zone == asDesigned ? designed : Zones.laying(zone);
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
      return alone(k, zone, null, null, out, back);
    }
    if (kind.plant() == null) {
      return OnKind.no(Obstacle.NO_TRUCKS);
    }
    if (!kind.plant().serves().containsAll(treatmentsWithMix(zone))) {
      return OnKind.no(Obstacle.OTHER_MIX);
    }
    TruckFleet.Haulage haulage = haulage(k, laying, place);
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
            haulage.returnMinutes() + haulage.loaderMinutes(),
            Zones.readyMinutes(zone),
            laying.spanMinutes() + s.waitMinutes(),
            s.loads(),
            zone.tonnes());
    return alone(k, zone, supply, s, out, back);
  }

  private static Set<Treatment> treatmentsWithMix(WorkZone zone) {
    return zone.repairs().stream()
        .filter(r -> r.tonnes() > 0)
        .map(r -> r.choice().treatment())
        .collect(Collectors.toSet());
  }

  private OnKind alone(
      int k,
      WorkZone zone,
      ZoneSupply supply,
      TruckFleet.Supply trucking,
      double out,
      double back) {
    double service = zone.workMinutes() + (trucking == null ? 0 : trucking.waitMinutes());
    clock.begin(mixDay(k));
    boolean open = clock.visit(out, service, supply);
    double day = clock.end(back);
    FinishChance.Minutes minutes =
        FinishChance.Minutes.NONE
            .plus(out, finish.ofDrive(out))
            .plus(service, variance(zone, trucking))
            .plus(back, finish.ofDrive(back))
            .waiting(clock.waited());
    int shift = kinds.get(k).crew().shiftMinutes();
    Obstacle obstacle = Obstacle.NONE;
    if (!open) {
      obstacle = Obstacle.PLANT_HOURS;
    } else if (day > shift) {
      obstacle = Obstacle.SHIFT;
    } else if (!finish.keeps(minutes, shift)) {
      obstacle = Obstacle.CHANCE;
    }
    return new OnKind(
        obstacle, service, supply, trucking, day, finish.within(minutes, shift), zone);
  }

  /** Variance of the minutes at a zone; {@code trucking} is null for one without mix. */
  double variance(WorkZone zone, TruckFleet.Supply trucking) {
    return finish.ofZone(zone)
        + (trucking == null ? 0 : finish.ofTruckWait(trucking.waitMinutes()));
  }

  FinishChance finish() {
    return finish;
  }

  /** Trucks between the kind's plant and a place. */
  TruckFleet.Haulage haulage(int k, TruckFleet.Laying laying, int place) {
    CrewKind kind = kinds.get(k);
    Plant plant = kind.plant();
    int base = legs.plantBase(plantOf.get(k));
    double haul = legs.out.minutes()[base][place];
    double back = legs.back.minutes()[place][base];
    double dump = agency.plan().dumpMinutes();
    double payload = agency.plan().truckPayloadTonnes();
    double interval = laying.layMinutes() / TruckFleet.loadsByPayload(laying.tonnes(), payload);
    double turn =
        LoaderTurns.waitMinutes(
            atLoader.get(k), plant.loadMinutes(), haul + dump + interval + back);
    return new TruckFleet.Haulage(
        haul, back, plant.loadMinutes(), dump, kind.windowMinutes(), payload, turn);
  }

  /** Trucks that may come to the kind's loader on one day. */
  int trucksAtLoader(CrewKind kind) {
    return kind.trucks() + loader.otherTrucks(kind.crew(), kind.plant(), kind.trucks());
  }

  private double firstTrip(int k) {
    return legs.bases.minutes()[yardOf.get(k)][legs.plantBase(plantOf.get(k))];
  }

  /** The day's plant and trucks in minutes from the shift's start; null on a day without mix. */
  MixDay mixDay(int k) {
    return mixDays.get(k);
  }

  private MixDay mixDayOf(int k) {
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
        kind.windowMinutes(),
        agency.plan().truckPayloadTonnes(),
        firstTrip(k) + loader.morningMinutes(kind.crew(), plant, kind.trucks()));
  }

  /** Opening and closing, on whichever day the shift overlaps most: shifts may pass midnight. */
  private static double[] openMinutes(Crew crew, Plant plant) {
    if (plant.isStockpile()) {
      return new double[] {0, Double.POSITIVE_INFINITY};
    }
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
