package lanemend.crewdays;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.network.RoadClass;
import lanemend.patching.PatchDesign;

/** Copies of a plan's parts with some facts changed. */
final class Spoiled {
  private Spoiled() {}

  /** The first day with some of its facts changed. */
  static CrewDay day(CrewDay d, LocalDate date, Crew crew, String plant, int trucks) {
    return new CrewDay(
        date,
        crew,
        plant,
        trucks,
        d.stops(),
        d.leaveYard(),
        d.backAtYard(),
        d.tonnes(),
        d.driveKm(),
        d.figures());
  }

  static CrewDay times(CrewDay d, LocalTime leave, LocalTime back, List<CrewDay.Stop> s) {
    return new CrewDay(
        d.date(),
        d.crew(),
        d.plantId(),
        d.trucks(),
        s,
        leave,
        back,
        d.tonnes(),
        d.driveKm(),
        d.figures());
  }

  static CrewDay.Stop stop(
      CrewDay.Stop s, WorkZone zone, double drive, LocalTime arrive, LocalTime depart) {
    return new CrewDay.Stop(zone, drive, arrive, depart, s.firstLoadLeavesPlant(), s.figures());
  }

  static WorkZone zone(WorkZone z, List<PatchDesign> repairs, double work, LocalDate due) {
    return new WorkZone(
        z.id(),
        z.routeId(),
        z.side(),
        z.fromAlongM(),
        z.toAlongM(),
        z.x(),
        z.y(),
        repairs,
        z.traffic(),
        work,
        z.tonnes(),
        due);
  }

  static Plant plant(Plant p, LocalTime opens, LocalTime closes, double tonnes, double window) {
    return new Plant(
        p.id(),
        p.name(),
        p.x(),
        p.y(),
        opens,
        closes,
        tonnes,
        p.loadMinutes(),
        window,
        p.pricePerTonne());
  }

  static PlanSettings settings(
      PlanSettings s, Set<LocalDate> blackout, Map<RoadClass, Double> longest) {
    return new PlanSettings(
        s.firstDay(),
        s.calendarDays(),
        EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY),
        blackout,
        s.dueDays(),
        s.dueFactor(),
        longest,
        s.truckPayloadTonnes(),
        s.truckSpeedFactor(),
        s.dumpMinutes(),
        s.truckCostPerHour(),
        s.costPerKm(),
        s.delayCostPerVehicleHour(),
        s.latePerDay(),
        s.currency());
  }

  static PatchDesign withStatus(PatchDesign r, DefectStatus status) {
    Defect d = r.defect();
    Defect changed =
        new Defect(
            d.id(),
            d.kind(),
            d.severity(),
            d.place(),
            d.lane(),
            d.lengthM(),
            d.widthM(),
            d.depthM(),
            d.foundOn(),
            d.foundBy(),
            d.photo(),
            status,
            d.note());
    return new PatchDesign(
        changed,
        r.setting(),
        r.choice(),
        r.figures(),
        r.steps(),
        r.equipment(),
        r.layDown(),
        r.cautions());
  }
}
