package lanemend.crewdays;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Place;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/** Checks one crew day; part of {@link PlanChecker} and, like it, apart from the planner's code. */
final class DayCheck {
  /** Times are kept to the second; a few roundings may add up. */
  private static final double TOLERANCE_MIN = 0.06;

  private final Agency agency;
  private final Map<String, PatchDesign> byId;
  private final CrewDay day;
  private final List<String> found = new ArrayList<>();
  private final List<ZoneCheck> zones = new ArrayList<>();
  private final String label;
  private final WeatherCheck weather;
  private final FinishCheck finish;
  private double cost;
  private double delayCost;

  /** Works the day's zones out again; {@link #run} compares. */
  DayCheck(Agency agency, ZoneTraffic traffic, Map<String, PatchDesign> byId, CrewDay day) {
    this.agency = agency;
    this.byId = byId;
    this.day = day;
    for (CrewDay.Stop stop : day.stops()) {
      zones.add(new ZoneCheck(agency.plan(), traffic, day.crew().pace(), stop.zone(), raw(stop)));
    }
    weather = new WeatherCheck(agency);
    finish = new FinishCheck(agency.plan().finish());
    label = day.crew().name() + " on " + day.date() + ": ";
  }

  private List<PatchDesign> raw(CrewDay.Stop stop) {
    return stop.zone().repairs().stream().map(r -> byId.get(r.defect().id())).toList();
  }

  /** Where crew and trucks drive to, in order. */
  List<Place> drivenTo() {
    return zones.stream().map(z -> z.drivenTo).toList();
  }

  CrewDay day() {
    return day;
  }

  /** What is wrong with the day. */
  List<String> found() {
    return found;
  }

  /** The day's cost as worked out again. */
  double cost() {
    return cost;
  }

  /** How far rounding of times to the second may move the cost. */
  double costSlack() {
    double perHour =
        day.crew().costPerHour().doubleValue()
            + day.trucks() * agency.plan().truckCostPerHour().doubleValue();
    return 0.05 + perHour / 1800;
  }

  /**
   * Compares the day with the day as it must be.
   *
   * @param drives of the whole plan
   * @param first number of the day's first stop among those of the whole plan
   */
  void run(DriveCheck drives, int first) {
    if (!agency.crews().contains(day.crew())) {
      say("is not a crew of the agency");
      return;
    }
    if (day.stops().isEmpty()) {
      say("has no stop");
      return;
    }
    calendar();
    Optional<Plant> plant =
        agency.plants().stream().filter(p -> p.id().equals(day.plantId())).findFirst();
    if (plant.isEmpty() && !day.plantId().isEmpty()) {
      say("takes mix from '" + day.plantId() + "', which is not a plant of the agency");
      return;
    }
    if (day.trucks() > day.crew().trucks() || day.trucks() < 0) {
      say("has " + day.trucks() + " trucks, the crew " + day.crew().trucks());
    }
    for (int i = 0; i < zones.size(); i++) {
      zones.get(i).run(this::say);
      capability(day.stops().get(i), raw(day.stops().get(i)));
    }
    boolean mix = zones.stream().anyMatch(z -> z.tonnes > 0);
    if (mix && (plant.isEmpty() || day.trucks() < 1)) {
      say("lays mix without a plant or without a truck");
      return;
    }
    if (mix) {
      mixFits(plant.get());
    }
    chain(plant.orElse(null), drives.of(day.crew(), plant.orElse(null), drivenTo(), first));
  }

  private void mixFits(Plant plant) {
    if (!plant.isStockpile() && !weather.hotMix(day.date())) {
      say("lays hot mix out of season or in the cold");
    }
    for (CrewDay.Stop stop : day.stops()) {
      for (PatchDesign r : stop.zone().repairs()) {
        if (r.tonnes() > 0 && !plant.serves().contains(r.choice().treatment())) {
          say("repairs " + r.defect().id() + " with mix of " + plant.name() + ", not fit for it");
        }
      }
    }
  }

