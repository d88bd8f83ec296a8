package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import lanemend.crewdays.routing.DayClock;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.KeptDays;
import lanemend.measure.Unit;
import lanemend.patching.Equipment;
import lanemend.patching.Treatment;

/** Says in words why a crew cannot do certain zones on a day. */
final class DayLimits {
  private final PlanState state;
  private final PlanBase base;
  private final DayProblem p;
  private final CrewFit fit;
  private final DayClock clock = new DayClock();

  /** A day run without regard to its limits. */
  record Run(int kind, double endMinutes, double cost, List<Integer> plantShut) {}

  DayLimits(PlanState state) {
    this.state = state;
    base = state.base;
    p = state.free;
    fit = new CrewFit(base.agency(), base.kinds(), base.calendar(), state.legs);
  }

  /** Why the crew does not work on a date; null when it does. */
  String notWorked(Crew crew, LocalDate date) {
    PlanSettings plan = base.agency().plan();
    String closed =
        base.rules().closed(crew.id(), date).map(r -> r.words() + ": " + r.reason()).orElse(null);
    if (closed != null) {
      return closed;
    }
    if (date.isBefore(plan.firstDay())
        || !date.isBefore(plan.firstDay().plusDays(plan.calendarDays()))) {
      return date
          + " lies outside the plan's days, "
          + plan.firstDay()
          + " to "
          + plan.firstDay().plusDays(plan.calendarDays() - 1L);
    }
    if (!plan.workdays().contains(date.getDayOfWeek())) {
      return date + " is a " + words(date.getDayOfWeek()) + ", which is not worked";
    }
    if (plan.blackout().contains(date)) {
      return "nobody works on " + date;
    }
    WorkWeather.Outlook sky = base.calendar().weather().on(date);
    if (!sky.worked()) {
      return "nobody is planned on " + date + ": " + sky.reason();
    }
    return base.calendar().worked(crew).contains(date)
        ? null
        : crew.name() + " does not work on " + date;
  }

  /** Every limit these stops break in the slot, however it is run; never empty. */
  List<String> broken(int slot, int[] stops, KeptDays days) {
    Crew crew = state.slots.get(slot).crew();
    List<String> found = new ArrayList<>();
    for (int z : stops) {
      String alone = alone(crew, z);
      if (alone != null) {
        found.add(alone);
      }
    }
    if (!found.isEmpty()) {
      return found;
    }
    LocalDate date = state.slots.get(slot).date();
    machines(slot, stops, days, date, found);
    Run run = leastOver(slot, stops);
    if (run == null) {
      found.add(noKind(crew, stops, date));
      return found;
    }
    trucks(slot, run.kind(), days, date, found);
    plantTonnes(slot, stops, run.kind(), days, date, found);
    DayKind kind = p.kinds()[run.kind()];
    if (run.endMinutes() > kind.limitMinutes() + 1e-7) {
      found.add(
          crew.name()
              + " would be back at "
              + crew.shiftStart().plusMinutes(Math.round(run.endMinutes()))
              + " on "
              + date
              + ", "
              + shown(run.endMinutes() - kind.limitMinutes(), Unit.MINUTE)
              + " after its shift");
    }
    for (int z : run.plantShut()) {
      Plant plant = base.kinds().get(run.kind()).plant();
      found.add(
          plant.name()
              + " closes at "
              + plant.closes()
              + ", before the last load for "
              + state.zones.get(z).id());
    }
    if (found.isEmpty() && p.chance() != null) {
      found.add(
          crew.name()
              + " would be back at "
              + crew.shiftStart().plusMinutes(Math.round(run.endMinutes()))
              + " on "
              + date
              + ", which ends inside the shift with less than the "
              + shown(100 * base.agency().plan().finish().probability(), Unit.PERCENT)
              + " asked for");
    }
    if (found.isEmpty()) {
      found.add(crew.name() + " has no order of work that fits on " + date);
    }
    return found;
  }

  private String noKind(Crew crew, int[] stops, LocalDate date) {
    WorkWeather.Outlook sky = base.calendar().weather().on(date);
    boolean mix = Arrays.stream(stops).anyMatch(z -> p.demand()[z] > 0);
    return mix && !sky.hotMix()
        ? sky.reason() + " (" + date + ")"
        : crew.name() + " has no one plant and number of trucks for all of it";
  }

  /** True when the crew could do the zone on a day of its own. */
  boolean canAlone(Crew crew, int z) {
    return alone(crew, z) == null;
  }

