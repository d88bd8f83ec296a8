package lanemend.crewdays;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.patching.LearnedFactor;
import lanemend.patching.PatchDesign;

/** The traced figures of a crew day: haul, trucks, hours and cost. */
final class DayFigures {
  private static final String QUEUE =
      "finite-source queue M/M/1//N (machine-repair model), textbook; from memory";
  private static final String RULE = "FM 5-434 paragraph 10-10 (as quoted by another work)";
  private static final String ROADS = "shortest time over the road network";
  private static final String ARITHMETIC = "arithmetic";
  private static final String RATES = "the agency's rates";

  private final PlanSettings plan;
  private final Zones zoning;

  DayFigures(PlanSettings plan, Zones zoning) {
    this.plan = plan;
    this.zoning = zoning;
  }

  Figure drive(double minutes) {
    return new Figure(
        DayFigureName.DRIVE,
        minutes,
        Unit.MINUTE,
        "minutes at legal speed / truck speed factor",
        List.of(
            in("minutes at legal speed", minutes * plan.truckSpeedFactor(), Unit.MINUTE),
            in("truck speed factor", plan.truckSpeedFactor(), Unit.RATIO)),
        ROADS);
  }

  /**
   * How the zone gets its mix.
   *
   * @param mixWait the crew's wait before the zone can start
   * @param trucksAtLoader that may come to the plant on one day, all crews'
   */
  List<Figure> trucking(
      CrewKind kind,
      WorkZone zone,
      TruckFleet.Haulage h,
      TruckFleet.Supply s,
      double mixWait,
      int trucksAtLoader) {
    List<Figure> all = new ArrayList<>();
    Figure turn = turn(zone, h, trucksAtLoader);
    Figure haul =
        figure(
            DayFigureName.HAUL,
            h.haulMinutes(),
            Unit.MINUTE,
            "minutes at legal speed / truck speed factor",
            ROADS,
            in("truck speed factor", plan.truckSpeedFactor(), Unit.RATIO));
    Figure cycle =
        figure(
            DayFigureName.CYCLE,
            h.cycleMinutes(),
            Unit.MINUTE,
            "wait for the loader + load + haul + spot and dump + return",
            RULE,
            turn.asInput(),
            in("load", h.loadMinutes(), Unit.MINUTE),
            haul.asInput(),
            in("spot and dump", h.dumpMinutes(), Unit.MINUTE),
            in("return", h.returnMinutes(), Unit.MINUTE));
    Figure loads =
        figure(
            DayFigureName.LOADS,
            s.loads(),
            Unit.COUNT,
            "mix / payload, rounded up, and more where the mix window asks for smaller loads",
            ARITHMETIC,
            in("mix", zone.tonnes(), Unit.TONNE),
            in("payload", h.payloadTonnes(), Unit.TONNE));
    Figure interval =
        figure(
            DayFigureName.INTERVAL,
            s.intervalMinutes(),
            Unit.MINUTE,
            "minutes of laying / loads",
            ARITHMETIC,
            in("minutes of laying", s.intervalMinutes() * s.loads(), Unit.MINUTE),
            loads.asInput());
    all.addAll(List.of(haul, turn, cycle, loads, loadSize(zone, s, loads), interval));
    all.addAll(counts(kind, zone, h, s, cycle, interval));
    all.add(age(h, s, zone));
    all.add(
        figure(
            DayFigureName.MIX_WAIT,
            mixWait,
            Unit.MINUTE,
            "first load's earliest arrival - crew ready, at least 0",
            "the day's truck runs, one by one"));
    return all;
  }

  private static Figure turn(WorkZone zone, TruckFleet.Haulage h, int trucksAtLoader) {
    TruckFleet.Laying laying = Zones.laying(zone);
    return figure(
        DayFigureName.LOADER_WAIT,
        h.loaderMinutes(),
        Unit.MINUTE,
        "Lq / X of N trucks at one loader, each away for haul + spot and dump + laying a full load"
            + " + return",
        QUEUE,
        in("trucks N, all crews' that may come", trucksAtLoader, Unit.COUNT),
        in("load", h.loadMinutes(), Unit.MINUTE),
        in("haul", h.haulMinutes(), Unit.MINUTE),
        in("spot and dump", h.dumpMinutes(), Unit.MINUTE),
        in(
            "laying a full load",
            laying.layMinutes() / TruckFleet.loadsByPayload(laying.tonnes(), h.payloadTonnes()),
            Unit.MINUTE),
        in("return", h.returnMinutes(), Unit.MINUTE));
  }

  private static Figure loadSize(WorkZone zone, TruckFleet.Supply s, Figure loads) {
    return figure(
        DayFigureName.LOAD,
        zone.tonnes() / s.loads(),
        Unit.TONNE,
        "mix / loads",
        ARITHMETIC,
        in("mix", zone.tonnes(), Unit.TONNE),
        loads.asInput());
  }

