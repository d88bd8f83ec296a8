package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.Month;
import java.time.MonthDay;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.Lane;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.FigureName;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.RoadSetting;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentChoice;
import lanemend.patching.WorkStep;
import lanemend.patching.traffic.Cones;

/** Invented agencies, repairs and roads for tests: straight roads, driven as the crow flies. */
final class TestCounty {
  static final LocalDate MONDAY = LocalDate.of(2026, 6, 1);

  /** 60 km/h everywhere, so kilometres are minutes. */
  static final Haul CROW =
      (from, to) -> {
        double[][] minutes = new double[from.size()][to.size()];
        for (int i = 0; i < from.size(); i++) {
          for (int j = 0; j < to.size(); j++) {
            minutes[i][j] =
                Math.hypot(from.get(i).x() - to.get(j).x(), from.get(i).y() - to.get(j).y()) / 1000;
          }
        }
        return new Haul.Legs(minutes, minutes);
      };

  /** 20 minutes up, 15 down, and delay that grows with the zone. */
  static final ZoneTraffic CONES =
      work ->
          Cones.flagged(
              List.of(), List.of(), List.of(), 20, 15, 0.2 + work.lengthM() / 1000, List.of());

  private TestCounty() {}

  /** A repair that takes 45 minutes and, for those that lay mix, the tonnes given. */
  static PatchDesign repair(String id, double alongM, Treatment treatment, double tonnes) {
    return repair(id, "SR 1", Side.RIGHT, alongM, 10, treatment, tonnes, 45);
  }

  static PatchDesign repair(
      String id,
      String route,
      Side side,
      double alongM,
      double lengthM,
      Treatment treatment,
      double tonnes,
      double minutes) {
    double y = route.hashCode() % 7 * 3000;
    Place place =
        new Place(
            route,
            alongM,
            alongM + lengthM,
            alongM + lengthM / 2,
            y,
            Entered.byMilepost(route, "1", null));
    Defect defect =
        new Defect(
            id,
            DefectKind.POTHOLE,
            Severity.MEDIUM,
            place,
            new Lane(side, 1),
            lengthM,
            2,
            0.05,
            MONDAY.minusDays(20),
            "patrol",
            "",
            DefectStatus.OPEN,
            "");
    List<Figure> figures = new ArrayList<>();
    if (tonnes > 0) {
      figures.add(new Figure(FigureName.MIX, tonnes, Unit.TONNE, "given", List.of(), "test"));
      double rate = treatment == Treatment.BLADE_PATCH ? 40 : tonnes * 60 / (minutes / 2);
      figures.add(
          new Figure(FigureName.LAYDOWN_RATE, rate, Unit.TONNE_PER_HOUR, "given", List.of(), "t"));
    }
    Figure time = new Figure("work", minutes, Unit.MINUTE, "given", List.of(), "test");
    return new PatchDesign(
        defect,
        new RoadSetting(RoadClass.COLLECTOR, 80, 2, 3.3, 1, false, false, 1500, 0.1),
        new TreatmentChoice(treatment, "rule", "test"),
        figures,
        List.of(new WorkStep("work", time, minutes / 5, false)),
        treatment == Treatment.BLADE_PATCH
            ? Set.of(Equipment.MOTOR_GRADER, Equipment.ROLLER)
            : Set.of(),
        Optional.empty(),
        List.of());
  }

  /** Cuts a repair in equal parts with 10 minutes more for each but the first. */
  static List<PatchDesign> parts(PatchDesign whole, int count) {
    Place place = whole.defect().place();
    double length = (place.toAlongM() - place.fromAlongM()) / count;
    List<PatchDesign> parts = new ArrayList<>();
    for (int i = 1; i <= count && length >= 2; i++) {
      parts.add(
          repair(
              new RepairPart(whole.defect().id(), i, count).id(),
              place.routeId(),
              whole.defect().lane().side(),
              place.fromAlongM() + (i - 1) * length,
              length,
              whole.choice().treatment(),
              whole.tonnes() / count,
              whole.minutes() / count + (i == 1 ? 0 : 10)));
    }
    return parts;
  }

