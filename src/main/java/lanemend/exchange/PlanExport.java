package lanemend.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayNeeds;
import lanemend.crewdays.Plan;
import lanemend.crewdays.WorkZone;
import lanemend.inventory.Defect;
import lanemend.inventory.Place;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.SideRoad;
import lanemend.patching.RepairPart;

/**
 * A plan for whoever keeps it in a spreadsheet or on a map. It is not read back: a plan is worked
 * out, not entered.
 */
public final class PlanExport {
  private final PlaceColumns places;
  private final boolean us;

  /**
   * @param units of tons and distances
   */
  public PlanExport(Network network, Locator locator, UnitSystem units) {
    this.places = new PlaceColumns(network, locator);
    this.us = units == UnitSystem.US_CUSTOMARY;
  }

  /**
   * One row per crew and day, with its zones as lines.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void crewDays(Path target, Plan plan) {
    new ExportTable<CrewDay>()
        .column("date", CrewDay::date)
        .column("crew", d -> d.crew().id())
        .column("crew_name", d -> d.crew().name())
        .column("plant", CrewDay::plantId)
        .column("trucks", CrewDay::trucks)
        .column("stops", d -> d.stops().size())
        .column("leave_yard", CrewDay::leaveYard)
        .column("back_at_yard", CrewDay::backAtYard)
        .column("finish_probability", PlanExport::finish)
        .column(us ? "tons" : "tonnes", d -> tons(d.tonnes()))
        .column(
            us ? "drive_miles" : "drive_km",
            d -> rounded(us ? d.driveKm() * 1_000 / Conversion.M_PER_MILE : d.driveKm()))
        .shape(this::zones)
        .write(target, plan.days());
  }

  /** The stretches of a day's zones; a zone at one point has none. */
  private Shape zones(CrewDay day) {
    List<double[][]> lines = new ArrayList<>();
    for (CrewDay.Stop stop : day.stops()) {
      WorkZone z = stop.zone();
      Shape shape = places.stretch(z.routeId(), z.fromAlongM(), z.toAlongM());
      if (shape != null && shape.isLine()) {
        lines.addAll(shape.lines());
      }
    }
    return lines.isEmpty() ? null : PlaceColumns.lines(lines);
  }

  /** To three decimals, or null where the day does not say. */
  private static Double finish(CrewDay day) {
    return day.finishProbability().isPresent()
        ? Double.valueOf(Math.rint(day.finishProbability().getAsDouble() * 1_000) / 1_000)
        : null;
  }

  private record StopOfDay(CrewDay day, int number, CrewDay.Stop stop) {
    WorkZone zone() {
      return stop.zone();
    }
  }