  private void say(String text) {
    found.add(label + text);
  }

  private void calendar() {
    PlanSettings plan = agency.plan();
    LocalDate date = day.date();
    if (date.isBefore(plan.firstDay())
        || !date.isBefore(plan.firstDay().plusDays(plan.calendarDays()))) {
      say("lies outside the plan's days");
    }
    if (!plan.workdays().contains(date.getDayOfWeek())) {
      say("is on a " + date.getDayOfWeek() + ", which is not worked");
    }
    if (plan.blackout().contains(date)) {
      say("is on a date nobody works");
    }
    if (day.crew().daysOff().contains(date)) {
      say("is on a day off of the crew");
    }
    weather.against(date).ifPresent(this::say);
  }

  private void capability(CrewDay.Stop stop, List<PatchDesign> raw) {
    for (PatchDesign repair : raw) {
      Treatment treatment = repair.choice().treatment();
      if (!day.crew().does().contains(treatment)) {
        say("is to do " + treatment + " in zone " + stop.zone().id() + ", which the crew does not");
      }
      DefectStatus status = repair.defect().status();
      if (status != DefectStatus.OPEN && status != DefectStatus.PLANNED) {
        say("is to repair " + repair.defect().id() + ", which is " + status);
      }
    }
  }

  private void chain(Plant plant, Haul.Legs legs) {
    double factor = agency.plan().truckSpeedFactor();
    int plantAt = zones.size() + 1;
    TruckCheck trucks = plant == null ? null : trucks(plant, legs.minutes()[0][plantAt] / factor);
    double leave = minute(day.leaveYard());
    if (leave < -TOLERANCE_MIN) {
      say("leaves the yard before its shift starts");
    }
    double now = leave;
    double km = 0;
    double tonnes = 0;
    for (int i = 0; i < zones.size(); i++) {
      CrewDay.Stop stop = day.stops().get(i);
      double drive = legs.minutes()[i][i + 1] / factor;
      km += legs.km()[i][i + 1];
      finish.drive(drive);
      tonnes += zones.get(i).tonnes;
      differs(stop.driveMinutes(), drive, 1e-6, "drive to " + stop.zone().id());
      differs(minute(stop.arrive()), now + drive, TOLERANCE_MIN, "arrival at " + stop.zone().id());
      double service = zones.get(i).minutes;
      double truckWait = 0;
      if (zones.get(i).tonnes > 0) {
        double haulOut = legs.minutes()[plantAt][i + 1] / factor;
        double haulBack = legs.minutes()[i + 1][plantAt] / factor;
        trucks.zone(zones.get(i), haulOut, haulBack);
        truckWait = trucks.waitMinutes();
        service += truckWait;
        double left =
            stop.firstLoadLeavesPlant() == null ? Double.NaN : minute(stop.firstLoadLeavesPlant());
        trucks.check(minute(stop.depart()) - service, left, this::say);
      } else if (stop.firstLoadLeavesPlant() != null) {
        say("has a load leave for zone " + stop.zone().id() + ", which takes no mix");
      }
      if (minute(stop.depart()) - minute(stop.arrive()) < service - TOLERANCE_MIN) {
        say(
            "stays "
                + (minute(stop.depart()) - minute(stop.arrive()))
                + " minutes at zone "
                + stop.zone().id()
                + ", which takes "
                + service);
      }
      delayCost += zones.get(i).delayPerHour * service / 60;
      finish.zone(zones.get(i), truckWait);
      now = minute(stop.depart());
    }
    home(plant, legs, now, km, tonnes);
  }

