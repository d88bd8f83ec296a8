package lanemend.crewdays;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import lanemend.crewdays.routing.KeptDays;
import lanemend.inventory.DefectStatus;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/**
 * A plan opened for changes by hand. Opening works out the drives among its zones once; after that
 * each change is judged in far less than a tenth of a second, with its cost and every limit it
 * would break. A change is judged, not made: its plan is in the {@link Trial}. Not for several
 * threads.
 */
public final class OpenPlan {
  private final PlanBase base;
  private final Assignment kept;
  private final LocalDate today;
  private final PlanState state;
  private final KeptDays days;
  private final DayLimits limits;
  private final double cost;

  /**
   * Opens a plan.
   *
   * @param rules what is settled by hand so far
   * @param repairs of every defect that waits; all of the plan's are among them
   * @param today crew days before it are past and stay
   * @throws IllegalArgumentException when the plan names a repair that is not there
   */
  public OpenPlan(
      Haul haul,
      Agency agency,
      ZoneTraffic traffic,
      HandRules rules,
      List<PatchDesign> repairs,
      Assignment kept,
      LocalDate today) {
    base = PlanBase.of(haul, agency, traffic, rules, kept);
    this.kept = kept;
    this.today = today;
    Map<String, PatchDesign> byId = new HashMap<>();
    repairs.forEach(r -> byId.put(r.defect().id(), r));
    state = new PlanState(base, kept, byId, unplaced(base, kept, repairs), today);
    days = new KeptDays(state.free, state.seq, state.freeKind);
    limits = new DayLimits(state);
    double sum = 0;
    for (int s = 0; s < state.slots.size(); s++) {
      sum += costOf(days, s);
    }
    cost = sum;
  }

  /** Repairs in no crew day that could be in one, a zone each. */
  static List<WorkZone> unplaced(PlanBase base, Assignment kept, List<PatchDesign> repairs) {
    java.util.Set<String> planned = kept.defectIds();
    List<WorkZone> zones = new ArrayList<>();
    for (PatchDesign repair : repairs) {
      String id = repair.defect().id();
      DefectStatus status = repair.defect().status();
      boolean waits = status == DefectStatus.OPEN || status == DefectStatus.PLANNED;
      if (waits
          && !planned.contains(id)
          && repair.choice().treatment() != Treatment.DEFER_TO_OVERLAY
          && base.rules().leftOut(id).isEmpty()) {
        zones.add(base.zoning().zone(List.of(repair)));
      }
    }
    return zones;
  }

  /** Cost of the plan as it is, by the agency's rates, days that cannot be worked apart. */
  public BigDecimal cost() {
    return money(cost);
  }

  /** A crew day's cost even where it breaks a limit. */
  private double costOf(KeptDays of, int slot) {
    double exact = of.cost(slot);
    if (Double.isFinite(exact)) {
      return exact;
    }
    DayLimits.Run run = limits.leastOver(slot, of.stops(slot));
    return run == null ? 0 : run.cost();
  }

