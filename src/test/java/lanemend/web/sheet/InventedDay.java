package lanemend.web.sheet;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_MILE;
import static lanemend.measure.Conversion.T_PER_SHORT_TON;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Crew;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayFigureName;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.Plant;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.Yard;
import lanemend.crewdays.ZoneSide;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.HaulGraph;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.RoadSign;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentRules;
import lanemend.patching.traffic.Cones;
import lanemend.patching.traffic.TrafficApproach;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.patching.traffic.ZoneWork;

/** An invented crew day of three stops with numbers of a likely size. */
final class InventedDay {
  static final LocalDate DATE = LocalDate.of(2026, 5, 4);
  static final Network ROADS = InventedRoads.network();
  static final HaulGraph HAUL = HaulGraph.build(ROADS, InventedRoads.EVERYWHERE_55_MPH);

  private InventedDay() {}

  static SheetContext context(UnitSystem units) {
    PlanSettings plan =
        new PlanSettings(
            DATE,
            30,
            EnumSet.of(DayOfWeek.MONDAY),
            Set.of(),
            Map.of(),
            Map.of(),
            Map.of(),
            14 * T_PER_SHORT_TON,
            0.9,
            4,
            new BigDecimal("85"),
            new BigDecimal("1.10"),
            new BigDecimal("21"),
            new BigDecimal("30"),
            "USD");
    Agency agency =
        new Agency(
            "Invented County Roads <A & B>",
            units,
            List.of(new Yard("north", "North yard", 1.2 * M_PER_MILE, 6.9 * M_PER_MILE)),
            List.of(plant()),
            List.of(crew()),
            List.of(),
            plan);
    return new SheetContext(agency, ROADS, new Locator(ROADS), HAUL);
  }

  static Plant plant() {
    return new Plant(
        "pit",
        "Pit plant",
        9.4 * M_PER_MILE,
        1.6 * M_PER_MILE,
        LocalTime.of(6, 0),
        LocalTime.of(16, 0),
        300,
        5,
        90,
        new BigDecimal("70"));
  }

  static Crew crew() {
    return new Crew(
        "north/1",
        "Crew North 1",
        "north",
        LocalTime.of(7, 0),
        600,
        3,
        new BigDecimal("410"),
        EnumSet.allOf(Treatment.class),
        Set.of());
  }