  private void home(Plant plant, Haul.Legs legs, double last, double km, double tonnes) {
    double drive = legs.minutes()[zones.size()][0] / agency.plan().truckSpeedFactor();
    double allKm = km + legs.km()[zones.size()][0];
    double back = last + drive;
    differs(minute(day.backAtYard()), back, TOLERANCE_MIN, "return to the yard");
    finish.drive(drive);
    inTime(back);
    if (minute(day.backAtYard()) > day.crew().shiftMinutes() + TOLERANCE_MIN) {
      say("is back after its shift of " + day.crew().shiftMinutes() + " minutes");
    }
    differs(day.driveKm(), allKm, 1e-6, "distance driven");
    differs(day.tonnes(), tonnes, 1e-6, "mix to order");
    PlanSettings plan = agency.plan();
    double late = 0;
    for (ZoneCheck zone : zones) {
      for (LocalDate due : zone.due) {
        late +=
            Math.max(0, ChronoUnit.DAYS.between(due, day.date())) * plan.latePerDay().doubleValue();
      }
    }
    double perHour =
        day.crew().costPerHour().doubleValue()
            + day.trucks() * plan.truckCostPerHour().doubleValue();
    cost =
        back / 60 * perHour
            + allKm * plan.costPerKm().doubleValue()
            + (plant == null ? 0 : plant.pricePerTonne().doubleValue() * tonnes)
            + delayCost * plan.delayCostPerVehicleHour().doubleValue()
            + late;
    double said =
        day.figures().stream()
            .filter(f -> f.name().equals(DayFigureName.COST))
            .mapToDouble(f -> f.value())
            .sum();
    differs(said, cost, costSlack(), "cost");
  }

  /** Minutes not spent driving or working are waits, and those are certain. */
  private void inTime(double back) {
    double chance = finish.within(day.crew().shiftMinutes(), back - finish.mean());
    double wanted = agency.plan().finish().probability();
    if (chance < wanted - 1e-3) {
      say("ends inside its shift with a chance of " + chance + ", asked are " + wanted);
    }
    double said = day.finishProbability().orElse(Double.NaN);
    differs(said, chance, 1e-3, "chance of ending inside the shift");
  }

  private TruckCheck trucks(Plant plant, double firstTrip) {
    double opens = signed(plant.opens());
    double closes = signed(plant.closes());
    List<Crew> others = agency.crews().stream().filter(c -> mayLoad(c, plant)).toList();
    int most = others.stream().mapToInt(Crew::trucks).sum();
    long pool = agency.equipment().stream().filter(u -> u.kind() == Equipment.HAUL_TRUCK).count();
    if (pool > 0) {
      most = (int) Math.max(0, Math.min(most, pool - day.trucks()));
    }
    double window = plant.mixWindowMinutes();
    window *= plant.isStockpile() ? 1 : weather.windowShare(day.date());
    double first = firstTrip + plant.loadMinutes() * Math.min(most, others.size());
    return new TruckCheck(agency.plan(), plant, day.trucks(), most, window, first, opens, closes);
  }

  private boolean mayLoad(Crew crew, Plant plant) {
    Set<Treatment> mix = EnumSet.noneOf(Treatment.class);
    mix.addAll(crew.does());
    mix.removeAll(
        EnumSet.of(
            Treatment.CRACK_TREATMENT, Treatment.SURFACE_TREATMENT, Treatment.DEFER_TO_OVERLAY));
    mix.retainAll(plant.serves());
    return !crew.equals(day.crew()) && crew.trucks() > 0 && !mix.isEmpty();
  }

  private void differs(double said, double right, double tolerance, String what) {
    if (!(Math.abs(said - right) <= tolerance)) {
      say(what + " is given as " + said + " and comes to " + right);
    }
  }

  /** Minutes since the shift's start, up to half a day before it. */
  private double minute(LocalTime time) {
    double m = Duration.between(day.crew().shiftStart(), time).toSeconds() / 60.0;
    double since = m < 0 ? m + 1440 : m;
    return since > 1440 - (1440 - day.crew().shiftMinutes()) / 2.0 ? since - 1440 : since;
  }

  private double signed(LocalTime time) {
    return Duration.between(day.crew().shiftStart(), time).toSeconds() / 60.0;
  }
}
