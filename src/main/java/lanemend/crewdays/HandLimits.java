package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import lanemend.crewdays.routing.DayChance;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.ZoneSupply;
import lanemend.patching.PatchDesign;

/**
 * Puts what is settled by hand into a problem as limits it knows already: a zone held on a date
 * costs infinitely much on every other, a zone held with a crew cannot be served by the others, and
 * a crew day that must stay as it is gets a kind of day of its own that serves its zones alone.
 */
final class HandLimits {
  /** Leaving out a zone that somebody wants done costs so many times the usual. */
  private static final double WANTED = 1_000;

  private final PlanState state;
  private final DayProblem free;
  private final LocalDate today;
  private final double[][] late;
  private final List<double[]> service = new ArrayList<>();
  private final List<double[]> stopCost = new ArrayList<>();
  private final List<ZoneSupply[]> supply = new ArrayList<>();
  private final List<DayKind> kinds = new ArrayList<>();
  private final List<Integer> behind = new ArrayList<>();
  private final double[] skipCost;
  private final DayProblem.Slot[] slots;
  private final int[] ownKind;

  HandLimits(PlanState state, DayProblem free, LocalDate today) {
    this.state = state;
    this.free = free;
    this.today = today;
    late = Arrays.stream(free.late()).map(double[]::clone).toArray(double[][]::new);
    skipCost = free.skipCost().clone();
    slots = free.slots().clone();
    ownKind = new int[slots.length];
    for (int k = 0; k < free.kinds().length; k++) {
      addKind(k, free.service()[k].clone());
    }
    for (int z = 0; z < state.zones.size(); z++) {
      wishes(z);
    }
    Arrays.fill(ownKind, -1);
    for (int s = 0; s < slots.length; s++) {
      if (isFixed(s)) {
        fix(s);
      }
    }
  }

  private void addKind(int k, double[] minutes) {
    kinds.add(free.kinds()[k]);
    service.add(minutes);
    stopCost.add(free.stopCost()[k]);
    supply.add(free.supply() == null ? null : free.supply()[k]);
    behind.add(k);
  }

  /** Pins and dates of one zone's repairs. */
  private void wishes(int z) {
    HandRules rules = state.base.rules();
    for (PatchDesign repair : state.zones.get(z).repairs()) {
      String id = repair.defect().id();
      rules.pin(id).ifPresent(pin -> pin(z, pin));
      Optional<HandRule> by = rules.doneBy(id);
      if (by.isPresent()) {
        int last = indexOf(by.get().date());
        for (int d = Math.max(0, last + 1); d < late.length; d++) {
          late[d][z] = Double.POSITIVE_INFINITY;
        }
        skipCost[z] *= WANTED;
      }
    }
  }

  private void pin(int z, HandRule pin) {
    int only = indexOf(pin.date());
    for (int d = 0; d < late.length; d++) {
      if (d != only) {
        late[d][z] = Double.POSITIVE_INFINITY;
      }
    }
    for (int k = 0; k < free.kinds().length; k++) {
      if (!state.base.kinds().get(k).crew().id().equals(pin.crewId())) {
        service.get(k)[z] = Double.POSITIVE_INFINITY;
      }
    }
    skipCost[z] *= WANTED;
  }

  private int indexOf(LocalDate date) {
    return (int) (date.toEpochDay() - state.base.agency().plan().firstDay().toEpochDay());
  }

  private boolean isFixed(int s) {
    CountyProblem.CrewSlot slot = state.slots.get(s);
    return slot.date().isBefore(today)
        || state.base.rules().locked(slot.crew().id(), slot.date()).isPresent();
  }

  private void fix(int s) {
    double[] minutes = new double[state.zones.size()];
    Arrays.fill(minutes, Double.POSITIVE_INFINITY);
    int k = state.kind[s];
    int date = slots[s].date();
    for (int z : state.seq[s]) {
      minutes[z] = free.service()[k][z];
      if (Double.isInfinite(late[date][z])) {
        late[date][z] = free.late()[date][z];
      }
      for (double[] other : service) {
        other[z] = Double.POSITIVE_INFINITY;
      }
      skipCost[z] *= WANTED;
    }
    ownKind[s] = kinds.size();
    addKind(k, minutes);
    slots[s] = new DayProblem.Slot(date, slots[s].group(), new int[] {ownKind[s]});
  }

  DayProblem problem() {
    return new DayProblem(
        free.stops(),
        free.depots(),
        free.legs(),
        kinds.toArray(DayKind[]::new),
        slots,
        service.toArray(double[][]::new),
        stopCost.toArray(double[][]::new),
        free.demand(),
        late,
        shared(),
        skipCost,
        free.supply() == null ? null : supply.toArray(ZoneSupply[][]::new),
        chance());
  }

  private DayProblem.Shared shared() {
    DayProblem.Shared s = free.shared();
    int[] units =
        s.units().length == 0 ? s.units() : behind.stream().mapToInt(k -> s.units()[k]).toArray();
    return new DayProblem.Shared(
        s.machineBits(), s.machineLimit(), s.sourceLimit(), s.stock(), units, s.pool());
  }

  private DayChance chance() {
    DayChance c = free.chance();
    return c == null
        ? null
        : new DayChance(
            c.quantile(),
            c.daySpread(),
            c.driveSpread(),
            behind.stream().map(k -> c.variance()[k]).toArray(double[][]::new));
  }

  /** The kind of {@code free} behind each kind of the problem. */
  int[] kindBehind() {
    return behind.stream().mapToInt(k -> k).toArray();
  }

  /** Turns the kinds of the slots as the plan has them into those of the problem. */
  void kindsNow(int[] kind) {
    for (int s = 0; s < kind.length; s++) {
      kind[s] = ownKind[s] >= 0 ? ownKind[s] : kind[s];
    }
  }
}
