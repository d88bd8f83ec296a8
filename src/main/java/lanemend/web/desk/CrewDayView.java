package lanemend.web.desk;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import lanemend.county.County;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.DayNeeds;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.SideRoadInZone;
import lanemend.crewdays.WorkZone;
import lanemend.inventory.Defect;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.MilepostMap;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.web.page.Wording;

/**
 * One crew day with its stops in order, for a list and a map.
 *
 * @param yard null where the agency's yards do not have it
 * @param plant null when no mix is needed
 * @param cautions of all stops, each once
 */
record CrewDayView(
    String state,
    LocalDate date,
    String crew,
    String crewName,
    PlanView.Day inShort,
    Point yard,
    Point plant,
    List<Zone> zones,
    List<Trace> figures,
    List<Load> load,
    List<String> cautions) {

  /**
   * A sign, device or duty of the day's traffic control.
   *
   * @param atOneStop the most at any one stop
   */
  record Load(String item, int atOneStop, int overTheDay) {}

  /** A named place. */
  record Point(String name, double lon, double lat) {}

  /**
   * A work zone.
   *
   * @param repair id of its first repair, by which changes name the zone
   * @param line longitude and latitude along the road
   * @param traffic the typical situation, with its number in the manual
   * @param pinned why it is held where it is, or null
   */
  record Zone(
      int stop,
      String repair,
      String route,
      String milepost,
      String milepostTo,
      String side,
      String arrive,
      String depart,
      String mix,
      String workTime,
      String traffic,
      String trafficReason,
      List<Trace> trafficFigures,
      String pinned,
      double[] at,
      List<double[]> line,
      List<Repair> repairs,
      List<Trace> figures) {}

  /**
   * A repair of a zone.
   *
   * @param mixPlanned in the agency's unit of weight, to fill a form with
   */
  record Repair(
      String id,
      String label,
      String defect,
      String milepost,
      String lane,
      String kind,
      String severity,
      String treatment,
      String size,
      String mix,
      double mixPlanned,
      double hoursPlanned,
      LocalDate doneBy,
      List<Trace> figures) {}

  static CrewDayView of(CrewDay day, County county, String state) {
    Wording words = Wording.of(county.agency());
    List<Zone> zones = new ArrayList<>();
    TreeSet<String> cautions = new TreeSet<>();
    for (CrewDay.Stop stop : day.stops()) {
      zones.add(zone(zones.size() + 1, stop, county, words));
      cautions.addAll(stop.zone().traffic().cautions());
      stop.zone().repairs().forEach(r -> cautions.addAll(r.cautions()));
      cautions.addAll(sideRoads(stop.zone(), county));
    }
    return new CrewDayView(
        state,
        day.date(),
        day.crew().id(),
        day.crew().name(),
        PlanView.Day.of(day, county, words),
        county.agency().yards().stream()
            .filter(y -> y.id().equals(day.crew().yardId()))
            .map(y -> point(county, y.name(), y.x(), y.y()))
            .findFirst()
            .orElse(null),
        county.agency().plants().stream()
            .filter(p -> p.id().equals(day.plantId()))
            .map(p -> point(county, p.name(), p.x(), p.y()))
            .findFirst()
            .orElse(null),
        zones,
        Trace.of(day.figures(), county.units()),
        DayNeeds.of(day, county.haulGraph()::sideRoads).needs().stream()
            .map(n -> new Load(n.text(), n.atOneStop(), n.overTheDay()))
            .toList(),
        List.copyOf(cautions));
  }

  private static List<String> sideRoads(WorkZone zone, County county) {
    MilepostMap posts = county.network().route(zone.routeId()).orElseThrow().mileposts();
    return SideRoadInZone.of(zone, county.haulGraph().sideRoads(zone.routeId())).stream()
        .map(
            s ->
                s.road().words()
                    + ", at milepost "
                    + posts.at(s.road().alongM()).text()
                    + " of "
                    + zone.routeId()
                    + ", "
                    + s.advice())
        .toList();
  }

  private static Point point(County county, String name, double x, double y) {
    double[] at = county.crs().unproject(x, y);
    return new Point(name, DeskNumbers.degrees(at[0]), DeskNumbers.degrees(at[1]));
  }

  private static Zone zone(int number, CrewDay.Stop stop, County county, Wording words) {
    WorkZone z = stop.zone();
    double[] at = county.crs().unproject(z.x(), z.y());
    return new Zone(
        number,
        z.repairs().get(0).defect().id(),
        z.routeId(),
        PlanView.milepost(county, z.routeId(), z.fromAlongM()),
        PlanView.milepost(county, z.routeId(), z.toAlongM()),
        DeskWords.code(z.side()),
        words.time(stop.arrive()),
        words.time(stop.depart()),
        words.text(z.tonnes(), Unit.TONNE),
        words.text(z.workMinutes(), Unit.MINUTE),
        z.traffic().choice().situation().code() + ", " + z.traffic().situation(),
        z.traffic().choice().reason() + ". " + z.traffic().choice().source(),
        Trace.of(z.traffic().figures(), county.units()),
        z.repairs().stream()
            .flatMap(r -> county.handRules().pin(r.defect().id()).stream())
            .map(HandRule::reason)
            .findFirst()
            .orElse(null),
        new double[] {DeskNumbers.degrees(at[0]), DeskNumbers.degrees(at[1])},
        line(county, z),
        z.repairs().stream().map(r -> repair(r, county, words)).toList(),
        Trace.of(stop.figures(), county.units()));
  }

  /** The road under a zone, point by point; a very short zone is drawn a little longer. */
  private static List<double[]> line(County county, WorkZone z) {
    double from = Math.max(0, Math.min(z.fromAlongM(), (z.fromAlongM() + z.toAlongM()) / 2 - 15));
    double to = Math.max(z.toAlongM(), from + 30);
    int steps = (int) Math.max(2, Math.min(60, Math.ceil((to - from) / 40)));
    List<double[]> line = new ArrayList<>();
    for (int i = 0; i <= steps; i++) {
      county
          .locator()
          .pointAt(z.routeId(), from + (to - from) * i / steps, 0)
          .map(p -> county.crs().unproject(p.x(), p.y()))
          .ifPresent(
              p -> line.add(new double[] {DeskNumbers.degrees(p[0]), DeskNumbers.degrees(p[1])}));
    }
    return line;
  }

  private static Repair repair(PatchDesign r, County county, Wording words) {
    Defect d = r.defect();
    UnitSystem units = county.units();
    return new Repair(
        d.id(),
        RepairPart.label(d.id()),
        RepairPart.defectOf(d.id()),
        PlanView.milepost(county, d.place().routeId(), d.place().fromAlongM()),
        d.lane().code(),
        DeskWords.code(d.kind()),
        DeskWords.code(d.severity()),
        DeskWords.plain(r.choice().treatment()),
        words.size(d.lengthM()) + " x " + words.size(d.widthM()),
        words.text(r.tonnes(), Unit.TONNE),
        Math.rint(100 * units.show(r.tonnes(), Unit.TONNE).value()) / 100,
        Math.rint(10 * r.minutes() / 60) / 10,
        county.handRules().doneBy(d.id()).map(HandRule::date).orElse(null),
        Trace.of(r.figures(), units));
  }
}