  /**
   * Moves the zone that holds a defect to a crew and date, at the place in the day that costs
   * least. A repair in no crew day is put there as a zone of its own.
   *
   * @throws IllegalArgumentException when there is no such crew or the defect does not wait
   */
  public Trial move(String defectId, String crewId, LocalDate date) {
    int z = state.zoneOf(defectId);
    if (z < 0) {
      throw new IllegalArgumentException("defect '" + defectId + "' does not wait for a crew day");
    }
    Crew crew =
        base.agency().crews().stream()
            .filter(c -> c.id().equals(crewId))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("there is no crew '" + crewId + "'"));
    List<String> broken = new ArrayList<>();
    settledByHand(z, crew, date, broken);
    int slot = state.slot(crewId, date);
    if (slot < 0) {
      broken.add(limits.notWorked(crew, date));
      return new Trial(broken, cost(), null, null);
    }
    int from = state.home[z];
    if (slot == from) {
      return new Trial(broken, cost(), cost(), broken.isEmpty() ? kept : null);
    }
    return move(z, from, slot, broken);
  }

  private Trial move(int z, int from, int slot, List<String> broken) {
    KeptDays then = new KeptDays(state.free, days.allStops(), days.allKinds());
    double now = cost;
    if (from >= 0) {
      now -= costOf(then, from);
      int[] rest = KeptDays.without(then.stops(from), z);
      KeptDays.Way way = then.run(from, rest);
      if (way == null) {
        broken.addAll(limits.broken(from, rest, then));
        way = new KeptDays.Way(then.kind(from), rest, 0, false);
      }
      then.put(from, way);
      now += costOf(then, from);
    }
    now -= costOf(then, slot);
    KeptDays.Way way = then.insert(slot, then.stops(slot), z);
    if (way == null) {
      int[] all = atEnd(then.stops(slot), z);
      broken.addAll(limits.broken(slot, all, then));
      DayLimits.Run run = limits.leastOver(slot, all);
      BigDecimal after = run == null ? null : money(now + run.cost());
      return new Trial(broken, cost(), after, null);
    }
    then.put(slot, way);
    now += way.cost();
    Assignment made = broken.isEmpty() ? made(then, from, slot, z) : null;
    return new Trial(broken, cost(), money(now), made);
  }

  private static int[] atEnd(int[] stops, int z) {
    int[] all = Arrays.copyOf(stops, stops.length + 1);
    all[stops.length] = z;
    return all;
  }

  /** What stands against a zone on a crew day. */
  enum Hindrance {
    NONE(""),
    SETTLED("locked or past"),
    MACHINE("every machine it needs is taken"),
    PLANT_TONNES("the plant has no tonnes left"),
    SHIFT("the shift is full");

    private final String words;

    Hindrance(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** What stands against a zone on each of these days of each crew that could do it alone. */
  List<Hindrance> hindrances(String defectId, Predicate<LocalDate> on) {
    int z = state.zoneOf(defectId);
    List<Hindrance> found = new ArrayList<>();
    KeptDays ruled = new KeptDays(state.problem, state.seq, state.kind);
    for (int s = 0; z >= 0 && s < state.slots.size(); s++) {
      CountyProblem.CrewSlot slot = state.slots.get(s);
      if (on.test(slot.date()) && limits.canAlone(slot.crew(), z)) {
        found.add(hindrance(ruled, s, z));
      }
    }
    return found;
  }

  private Hindrance hindrance(KeptDays ruled, int s, int z) {
    if (ruled.insert(s, ruled.stops(s), z) != null) {
      return Hindrance.NONE;
    }
    CountyProblem.CrewSlot slot = state.slots.get(s);
    if (slot.date().isBefore(today) || locked(slot.crew(), slot.date()).isPresent()) {
      return Hindrance.SETTLED;
    }
    int[] all = atEnd(days.stops(s), z);
    if (days.missingMachines(s, all) != 0) {
      return Hindrance.MACHINE;
    }
    if (Arrays.stream(state.free.slots()[s].kinds()).noneMatch(k -> days.admits(s, k, all))) {
      return Hindrance.PLANT_TONNES;
    }
    return Hindrance.SHIFT;
  }

  /** Locks, past days and dates that stand against a move. */
  private void settledByHand(int z, Crew crew, LocalDate date, List<String> broken) {
    if (date.isBefore(today)) {
      broken.add(date + " is past");
    }
    if (state.home[z] >= 0) {
      CountyProblem.CrewSlot home = state.slots.get(state.home[z]);
      if (home.date().isBefore(today)) {
        broken.add("its day, " + home.date() + ", is past");
      }
      locked(home.crew(), home.date()).ifPresent(broken::add);
    }
    locked(crew, date).ifPresent(broken::add);
    for (PatchDesign repair : state.zones.get(z).repairs()) {
      base.rules()
          .doneBy(repair.defect().id())
          .filter(r -> date.isAfter(r.date()))
          .ifPresent(r -> broken.add(r.words() + ": " + r.reason()));
    }
  }

  private Optional<String> locked(Crew crew, LocalDate date) {
    return base.rules().locked(crew.id(), date).map(r -> r.words() + ": " + r.reason());
  }

  /** The kept plan with two slots as they are now and a zone that was lost taken out. */
  private Assignment made(KeptDays then, int from, int slot, int z) {
    List<Assignment.Day> all = new ArrayList<>();
    for (Assignment.Day day : kept.days()) {
      int s = state.slot(day.crewId(), day.date());
      if (s != from && s != slot) {
        all.add(day);
      } else if (s < 0) {
        all.add(day);
      }
    }
    Assignment rest = new Assignment(all);
    if (state.lost.containsKey(z)) {
      java.util.Set<String> moved = new java.util.HashSet<>();
      state.zones.get(z).repairs().forEach(r -> moved.add(r.defect().id()));
      rest = rest.without(moved);
    }
    all = new ArrayList<>(rest.days());
    int[][] order = new int[state.slots.size()][0];
    for (int s : new int[] {from, slot}) {
      if (s >= 0) {
        order[s] = then.stops(s);
      }
    }
    all.addAll(state.assignmentFree(order, then.allKinds()).days());
    return inOrder(all, base.agency());
  }

  /** By date, then crew. */
  static Assignment inOrder(List<Assignment.Day> days, Agency agency) {
    List<String> crews = agency.crews().stream().map(Crew::id).toList();
    return new Assignment(
        days.stream()
            .sorted(
                Comparator.comparing(Assignment.Day::date)
                    .thenComparingInt(d -> crews.indexOf(d.crewId())))
            .toList());
  }

  static BigDecimal money(double amount) {
    return BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_UP);
  }
}