  static Crew crew(String id, String yard, int shiftMinutes, int trucks, Treatment... does) {
    return new Crew(
        id,
        "crew " + id,
        yard,
        LocalTime.of(7, 0),
        shiftMinutes,
        trucks,
        new BigDecimal("240"),
        Set.of(does),
        Set.of());
  }

  static Plant plant(String id, double x, double y) {
    return new Plant(
        id,
        "plant " + id,
        x,
        y,
        LocalTime.of(6, 0),
        LocalTime.of(17, 0),
        400,
        6,
        150,
        new BigDecimal("85"));
  }

  static PlanSettings settings(int calendarDays) {
    Map<Severity, Integer> due = new EnumMap<>(Severity.class);
    due.put(Severity.HIGH, 7);
    due.put(Severity.MEDIUM, 30);
    due.put(Severity.LOW, 90);
    Map<RoadClass, Double> longest = new EnumMap<>(RoadClass.class);
    for (RoadClass c : RoadClass.values()) {
      longest.put(c, 800.0);
    }
    return new PlanSettings(
        MONDAY,
        calendarDays,
        EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY),
        Set.of(),
        due,
        Map.of(RoadClass.COLLECTOR, 1.0),
        longest,
        9,
        0.9,
        4,
        new BigDecimal("95"),
        new BigDecimal("2.50"),
        new BigDecimal("20"),
        new BigDecimal("15"),
        "USD");
  }

  /** One crew that does everything with three trucks, one yard, one plant 10 km away. */
  static Agency agency() {
    return agency(List.of(crew("A", "Y1", 600, 3, Treatment.values())), settings(14));
  }

  static Agency agency(List<Crew> crews, PlanSettings settings) {
    return new Agency(
        "Test County",
        UnitSystem.US_CUSTOMARY,
        List.of(new Yard("Y1", "north", 0, 0), new Yard("Y2", "south", 20000, -8000)),
        List.of(plant("P1", 10000, 2000)),
        crews,
        List.of(
            new EquipmentUnit("G1", Equipment.MOTOR_GRADER, Set.of()),
            new EquipmentUnit("R1", Equipment.ROLLER, Set.of())),
        settings);
  }

  /** A random agency with tight limits now and then. */
  static Agency randomAgency(Random random) {
    List<Crew> crews = randomCrews(random);
    PlanSettings base = settings(3 + random.nextInt(12));
    PlanSettings settings =
        new PlanSettings(
            base.firstDay(),
            base.calendarDays(),
            base.workdays(),
            random.nextBoolean() ? Set.of(MONDAY.plusDays(random.nextInt(4))) : Set.of(),
            base.dueDays(),
            base.dueFactor(),
            base.maxZoneM(),
            5 + random.nextInt(10),
            0.7 + 0.3 * random.nextDouble(),
            base.dumpMinutes(),
            base.truckCostPerHour(),
            base.costPerKm(),
            base.delayCostPerVehicleHour(),
            base.latePerDay(),
            base.currency());
    List<Plant> plants = randomPlants(random);
    List<EquipmentUnit> units = new ArrayList<>();
    units.add(
        new EquipmentUnit(
            "G1", Equipment.MOTOR_GRADER, Set.of(MONDAY.plusDays(random.nextInt(5)))));
    if (random.nextBoolean()) {
      units.add(new EquipmentUnit("R1", Equipment.ROLLER, Set.of()));
    }
    return new Agency(
        "Random County",
        UnitSystem.METRIC,
        List.of(new Yard("Y1", "north", 0, 0), new Yard("Y2", "south", 20000, -8000)),
        plants,
        crews,
        units,
        settings);
  }

  /** A random agency that also has weather, a pool of trucks, a stockpile and asks for a chance. */
  static Agency randomWeather(Random random) {
    Agency base = randomAgency(random);
    List<Plant> plants = new ArrayList<>(base.plants());
    plants.add(
        Plant.stockpile(
            "S1",
            "stockpile",
            0,
            0,
            0.5 + 3 * random.nextDouble(),
            5,
            new BigDecimal("120"),
            Set.of(Treatment.HAND_PATCH, Treatment.EDGE_REPAIR)));
    List<EquipmentUnit> units = new ArrayList<>(base.equipment());
    for (int i = 0; i <= random.nextInt(4); i++) {
      units.add(
          new EquipmentUnit(
              "H" + i, Equipment.HAUL_TRUCK, Set.of(MONDAY.plusDays(random.nextInt(5)))));
    }
    List<Forecast.Day> told = new ArrayList<>();
    for (int i = 0; i < random.nextInt(8); i++) {
      double min = random.nextInt(12);
      told.add(
          new Forecast.Day(
              MONDAY.plusDays(i),
              0.8 * random.nextDouble(),
              random.nextInt(7),
              min,
              min + random.nextInt(12),
              random.nextInt(50)));
    }
    WorkSeason season =
        new WorkSeason(
            MonthDay.of(6, 1),
            MonthDay.of(6, 5 + random.nextInt(10)),
            10,
            0.6,
            5,
            0.5 + 0.45 * random.nextDouble(),
            Map.of(Month.JUNE, new WorkSeason.Usual(0.4 * random.nextDouble(), 18)),
            MixCooling.STANDARD);
    FinishRule rule = FinishRule.NONE.asking(0.5 + 0.45 * random.nextDouble());
    return new Agency(
        base.name(),
        base.units(),
        base.yards(),
        plants,
        base.crews(),
        units,
        base.plan().under(rule, season),
        new Forecast(told));
  }

  private static List<Crew> randomCrews(Random random) {
    List<Crew> crews = new ArrayList<>();
    int count = 1 + random.nextInt(3);
    for (int i = 0; i < count; i++) {
      Set<Treatment> does = EnumSet.noneOf(Treatment.class);
      for (Treatment t : Treatment.values()) {
        if (random.nextInt(4) > 0) {
          does.add(t);
        }
      }
      crews.add(
          new Crew(
              "C" + i,
              "crew " + i,
              random.nextBoolean() ? "Y1" : "Y2",
              LocalTime.of(6 + random.nextInt(3), 30),
              360 + 60 * random.nextInt(5),
              random.nextInt(4),
              BigDecimal.valueOf(150 + random.nextInt(200)),
              does,
              random.nextBoolean() ? Set.of(MONDAY.plusDays(random.nextInt(5))) : Set.of()));
    }
    return crews;
  }

  private static List<Plant> randomPlants(Random random) {
    List<Plant> plants = new ArrayList<>();
    for (int i = 0; i <= random.nextInt(2); i++) {
      plants.add(
          new Plant(
              "P" + i,
              "plant " + i,
              random.nextInt(20000),
              random.nextInt(10000) - 5000,
              LocalTime.of(5 + random.nextInt(4), 0),
              LocalTime.of(12 + random.nextInt(6), 0),
              20 + random.nextInt(100),
              4 + random.nextInt(6),
              60 + random.nextInt(150),
              BigDecimal.valueOf(70 + random.nextInt(40))));
    }
    return plants;
  }

  static List<PatchDesign> randomRepairs(Random random, int count) {
    Treatment[] all = Treatment.values();
    List<PatchDesign> repairs = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Treatment treatment = all[random.nextInt(all.length)];
      boolean mix =
          treatment != Treatment.CRACK_TREATMENT
              && treatment != Treatment.SURFACE_TREATMENT
              && treatment != Treatment.DEFER_TO_OVERLAY;
      double tonnes = 0;
      if (mix) {
        tonnes =
            treatment == Treatment.BLADE_PATCH ? 5 + random.nextInt(30) : 0.2 + random.nextDouble();
      }
      repairs.add(
          repair(
              "D" + i,
              "SR " + random.nextInt(4),
              random.nextBoolean() ? Side.LEFT : Side.RIGHT,
              random.nextInt(8000),
              2 + random.nextInt(60),
              treatment,
              tonnes,
              20 + random.nextInt(120)));
    }
    return repairs;
  }
}