  /** Why the crew could not do the zone even alone; null when it could. */
  private String alone(Crew crew, int z) {
    WorkZone zone = state.zones.get(z);
    CrewFit.Obstacle best = CrewFit.Obstacle.TREATMENT;
    CrewKind kind = null;
    ZoneFit at = fit.at(zone, z);
    for (int k = 0; k < base.kinds().size(); k++) {
      if (base.kinds().get(k).crew().equals(crew)) {
        CrewFit.Obstacle one = at.on(k).obstacle();
        if (one.compareTo(best) >= 0) {
          best = one;
          kind = base.kinds().get(k);
        }
      }
    }
    String what =
        switch (best) {
          case TREATMENT -> "does not do " + treatments(crew, zone);
          case NO_TRUCKS -> "has no haul truck for the mix";
          case NO_ROAD_FROM_YARD -> "has no road to it";
          case NO_ROAD_FROM_PLANT -> "has no road to it from any plant";
          case TONNES -> "needs more mix for it than a plant gives in a day";
          case MIX_WINDOW -> "cannot lay its mix inside the mix window of " + kind.plant().name();
          case PLANT_HOURS ->
              "cannot fetch its last load before " + kind.plant().name() + " closes";
          case OTHER_MIX -> "has no plant that gives the mix it needs";
          case SHIFT -> "cannot finish it inside one shift";
          case CHANCE -> "does not finish it inside one shift as surely as asked";
          default -> null;
        };
    return what == null ? null : crew.name() + " " + what + " (" + zone.id() + ")";
  }

  private static String treatments(Crew crew, WorkZone zone) {
    return zone.treatments().stream()
        .filter(t -> !crew.does().contains(t))
        .map((Treatment t) -> words(t))
        .sorted()
        .collect(Collectors.joining(" and "));
  }

  private void machines(int slot, int[] stops, KeptDays days, LocalDate date, List<String> found) {
    int missing = days.missingMachines(slot, stops);
    for (int m = 0; m < base.calendar().shared().size(); m++) {
      if ((missing >> m & 1) != 0) {
        Equipment kind = base.calendar().shared().get(m);
        int there = base.calendar().inService(date, kind);
        found.add(
            there == 0
                ? "no " + words(kind) + " is in service on " + date
                : "every " + words(kind) + " in service on " + date + " is with another crew");
      }
    }
  }

  private void trucks(int slot, int kind, KeptDays days, LocalDate date, List<String> found) {
    int lacking = days.lacking(slot, kind);
    if (lacking > 0) {
      found.add(lacking + (lacking == 1 ? " truck is" : " trucks are") + " wanting on " + date);
    }
  }

  private void plantTonnes(
      int slot, int[] stops, int kind, KeptDays days, LocalDate date, List<String> found) {
    int source = p.kinds()[kind].source();
    if (source >= 0) {
      double tonnes = Arrays.stream(stops).mapToDouble(z -> p.demand()[z]).sum();
      double all = days.drawnByOthers(slot, source) + tonnes;
      Plant plant = base.agency().plants().get(source);
      if (all > plant.dailyTonnes() + 1e-7) {
        found.add(
            shown(all, Unit.TONNE)
                + " would be ordered from "
                + plant.name()
                + " on "
                + date
                + ", which gives "
                + shown(plant.dailyTonnes(), Unit.TONNE));
      }
      double left = days.stockLeft(slot, source);
      if (tonnes > left + 1e-7) {
        found.add(
            shown(tonnes, Unit.TONNE)
                + " would be taken from "
                + plant.name()
                + ", where the plan leaves "
                + shown(Math.max(0, left), Unit.TONNE));
      }
    }
  }

  /** The way to run the slot that is over its limits by least; null when no kind can at all. */
  Run leastOver(int slot, int[] stops) {
    Run best = null;
    double over = Double.POSITIVE_INFINITY;
    for (int k : p.slots()[slot].kinds()) {
      if (Arrays.stream(stops).anyMatch(z -> Double.isInfinite(p.service()[k][z]))) {
        continue;
      }
      Run run = run(k, p.slots()[slot].date(), stops);
      double much =
          Math.max(0, run.endMinutes() - p.kinds()[k].limitMinutes())
              + 1_000.0 * run.plantShut().size();
      if (much < over) {
        over = much;
        best = run;
      }
    }
    return best;
  }

  private Run run(int k, int date, int[] stops) {
    DayKind kind = p.kinds()[k];
    clock.begin(kind.mix());
    List<Integer> shut = new ArrayList<>();
    int from = p.depotPlace(k);
    double km = 0;
    double cost = 0;
    for (int z : stops) {
      int leg = p.leg(from, z);
      km += p.legs()[leg];
      if (!clock.visit(
          p.legs()[leg + 1], p.service()[k][z], p.supply() == null ? null : p.supply()[k][z])) {
        shut.add(z);
      }
      cost += p.stopCost()[k][z] + p.late()[date][z];
      from = z;
    }
    int home = p.leg(from, p.depotPlace(k));
    double end = clock.end(p.legs()[home + 1]);
    cost += (km + p.legs()[home]) * kind.costPerKm() + end * kind.costPerMinute();
    return new Run(k, end, cost, shut);
  }

  private String shown(double value, Unit unit) {
    return base.agency().units().show(value, unit).text();
  }

  static String words(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