  private List<Figure> counts(
      CrewKind kind,
      WorkZone zone,
      TruckFleet.Haulage h,
      TruckFleet.Supply s,
      Figure cycle,
      Figure interval) {
    MachineRepairQueue queue = TruckFleet.queue(s.trucks(), s.intervalMinutes(), h);
    Figure.Input trucks = in("trucks N", s.trucks(), Unit.COUNT);
    List<Figure> all = new ArrayList<>();
    all.add(
        figure(
            DayFigureName.RULE_TRUCKS,
            TruckFleet.trucksByRule(s.intervalMinutes(), h),
            Unit.COUNT,
            "1 + cycle / interval, rounded up",
            RULE,
            cycle.asInput(),
            interval.asInput()));
    double crewPerHour =
        kind.crew().costPerHour().doubleValue()
            + plan.delayCostPerVehicleHour().doubleValue()
                * zone.traffic().delayVehicleHoursPerHour();
    double truckPerHour = plan.truckCostPerHour().doubleValue();
    TruckFleet.cheapest(
            kind.crew().trucks(),
            Zones.laying(zone),
            h,
            zone.workMinutes(),
            crewPerHour,
            truckPerHour)
        .ifPresent(
            best ->
                all.add(
                    figure(
                        DayFigureName.BEST_TRUCKS,
                        best.trucks(),
                        Unit.COUNT,
                        "least (crew and delay + N x truck) x (time at the zone with N trucks)",
                        QUEUE,
                        in("crew and delay, an hour", crewPerHour, Unit.MONEY),
                        in("truck, an hour", truckPerHour, Unit.MONEY),
                        in("work without waiting", zone.workMinutes(), Unit.MINUTE))));
    all.add(
        figure(
            DayFigureName.RATE,
            queue.throughputPerMinute() * 60 * zone.tonnes() / s.loads(),
            Unit.TONNE_PER_HOUR,
            "X x load, X = (1 - P0) / interval, P0 from N trucks away for a cycle each",
            QUEUE,
            trucks,
            cycle.asInput(),
            interval.asInput(),
            in("P0", queue.idle(), Unit.RATIO)));
    all.add(
        figure(
            DayFigureName.TRUCK_WAIT,
            s.waitMinutes(),
            Unit.MINUTE,
            "loads after the first N x (1 / X - interval)",
            QUEUE,
            in("loads after the first N", Math.max(0, s.loads() - s.trucks()), Unit.COUNT),
            in("1 / X", 1 / queue.throughputPerMinute(), Unit.MINUTE),
            interval.asInput()));
    return all;
  }

  private static Figure age(TruckFleet.Haulage h, TruckFleet.Supply s, WorkZone zone) {
    double span = Zones.laying(zone).spanMinutes() + s.waitMinutes();
    return figure(
        DayFigureName.MIX_AGE,
        h.haulMinutes() + h.dumpMinutes() + s.queueMinutes() + span / s.loads(),
        Unit.MINUTE,
        "haul + spot and dump + wait to unload + span of laying / loads; not over the mix window",
        QUEUE,
        in("haul", h.haulMinutes(), Unit.MINUTE),
        in("spot and dump", h.dumpMinutes(), Unit.MINUTE),
        in("wait to unload", s.queueMinutes(), Unit.MINUTE),
        in("span of laying", span, Unit.MINUTE),
        in("mix window", h.windowMinutes(), Unit.MINUTE));
  }

  Figure zoneMinutes(WorkZone zone, CrewFit.OnKind on) {
    double wait = on.trucking() == null ? 0 : on.trucking().waitMinutes();
    double patches = zone.repairs().stream().mapToDouble(PatchDesign::minutes).sum();
    double ends = zone.traffic().setUpMinutes() + zone.traffic().takeDownMinutes();
    double turnOver = zone.traffic().turnOverMinutes();
    return figure(
        DayFigureName.ZONE_MINUTES,
        on.serviceMinutes(),
        Unit.MINUTE,
        "set-up and take-down + repairs + shifts between them + turning the closure over"
            + " + waiting for trucks",
        "sum of the steps; shifts of "
            + (int) Zones.SHIFT_MINUTES
            + " min and at "
            + (int) Zones.SHIFT_KMH
            + " km/h: "
            + Figure.COMMON_PRACTICE,
        in("set-up and take-down", ends, Unit.MINUTE),
        in("repairs", patches, Unit.MINUTE),
        in("shifts", zone.workMinutes() - ends - patches - turnOver, Unit.MINUTE),
        in("turning the closure over", turnOver, Unit.MINUTE),
        in("waiting for trucks", wait, Unit.MINUTE));
  }