  /**
   * One row per stop, with its zone as a line.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void stops(Path target, Plan plan) {
    List<StopOfDay> stops = new ArrayList<>();
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        stops.add(new StopOfDay(day, day.stops().indexOf(stop) + 1, stop));
      }
    }
    new ExportTable<StopOfDay>()
        .column("date", s -> s.day().date())
        .column("crew", s -> s.day().crew().id())
        .column("stop", StopOfDay::number)
        .column("zone", s -> s.zone().id())
        .column("route", s -> places.name(s.zone().routeId()))
        .column("direction", s -> places.direction(s.zone().routeId()))
        .column("side", s -> lower(s.zone().side()))
        .column("milepost_from", s -> places.milepost(s.zone().routeId(), s.zone().fromAlongM()))
        .column("milepost_to", s -> places.milepost(s.zone().routeId(), s.zone().toAlongM()))
        .column("longitude", s -> degrees(s.zone(), 0))
        .column("latitude", s -> degrees(s.zone(), 1))
        .column("drive_minutes", s -> rounded(s.stop().driveMinutes()))
        .column("arrive", s -> s.stop().arrive())
        .column("depart", s -> s.stop().depart())
        .column("first_load_leaves_plant", s -> s.stop().firstLoadLeavesPlant())
        .column("work_minutes", s -> rounded(s.zone().workMinutes()))
        .column(us ? "tons" : "tonnes", s -> tons(s.zone().tonnes()))
        .column("due_on", s -> s.zone().dueOn())
        .column("treatments", s -> treatments(s.zone()))
        .column("defects", s -> defects(s.zone()))
        .column("traffic_control", s -> s.zone().traffic().choice().situation().code())
        .column("traffic_situation", s -> s.zone().traffic().choice().situation().key())
        .column("traffic_reason", s -> s.zone().traffic().choice().reason())
        .column(us ? "closure_ft" : "closure_m", s -> closure(s.zone()))
        .column("flaggers", s -> s.zone().traffic().flaggers())
        .column(
            "delay_vehicle_hours_per_hour",
            s -> rounded(s.zone().traffic().delayVehicleHoursPerHour()))
        .shape(s -> places.stretch(s.zone().routeId(), s.zone().fromAlongM(), s.zone().toAlongM()))
        .write(target, stops);
  }

  /**
   * One row per repair that is in no crew day, with its defect's place as a point.
   *
   * @param defects the county's; one that is not among them has no place here
   * @throws ExchangeException when the file cannot be written
   */
  public void leftOut(Path target, Plan plan, List<Defect> defects) {
    Map<String, Defect> byId = new HashMap<>();
    defects.forEach(d -> byId.put(d.id(), d));
    Function<Plan.LeftOut, Optional<Defect>> of =
        l -> Optional.ofNullable(byId.get(RepairPart.defectOf(l.defectId())));
    Function<Plan.LeftOut, Optional<Place>> at = l -> of.apply(l).map(Defect::place);
    new ExportTable<Plan.LeftOut>()
        .column("defect", Plan.LeftOut::defectId)
        .column("reason", Plan.LeftOut::reason)
        .column("route", l -> at.apply(l).map(p -> places.name(p.routeId())).orElse(""))
        .column("direction", l -> at.apply(l).map(p -> places.direction(p.routeId())).orElse(""))
        .column(
            "milepost",
            l -> at.apply(l).map(p -> places.milepost(p.routeId(), p.fromAlongM())).orElse(""))
        .column("severity", l -> of.apply(l).map(d -> lower(d.severity())).orElse(""))
        .shape(
            l -> at.apply(l).map(p -> PlaceColumns.point(places.lonLat(p.x(), p.y()))).orElse(null))
        .write(target, plan.leftOut());
  }

  private record Loaded(CrewDay day, DayNeeds.Need need) {}

  /**
   * One row per crew, day and thing its traffic control needs: signs, devices and people.
   *
   * @param sideRoads of a route, by its id
   * @throws ExchangeException when the file cannot be written
   */
  public void traffic(Path target, Plan plan, Function<String, List<SideRoad>> sideRoads) {
    List<Loaded> rows = new ArrayList<>();
    for (CrewDay day : plan.days()) {
      DayNeeds.of(day, sideRoads).needs().forEach(need -> rows.add(new Loaded(day, need)));
    }
    new ExportTable<Loaded>()
        .column("date", r -> r.day().date())
        .column("crew", r -> r.day().crew().id())
        .column("kind", r -> lower(r.need().kind()))
        .column("code", r -> r.need().code())
        .column("item", r -> r.need().what())
        .column("most_at_one_stop", r -> r.need().atOneStop())
        .column("over_the_day", r -> r.need().overTheDay())
        .write(target, rows);
  }

  private Double degrees(WorkZone zone, int axis) {
    return Double.valueOf(ExportTable.degrees(places.lonLat(zone.x(), zone.y())[axis]));
  }

  private Double closure(WorkZone zone) {
    double metres = zone.traffic().layout().closureM();
    return rounded(us ? metres / Conversion.M_PER_FT : metres);
  }

  private Double tons(double tonnes) {
    return rounded(us ? tonnes / Conversion.T_PER_SHORT_TON : tonnes);
  }

  /** To two decimals: a plan promises no more. */
  private static Double rounded(double value) {
    return Math.rint(value * 100) / 100;
  }

  private static String treatments(WorkZone zone) {
    return zone.treatments().stream()
        .map(PlanExport::lower)
        .sorted()
        .collect(Collectors.joining(";"));
  }

  private static String defects(WorkZone zone) {
    return zone.repairs().stream().map(r -> r.defect().id()).collect(Collectors.joining(";"));
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
