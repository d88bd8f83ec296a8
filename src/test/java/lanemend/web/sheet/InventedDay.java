package lanemend.web.sheet;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_IN;
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
import java.util.Optional;
import java.util.Set;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Crew;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.Plant;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.Yard;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.HaulGraph;
import lanemend.network.Lane;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.FigureName;
import lanemend.patching.LayDownPlan;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchDesigner;
import lanemend.patching.PatchSettings;
import lanemend.patching.RoadSetting;
import lanemend.patching.TrafficPlan;
import lanemend.patching.TrafficPlanner;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentChoice;
import lanemend.patching.TreatmentRules;
import lanemend.patching.WorkStep;

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

  /** Two blade patches and a pothole, an edge repair on the left, a cluster of nine potholes. */
  static CrewDay day() {
    WorkZone first =
        zone(
            "SR 14",
            Side.RIGHT,
            List.of(
                blade("D-0101", "SR 14", 3.212, 240, 10, 1.5, Severity.HIGH),
                hand("D-0102", "SR 14", 3.290, 3, 2.5, 2, Severity.MEDIUM, Side.RIGHT),
                blade("D-0103", "SR 14", 3.352, 120, 8, 1.0, Severity.MEDIUM)));
    WorkZone second =
        zone(
            "CR 7",
            Side.LEFT,
            List.of(hand("D-0211", "CR 7", 4.105, 2, 2, 3, Severity.HIGH, Side.LEFT)));
    List<PatchDesign> many = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      Severity severity = List.of(Severity.LOW, Severity.MEDIUM, Severity.HIGH).get(i % 3);
      many.add(
          hand("D-03" + (10 + i), "SR 61", 7.60 + 0.018 * i, 2 + i % 4, 2, 2, severity, Side.LEFT));
    }
    WorkZone third = zone("SR 61", Side.LEFT, many);
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
    return new CrewDay.Stop(zone, drive, arrive, depart, load, List.of(cycle));
  }

  static WorkZone zone(String route, Side side, List<PatchDesign> repairs) {
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
    for (String from : List.of("traffic from lower mileposts", "traffic from higher mileposts")) {
      signs.add(new TrafficPlan.SignPlacement(from, "ROAD WORK AHEAD", 1500 * M_PER_FT));
      signs.add(new TrafficPlan.SignPlacement(from, "ONE LANE ROAD AHEAD", 1000 * M_PER_FT));
      signs.add(new TrafficPlan.SignPlacement(from, "Flagger (symbol)", 500 * M_PER_FT));
    }
    return new TrafficPlan(
        "one lane closed on a two-lane road, flaggers",
        List.of(taper, buffer),
        List.of(
            new TrafficPlan.DeviceCount("cones, 28 in", 46),
            new TrafficPlan.DeviceCount("STOP/SLOW paddles", 2)),
        signs,
        2,
        20,
        15,
        3.1,
        List.of("Flaggers: trained, in high-visibility clothing, with a way out behind them."));
  }

  private static final RoadSetting TWO_LANES =
      new RoadSetting(
          RoadClass.ARTERIAL,
          55 * KMH_PER_MPH,
          2,
          12 * M_PER_FT,
          4 * M_PER_FT,
          false,
          false,
          3400,
          0.08);

  private static Defect defect(
      String id,
      DefectKind kind,
      Severity severity,
      String route,
      double mile,
      double[] size,
      Side side) {
    double from = mile * M_PER_MILE;
    double to = from + size[0] * M_PER_FT;
    return new Defect(
        id,
        kind,
        severity,
        new Place(route, from, to, 0, 0, Entered.byMilepost(route, String.valueOf(mile), null)),
        new Lane(side, 1),
        size[0] * M_PER_FT,
        size[1] * M_PER_FT,
        size[2] * M_PER_IN,
        DATE.minusDays(20),
        "patrol 2",
        "",
        DefectStatus.OPEN,
        id.equals("D-0102") ? "gas <main> marker & valve nearby \u2264 6 ft" : "");
  }

  private static Figure minutes(String name, double value) {
    return new Figure(
        name + " minutes",
        value,
        Unit.MINUTE,
        "area / rate",
        List.of(new Figure.Input("rate", 3, Unit.COUNT)),
        Figure.COMMON_PRACTICE);
  }

  private static Figure mix(double tons, double volumeM3) {
    return new Figure(
        FigureName.MIX,
        tons * T_PER_SHORT_TON,
        Unit.TONNE,
        "compacted volume x density",
        List.of(
            new Figure.Input("compacted volume", volumeM3, Unit.CUBIC_METER),
            new Figure.Input("density", 2323, Unit.KG_PER_CUBIC_METER)),
        "common value of 145 lb/ft3, common practice, no source");
  }

  /** Named as the patch designer names them. */
  private static List<Figure> tack(double areaFt2) {
    Figure area =
        new Figure(
            "tacked area",
            areaFt2 * M_PER_FT * M_PER_FT,
            Unit.SQUARE_METER,
            "area of all faces",
            List.of(),
            "plain geometry");
    Figure residual =
        new Figure(
            "tack residual rate",
            0.226,
            Unit.LITER_PER_SQUARE_METER,
            "rate for the surface",
            List.of(),
            "FHWA-HIF-16-017, from memory");
    Figure spray =
        new Figure(
            FigureName.TACK,
            area.value() * 0.226 / 0.6,
            Unit.LITER,
            "area x residual rate / residue fraction",
            List.of(
                area.asInput(),
                residual.asInput(),
                new Figure.Input("residue fraction", 0.6, Unit.RATIO)),
            "arithmetic");
    return List.of(area, residual, spray);
  }

  static PatchDesign blade(
      String id,
      String route,
      double mile,
      double lengthFt,
      double widthFt,
      double depthIn,
      Severity severity) {
    double tons = lengthFt * widthFt * depthIn / 12 * 145 / 2000;
    List<Figure> figures = new ArrayList<>();
    figures.add(mix(tons, lengthFt * widthFt * depthIn / 12 * 0.0283168));
    figures.addAll(tack(lengthFt * widthFt));
    figures.add(
        new Figure(
            FigureName.LIFTS,
            Math.ceil(depthIn),
            Unit.COUNT,
            "ceil(depth / largest lift)",
            List.of(
                new Figure.Input("depth", depthIn * M_PER_IN, Unit.THICKNESS_METER),
                new Figure.Input("largest lift", M_PER_IN, Unit.THICKNESS_METER)),
            Figure.COMMON_PRACTICE));
    figures.add(
        new Figure(
            FigureName.PASSES,
            8,
            Unit.COUNT,
            "passes over the width x lifts",
            List.of(),
            "US Army FM 5-434, from memory"));
    Figure windrow =
        new Figure(
            "windrow section",
            0.37,
            Unit.CROSS_SECTION_SQUARE_METER,
            "loose volume / length",
            List.of(),
            "geometry");
    LayDownPlan plan =
        new LayDownPlan(
            List.of(windrow),
            List.of(
                "Start dumping 2 ft beyond the tack at milepost " + (10 + mile) + ".",
                "Windrow 4.0 ft2 loose along the centreline side of the tack.",
                "First lift: carry the mix out to the shoulder, then back to the centre.",
                "Roll from shoulder to crown, each pass over half of the last."));
    return new PatchDesign(
        defect(
            id,
            DefectKind.RUTTING,
            severity,
            route,
            mile,
            new double[] {lengthFt, widthFt, depthIn},
            Side.RIGHT),
        TWO_LANES,
        new TreatmentChoice(
            Treatment.BLADE_PATCH,
            "rut-blade",
            "Rutting over 100 ft2 is bladed, not hand patched."),
        figures,
        List.of(
            new WorkStep("sweep", minutes("sweep", 6), 2, false),
            new WorkStep("tack and break", minutes("tack and break", 22), 6, false),
            new WorkStep("blade", minutes("blade", 31), 7, false),
            new WorkStep("roll", minutes("roll", 18), 4, false)),
        EnumSet.of(
            Equipment.MOTOR_GRADER, Equipment.DISTRIBUTOR, Equipment.ROLLER, Equipment.BROOM),
        Optional.of(plan),
        List.of(
            "Hot mix burns: gloves, sleeves, and nobody behind a truck that backs up.",
            "Keep people away from the grader's blade and from behind it."));
  }

  static PatchDesign hand(
      String id,
      String route,
      double mile,
      double lengthFt,
      double widthFt,
      double depthIn,
      Severity severity,
      Side side) {
    double tons = lengthFt * widthFt * depthIn / 12 * 145 / 2000;
    List<Figure> figures = new ArrayList<>();
    figures.add(mix(tons, lengthFt * widthFt * depthIn / 12 * 0.0283168));
    figures.addAll(tack(lengthFt * widthFt));
    return new PatchDesign(
        defect(
            id,
            DefectKind.POTHOLE,
            severity,
            route,
            mile,
            new double[] {lengthFt, widthFt, depthIn},
            side),
        TWO_LANES,
        new TreatmentChoice(
            Treatment.HAND_PATCH, "pothole-hand", "A small pothole is patched by hand."),
        figures,
        List.of(
            new WorkStep("cut and clean", minutes("cut and clean", 9), 3, false),
            new WorkStep("fill and compact", minutes("fill and compact", 7), 2, false)),
        EnumSet.of(Equipment.PLATE_COMPACTOR, Equipment.PAVEMENT_SAW),
        Optional.empty(),
        List.of("Hot mix burns: gloves, sleeves, and nobody behind a truck that backs up."));
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
      RoadSetting setting = zone.routeId().equals("CR 7") ? fourLanes : TWO_LANES;
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
              planner.plan(setting, zone.lengthM(), minutes),
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