  /** Hours, trucks and cost of a day that ends {@code end} minutes after the shift starts. */
  List<Figure> day(
      CrewKind kind,
      LocalDate date,
      List<CrewDay.Stop> stops,
      List<CrewFit.OnKind> work,
      double end,
      double km) {
    double hours = end / 60;
    Figure hoursOut =
        figure(
            DayFigureName.HOURS,
            hours,
            Unit.HOUR,
            "start of the shift until back at the yard",
            ARITHMETIC);
    Figure trucks =
        figure(
            DayFigureName.TRUCKS,
            kind.trucks(),
            Unit.COUNT,
            "the number that makes the whole day cheapest, the same for all its zones",
            "compared by the search, each number with its own waits");
    double truckHour = plan.truckCostPerHour().doubleValue();
    List<Figure> parts = new ArrayList<>();
    parts.addAll(
        List.of(
            crewCost(kind.crew(), hoursOut),
            money(
                DayFigureName.TRUCK_COST,
                hours * kind.trucks() * truckHour,
                "hours x trucks x truck rate",
                hoursOut.asInput(),
                trucks.asInput(),
                in("truck rate", truckHour, Unit.MONEY)),
            money(
                DayFigureName.TRAVEL_COST,
                km * plan.costPerKm().doubleValue(),
                "distance x rate",
                in("distance", km * 1000, Unit.ROAD_METER))));
    parts.addAll(siteCosts(kind, date, stops, work));
    List<Figure> all = new ArrayList<>(List.of(hoursOut, trucks));
    if (kind.plant() != null && !kind.plant().isStockpile()) {
      all.add(window(kind));
    }
    all.addAll(parts);
    all.add(
        money(
            DayFigureName.COST,
            parts.stream().mapToDouble(Figure::value).sum(),
            "sum of the parts",
            parts.stream().map(Figure::asInput).toArray(Figure.Input[]::new)));
    return all;
  }

  private static Figure crewCost(Crew crew, Figure hours) {
    double rate = crew.costPerHour().doubleValue();
    Figure asReckoned =
        money(
            DayFigureName.CREW_COST,
            hours.value() * rate,
            "hours x crew rate",
            hours.asInput(),
            in("crew rate", rate, Unit.MONEY));
    LearnedFactor learned = crew.pace().hourCost();
    return learned == null
        ? asReckoned
        : figure(
            asReckoned.name(),
            asReckoned.value(),
            asReckoned.unit(),
            "hours x crew rate, the agency's times a learned factor",
            RATES + "; " + learned.source(),
            hours.asInput(),
            in("crew rate", rate, Unit.MONEY),
            in("learned factor in it", learned.factor(), Unit.RATIO));
  }

  private static Figure window(CrewKind kind) {
    return figure(
        DayFigureName.MIX_WINDOW,
        kind.windowMinutes(),
        Unit.MINUTE,
        "supplier's window x share left by the day's cold and wind",
        "share: Newton's law of cooling (textbook), wind by Juerges' formula (from memory)",
        in("supplier's window", kind.plant().mixWindowMinutes(), Unit.MINUTE),
        in("share left", kind.windowShare(), Unit.RATIO));
  }

  private List<Figure> siteCosts(
      CrewKind kind, LocalDate date, List<CrewDay.Stop> stops, List<CrewFit.OnKind> work) {
    double mix = 0;
    double delay = 0;
    double late = 0;
    for (int i = 0; i < stops.size(); i++) {
      WorkZone zone = stops.get(i).zone();
      mix += kind.plant() == null ? 0 : kind.plant().pricePerTonne().doubleValue() * zone.tonnes();
      delay += CountyProblem.delayCost(plan, zone, work.get(i).serviceMinutes());
      for (PatchDesign repair : zone.repairs()) {
        long days = CountyProblem.daysLate(zoning.dueOn(repair), date);
        late += plan.latePerDay().doubleValue() * days;
      }
    }
    return List.of(
        money(DayFigureName.MIX_COST, mix, "mix x price"),
        money(
            DayFigureName.DELAY_COST,
            delay,
            "vehicle-hours an hour x hours at the zone x value of an hour, over zones"),
        money(DayFigureName.LATE_COST, late, "days late x cost of a day, over repairs"));
  }

  /** The day's whole cost. */
  static BigDecimal cost(List<Figure> figures) {
    return figures.stream()
        .filter(f -> f.name().equals(DayFigureName.COST))
        .map(f -> BigDecimal.valueOf(f.value()).setScale(2, RoundingMode.HALF_UP))
        .findFirst()
        .orElseThrow();
  }

  private static Figure money(String name, double value, String formula, Figure.Input... inputs) {
    double cents = BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP).doubleValue();
    return figure(name, cents, Unit.MONEY, formula, RATES, inputs);
  }

  private static Figure figure(
      String name, double value, Unit unit, String formula, String source, Figure.Input... inputs) {
    return new Figure(name, value, unit, formula, List.of(inputs), source);
  }

  private static Figure.Input in(String name, double value, Unit unit) {
    return new Figure.Input(name, value, unit);
  }
}
