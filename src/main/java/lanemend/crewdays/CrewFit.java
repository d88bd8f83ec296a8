package lanemend.crewdays;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import lanemend.crewdays.routing.MixDay;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.patching.Equipment;
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
   * @param chance that such a day ends inside the shift; NaN where that is not what stands in the
   *     way
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
    static OnKind no(Obstacle obstacle) {
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
  private final FinishChance finish;
  private final LoaderTurns loader;
  private final List<Integer> yardOf = new ArrayList<>();
  private final List<Integer> plantOf = new ArrayList<>();

  private final List<Set<Treatment>> does;
  private final List<Set<Treatment>> serves;

  /** By kind, worked out once: each is asked for with every zone. */
  private final List<MixDay> mixDays = new ArrayList<>();

  private final List<Integer> atLoader = new ArrayList<>();

  /** Number of the {@link Supplied} and of the {@link Turn} of each kind. */
  private final List<Integer> suppliedAs = new ArrayList<>();

  private final List<Integer> turnAs = new ArrayList<>();
  private final List<Integer> paceAs = new ArrayList<>();
  private final List<CrewPace> paces = new ArrayList<>();
  private final Map<Supplied, Integer> supplied = new HashMap<>();
  private final Map<Turn, Integer> turns = new HashMap<>();

  /** What the dates leave of each kind, by machines needed: few sets, asked for with every zone. */
  private final Map<Set<Equipment>, List<Obstacle>> datesFor = new ConcurrentHashMap<>();

  /** All that the trucks' work at a zone depends on besides the zone: many crews share it. */
  private record Supplied(int pace, int plant, int trucks, int atLoader, double windowShare) {}

  /** What the wait for the loader depends on. */
  private record Turn(int pace, int plant, int atLoader) {}

  CrewFit(Agency agency, List<CrewKind> kinds, CrewCalendar calendar, CountyLegs legs) {
    this.agency = agency;
    this.kinds = kinds;
    this.calendar = calendar;
    this.legs = legs;
    finish = new FinishChance(agency.plan().finish());
    loader = new LoaderTurns(agency);
    does = kinds.stream().map(k -> bits(k.crew().does())).toList();
    serves =
        kinds.stream().map(k -> bits(k.plant() == null ? Set.of() : k.plant().serves())).toList();
    for (CrewKind kind : kinds) {
      int plant = plantIndex(agency, kind);
      int trucks = kind.plant() == null ? 0 : trucksAtLoader(kind);
      yardOf.add(yardIndex(agency, kind.crew()));
      plantOf.add(plant);
      atLoader.add(trucks);
      mixDays.add(mixDayOf(mixDays.size()));
      int pace = paces.indexOf(kind.crew().pace());
      if (pace < 0) {
        pace = paces.size();
        paces.add(kind.crew().pace());
      }
      paceAs.add(pace);
      Supplied one = new Supplied(pace, plant, kind.trucks(), trucks, kind.windowShare());
      suppliedAs.add(supplied.computeIfAbsent(one, n -> supplied.size()));
      turnAs.add(turns.computeIfAbsent(new Turn(pace, plant, trucks), n -> turns.size()));
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
    return at(zone, place).best();
  }

  /** A zone's answers; {@code place} is its row in the legs. For one thread. */
  ZoneFit at(WorkZone zone, int place) {
    return new ZoneFit(this, zone, place);
  }

  List<CrewKind> kinds() {
    return kinds;
  }

  /** The same treatments as bits: each zone is asked on thousands of kinds. */
  static Set<Treatment> bits(Collection<Treatment> treatments) {
    Set<Treatment> bits = EnumSet.noneOf(Treatment.class);
    bits.addAll(treatments);
    return bits;
  }

  /** What the kind's crew does, as {@link #bits}. */
  Set<Treatment> does(int k) {
    return does.get(k);
  }

  /** What the kind's plant has mix for, as {@link #bits}. */
  Set<Treatment> serves(int k) {
    return serves.get(k);
  }

  /** How many ways of supplying a zone there are, and the number of each kind's. */
  int supplies() {
    return supplied.size();
  }

  int suppliedAs(int k) {
    return suppliedAs.get(k);
  }

  /** How many paces crews have, and the number of each kind's. */
  int paces() {
    return paces.size();
  }

  int paceAs(int k) {
    return paceAs.get(k);
  }

  /** How many waits for a loader there are at one zone, and the number of each kind's. */
  int turns() {
    return turns.size();
  }

  int turnAs(int k) {
    return turnAs.get(k);
  }

  /** What keeps a kind's crew from ever having such machines and weather. */
  Obstacle dates(int k, Set<Equipment> needed) {
    return datesFor
        .computeIfAbsent(needed, set -> kinds.stream().map(kind -> dates(kind, set)).toList())
        .get(k);
  }

  private Obstacle dates(CrewKind kind, Set<Equipment> needed) {
    List<LocalDate> worked = calendar.worked(kind.crew());
    if (worked.isEmpty()) {
      return Obstacle.NO_DAY;
    }
    boolean machines = false;
    for (LocalDate date : worked) {
      if (calendar.machinesThere(date, needed)) {
        machines = true;
        if (kind.suits(calendar.weather().on(date))) {
          return Obstacle.NONE;
        }
      }
    }
    return machines ? Obstacle.SEASON : Obstacle.MACHINE;
  }

  double outMinutes(int k, int place) {
    return legs.out.minutes()[yardOf.get(k)][place];
  }

  double backMinutes(int k, int place) {
    return legs.back.minutes()[place][yardOf.get(k)];
  }

  FinishChance finish() {
    return finish;
  }

  /** Trucks between the kind's plant and a place. */
  TruckFleet.Haulage haulage(int k, TruckFleet.Laying laying, int place) {
    return haulage(k, place, turnMinutes(k, laying, place));
  }

  /** The same with the wait for the loader known. */
  TruckFleet.Haulage haulage(int k, int place, double turn) {
    CrewKind kind = kinds.get(k);
    int base = legs.plantBase(plantOf.get(k));
    return new TruckFleet.Haulage(
        legs.out.minutes()[base][place],
        legs.back.minutes()[place][base],
        kind.plant().loadMinutes(),
        agency.plan().dumpMinutes(),
        kind.windowMinutes(),
        agency.plan().truckPayloadTonnes(),
        turn);
  }

  /** Mean wait for a turn at the kind's loader while a place is supplied. */
  double turnMinutes(int k, TruckFleet.Laying laying, int place) {
    int base = legs.plantBase(plantOf.get(k));
    double haul = legs.out.minutes()[base][place];
    double back = legs.back.minutes()[place][base];
    double payload = agency.plan().truckPayloadTonnes();
    double interval = laying.layMinutes() / TruckFleet.loadsByPayload(laying.tonnes(), payload);
    return LoaderTurns.waitMinutes(
        atLoader.get(k),
        kinds.get(k).plant().loadMinutes(),
        haul + agency.plan().dumpMinutes() + interval + back);
  }

  /** Trucks that may come to the kind's loader on one day. */
  int trucksAtLoader(CrewKind kind) {
    return kind.trucks() + loader.otherTrucks(kind.crew(), kind.plant(), kind.trucks());
  }

  double firstTrip(int k) {
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
