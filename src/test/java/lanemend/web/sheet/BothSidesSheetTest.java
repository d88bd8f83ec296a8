package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.ZoneSide;
import lanemend.inventory.Severity;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.PatchSettings;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.TrafficPlanner;
import lanemend.patching.traffic.ZoneWork;
import lanemend.web.page.Wording;
import org.junit.jupiter.api.Test;

/** A stop that takes both sides of the road under one set-up, as the crew reads it. */
class BothSidesSheetTest {
  private static final List<PatchDesign> REPAIRS =
      List.of(
          InventedRepairs.blade("D-0401", "SR 14", 3.212, 60, 10, 1.5, Severity.HIGH),
          InventedRepairs.hand("D-0402", "SR 14", 3.230, 3, 2.5, 2, Severity.MEDIUM, Side.RIGHT),
          InventedRepairs.hand("D-0403", "SR 14", 3.226, 3, 2, 2, Severity.LOW, Side.LEFT));

  private static final String SHEET =
      new SheetWriter(InventedDay.context(UnitSystem.US_CUSTOMARY)).html(day());

  private static CrewDay day() {
    CrewDay day = InventedDay.day();
    List<CrewDay.Stop> stops = new ArrayList<>(day.stops());
    CrewDay.Stop stop = stops.get(0);
    stops.set(
        0,
        new CrewDay.Stop(
            zone(),
            stop.driveMinutes(),
            stop.arrive(),
            stop.depart(),
            stop.firstLoadLeavesPlant(),
            stop.figures()));
    return new CrewDay(
        day.date(),
        day.crew(),
        day.plantId(),
        day.trucks(),
        stops,
        day.leaveYard(),
        day.backAtYard(),
        day.tonnes(),
        day.driveKm(),
        day.figures());
  }

  private static WorkZone zone() {
    WorkZone zone = InventedDay.zone("SR 14", ZoneSide.BOTH, REPAIRS);
    double minutes = REPAIRS.stream().mapToDouble(PatchDesign::minutes).sum();
    double to = REPAIRS.get(1).defect().place().toAlongM();
    TrafficPlan traffic =
        new TrafficPlanner(PatchSettings.standard())
            .plan(ZoneWork.of(InventedRepairs.TWO_LANES, to - zone.fromAlongM(), minutes, REPAIRS));
    return new WorkZone(
        zone.id(),
        zone.routeId(),
        ZoneSide.BOTH,
        zone.fromAlongM(),
        to,
        zone.x(),
        zone.y(),
        REPAIRS,
        traffic,
        minutes,
        zone.tonnes(),
        zone.dueOn());
  }

  private static int times(String part) {
    return SHEET.split(Pattern.quote(part), -1).length - 1;
  }

  /** One side, the closure turned over as a step of its own with its minutes, the other side. */
  @Test
  void theStepsAreInTheOrderTheyAreDone() {
    String turning =
        Wording.of(InventedDay.context(UnitSystem.US_CUSTOMARY).agency())
            .text(zone().traffic().turnOverMinutes(), Unit.MINUTE);
    int first = SHEET.indexOf("First the right side facing higher mileposts");
    int repairs = SHEET.indexOf(": 1A to 1B.", first);
    int over = SHEET.indexOf("Turn the closure over", repairs);
    int then = SHEET.indexOf("Then the left side facing higher mileposts", over);
    assertTrue(0 < first && first < repairs && repairs < over && over < then, SHEET);
    assertTrue(SHEET.indexOf(": 1C.", then) > then);
    assertTrue(SHEET.substring(over, then).contains(turning), turning);
    assertTrue(SHEET.substring(over, then).contains("local rules decide"));
  }

  /** Each lane closed has a strip and a traffic plan of its own; signs are listed once. */
  @Test
  void eachSideIsDrawnWithItsOwnClosure() {
    assertEquals(1, times("Strip of stop 1\""));
    assertEquals(1, times("Strip of stop 1, the other side"));
    assertEquals(1, times("Traffic control of stop 1\""));
    assertEquals(1, times("Traffic control of stop 1, the other side"));
  }

  @Test
  void theCautionsOfTurningOverArePrinted() {
    assertEquals(1, times("all traffic is held at both ends, and the closure is seen to be empty"));
    assertEquals(1, times("Before the closure is turned over the first side must bear traffic"));
  }
}