  /** Two blade patches and a pothole; one pothole on the left; nine potholes in a row. */
  static CrewDay day() {
    WorkZone first =
        zone(
            "SR 14",
            ZoneSide.RIGHT,
            List.of(
                InventedRepairs.blade("D-0101", "SR 14", 3.212, 240, 10, 1.5, Severity.HIGH),
                InventedRepairs.hand(
                    "D-0102", "SR 14", 3.290, 3, 2.5, 2, Severity.MEDIUM, Side.RIGHT),
                InventedRepairs.blade("D-0103", "SR 14", 3.352, 120, 8, 1.0, Severity.MEDIUM)));
    WorkZone second =
        zone(
            "CR 7",
            ZoneSide.LEFT,
            List.of(
                InventedRepairs.hand("D-0211", "CR 7", 4.105, 2, 2, 3, Severity.HIGH, Side.LEFT)));
    List<PatchDesign> many = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      Severity severity = List.of(Severity.LOW, Severity.MEDIUM, Severity.HIGH).get(i % 3);
      many.add(
          InventedRepairs.hand(
              "D-03" + (10 + i), "SR 61", 7.60 + 0.018 * i, 2 + i % 4, 2, 2, severity, Side.LEFT));
    }
    WorkZone third = zone("SR 61", ZoneSide.LEFT, many);
    List<CrewDay.Stop> stops =
        List.of(
            stop(first, 19, LocalTime.of(7, 24), LocalTime.of(11, 12), LocalTime.of(7, 31)),
            stop(second, 14, LocalTime.of(11, 26), LocalTime.of(12, 20), null),
            stop(third, 22, LocalTime.of(13, 12), LocalTime.of(16, 2), LocalTime.of(12, 52)));
    double tonnes = stops.stream().mapToDouble(s -> s.zone().tonnes()).sum();
    Figure time =
        new Figure(
            "time away",
            9.4,
            Unit.HOUR,
            "drive + zones",
            List.of(
                new Figure.Input("drive", 72, Unit.MINUTE),
                new Figure.Input("zones", 492, Unit.MINUTE)),
            "sum");
    Figure cost =
        new Figure(
            "cost of the day",
            6142.5,
            Unit.MONEY,
            "crew hours c + mix p",
            List.of(time.asInput(), new Figure.Input("rate", 410, Unit.MONEY)),
            "the agency's rates");
    return new CrewDay(
        DATE,
        crew(),
        "pit",
        2,
        stops,
        LocalTime.of(7, 5),
        LocalTime.of(16, 29),
        tonnes,
        38.4,
        List.of(time, cost));
  }

  private static CrewDay.Stop stop(
      WorkZone zone, double drive, LocalTime arrive, LocalTime depart, LocalTime load) {
    Figure cycle =
        new Figure(
            "truck cycle",
            47,
            Unit.MINUTE,
            "load + haul + dump + return",
            List.of(
                new Figure.Input("load", 5, Unit.MINUTE),
                new Figure.Input("haul", 18, Unit.MINUTE)),
            "US Army FM 5-434, from memory");
    double loads = Math.ceil(zone.tonnes() / (14 * T_PER_SHORT_TON));
    Figure count =
        new Figure(
            DayFigureName.LOADS,
            loads,
            Unit.COUNT,
            "mix / payload, rounded up",
            List.of(),
            "arithmetic");
    Figure each =
        new Figure(
            DayFigureName.LOAD,
            zone.tonnes() / loads,
            Unit.TONNE,
            "mix / loads",
            List.of(count.asInput()),
            "arithmetic");
    return new CrewDay.Stop(zone, drive, arrive, depart, load, List.of(cycle, count, each));
  }

  static WorkZone zone(String route, ZoneSide side, List<PatchDesign> repairs) {
    double from = repairs.get(0).defect().place().fromAlongM();
    double to = repairs.get(repairs.size() - 1).defect().place().toAlongM();
    double[] middle =
        InventedRoads.at(ROADS.route(route).orElseThrow().parts().get(0), (from + to) / 2);
    double minutes = 35 + repairs.stream().mapToDouble(PatchDesign::minutes).sum();
    double tonnes = repairs.stream().mapToDouble(PatchDesign::tonnes).sum();
    return new WorkZone(
        "zone-" + route,
        route,
        side,
        from,
        to,
        middle[0],
        middle[1],
        repairs,
        traffic(),
        minutes,
        tonnes,
        DATE.plusDays(9));
  }

  static TrafficPlan traffic() {
    Figure taper =
        new Figure(
            "one-lane two-way taper",
            100 * M_PER_FT,
            Unit.METER,
            "50 to 100 ft",
            List.of(),
            "MUTCD 2009 section 6C.08");
    Figure buffer =
        new Figure(
            "buffer space",
            495 * M_PER_FT,
            Unit.METER,
            "stopping sight distance",
            List.of(new Figure.Input("posted speed", 55 * KMH_PER_MPH, Unit.KM_PER_HOUR)),
            "MUTCD 2009 table 6C-2, from memory");
    List<TrafficPlan.SignPlacement> signs = new ArrayList<>();
    for (TrafficApproach from :
        List.of(TrafficApproach.LOWER_MILEPOSTS, TrafficApproach.HIGHER_MILEPOSTS)) {
      signs.add(
          new TrafficPlan.SignPlacement(
              from, new RoadSign("W20-1", "ROAD WORK AHEAD"), 1500 * M_PER_FT, 1));
      signs.add(
          new TrafficPlan.SignPlacement(
              from, new RoadSign("W20-4", "ONE LANE ROAD AHEAD"), 1000 * M_PER_FT, 1));
      signs.add(
          new TrafficPlan.SignPlacement(
              from, new RoadSign("W20-7", "flagger symbol"), 500 * M_PER_FT, 1));
    }
    return Cones.flagged(
        List.of(taper, buffer),
        List.of(
            new TrafficPlan.DeviceCount("cones, 28 in", 46),
            new TrafficPlan.DeviceCount("STOP/SLOW paddles", 2)),
        signs,
        20,
        15,
        3.1,
        List.of("Flaggers: trained, in high-visibility clothing, with a way out behind them."));
  }

  /**
   * The same three places with repairs and traffic control as the designer and planner work them
   * out, and a four-lane road's lane closure added.
   */
  static CrewDay designedDay(UnitSystem units) {
    PatchSettings settings = PatchSettings.standard().inWords(units);
    PatchDesigner designer = new PatchDesigner(TreatmentRules.standard(), settings);
    TrafficPlanner planner = new TrafficPlanner(settings);
    RoadSetting fourLanes =
        new RoadSetting(
            RoadClass.ARTERIAL,
            45 * KMH_PER_MPH,
            4,
            12 * M_PER_FT,
            8 * M_PER_FT,
            false,
            true,
            11_000,
            0.05);
    List<CrewDay.Stop> stops = new ArrayList<>();
    for (CrewDay.Stop stop : day().stops()) {
      WorkZone zone = stop.zone();
      RoadSetting setting = zone.routeId().equals("CR 7") ? fourLanes : InventedRepairs.TWO_LANES;
      List<PatchDesign> repairs =
          zone.repairs().stream().map(r -> designer.design(r.defect(), setting)).toList();
      double minutes = repairs.stream().mapToDouble(PatchDesign::minutes).sum();
      WorkZone designed =
          new WorkZone(
              zone.id(),
              zone.routeId(),
              zone.side(),
              zone.fromAlongM(),
              zone.toAlongM(),
              zone.x(),
              zone.y(),
              repairs,
              planner.plan(ZoneWork.of(setting, zone.lengthM(), minutes, repairs)),
              minutes,
              repairs.stream().mapToDouble(PatchDesign::tonnes).sum(),
              zone.dueOn());
      stops.add(
          new CrewDay.Stop(
              designed,
              stop.driveMinutes(),
              stop.arrive(),
              stop.depart(),
              stop.firstLoadLeavesPlant(),
              stop.figures()));
    }
    double tonnes = stops.stream().mapToDouble(s -> s.zone().tonnes()).sum();
    return new CrewDay(
        DATE,
        crew(),
        "pit",
        2,
        stops,
        day().leaveYard(),
        day().backAtYard(),
        tonnes,
        38.4,
        day().figures());
  }
}
