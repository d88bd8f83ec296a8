package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lanemend.crewdays.routing.DayProblem;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;

/**
 * A plan at hand as plain arrays: its zones as the stops they are, its crew days as slots filled,
 * and what is settled by hand as limits. Zones are not cut anew, so that what stays, stays whole.
 */
final class PlanState {
  final PlanBase base;
  final List<WorkZone> zones;
  final CountyLegs legs;
  final List<CountyProblem.CrewSlot> slots;

  /** As the agency's limits have it, whatever is settled by hand. */
  final DayProblem free;

  /** Kind of each slot, of {@link #free}. */
  final int[] freeKind;

  /** With every rule set by hand as a limit. */
  final DayProblem problem;

  /** The agency's kind of day behind each kind of the problem. */
  final int[] kindBehind;

  /** Zones of each slot, in order. */
  final int[][] seq;

  /** Kind of each slot, of {@link #problem}; of an empty slot the first it may be run as. */
  final int[] kind;

  /** The slot each zone had in the plan at hand, or -1. */
  final int[] home;

  /** Zones whose crew day cannot be worked any more, with why. */
  final Map<Integer, String> lost = new HashMap<>();

  private record CrewDate(String crewId, LocalDate date) {}

  private final Map<CrewDate, Integer> slotAt = new HashMap<>();

  /**
   * Opens a plan.
   *
   * @param kept its repairs must all be among {@code repairs}
   * @param more zones that are in no crew day: new repairs, repairs left out, other shapes of zones
   * @param today crew days before it are what they are
   */
  PlanState(
      PlanBase base,
      Assignment kept,
      Map<String, PatchDesign> repairs,
      List<WorkZone> more,
      LocalDate today) {
    this(base, kept, repairs, more, today, PlanProgress.NONE);
  }

  /**
   * The same, with somebody who may end it.
   *
   * @throws PlanStopped when the listener ends it
   */
  PlanState(
      PlanBase base,
      Assignment kept,
      Map<String, PatchDesign> repairs,
      List<WorkZone> more,
      LocalDate today,
      PlanProgress progress) {
    this.base = base;
    zones = new ArrayList<>();
    List<List<Integer>> orders = new ArrayList<>();
    for (Assignment.Day day : kept.days()) {
      List<Integer> order = new ArrayList<>();
      for (Assignment.Zone zone : day.zones()) {
        order.add(zones.size());
        zones.add(base.zoning().zone(repairsOf(zone, repairs)));
      }
      orders.add(order);
    }
    zones.addAll(more);
    List<Place> anchors =
        zones.stream().map(z -> Zones.anchor(z.repairs()).defect().place()).toList();
    int[] rows = IntStream.range(0, zones.size()).toArray();
    legs =
        CountyLegs.of(base.haul(), base.agency(), anchors)
            .among(base.haul(), rows, new Stage(progress, "drives", 0, 1));
    CountyProblem county =
        new CountyProblem(base.agency(), base.zoning(), zones, base.kinds(), base.calendar(), legs);
    free = county.build(new Stage(progress, "trucks", 0, 1));
    slots = county.slots();
    for (int s = 0; s < slots.size(); s++) {
      slotAt.put(new CrewDate(slots.get(s).crew().id(), slots.get(s).date()), s);
    }
    seq = new int[slots.size()][0];
    kind = new int[slots.size()];
    for (int s = 0; s < slots.size(); s++) {
      kind[s] = free.slots()[s].kinds()[0];
    }
    home = new int[zones.size()];
    Arrays.fill(home, -1);
    fill(kept, orders);
    freeKind = kind.clone();
    HandLimits limits = new HandLimits(this, free, today);
    problem = limits.problem();
    kindBehind = limits.kindBehind();
    limits.kindsNow(kind);
  }

  private static List<PatchDesign> repairsOf(
      Assignment.Zone zone, Map<String, PatchDesign> repairs) {
    List<PatchDesign> own = new ArrayList<>();
    for (String id : zone.defectIds()) {
      PatchDesign repair = repairs.get(id);
      if (repair == null) {
        throw new IllegalArgumentException(
            "the plan names defect " + id + ", which is not among the repairs");
      }
      own.add(repair);
    }
    return Zones.inOrder(own);
  }

  private void fill(Assignment kept, List<List<Integer>> orders) {
    for (int d = 0; d < orders.size(); d++) {
      Assignment.Day day = kept.days().get(d);
      int s = slot(day.crewId(), day.date());
      int k = CrewKind.of(base.kinds(), day, base.calendar().weather());
      if (s < 0 || k < 0 || seq[s].length > 0) {
        String why = whyLost(day, s);
        orders.get(d).forEach(z -> lost.put(z, why));
      } else {
        seq[s] = orders.get(d).stream().mapToInt(z -> z).toArray();
        kind[s] = k;
        for (int z : seq[s]) {
          home[z] = s;
        }
      }
    }
  }

  private String whyLost(Assignment.Day day, int slot) {
    return base.rules()
        .closed(day.crewId(), day.date())
        .map(r -> r.words() + ": " + r.reason())
        .orElse(
            slot < 0
                ? "crew " + day.crewId() + " does not work on " + day.date()
                : "crew "
                    + day.crewId()
                    + " has no day with plant '"
                    + day.plantId()
                    + "' and "
                    + day.trucks()
                    + " trucks any more");
  }

  /** The slot of a crew on a date, or -1 when the crew does not work then. */
  int slot(String crewId, LocalDate date) {
    return slotAt.getOrDefault(new CrewDate(crewId, date), -1);
  }

  /** The zone that holds a defect; with several shapes of it the one in the plan; or -1. */
  int zoneOf(String defectId) {
    for (int z = 0; z < zones.size(); z++) {
      if (zones.get(z).repairs().stream().anyMatch(r -> r.defect().id().equals(defectId))) {
        return z;
      }
    }
    return -1;
  }

  /** The decisions of these slots as a plan, by date, then crew; kinds of {@link #problem}. */
  Assignment assignment(int[][] order, int[] kinds) {
    return assignmentFree(order, Arrays.stream(kinds).map(k -> kindBehind[k]).toArray());
  }

  /** As {@link #assignment}, with kinds of {@link #free}. */
  Assignment assignmentFree(int[][] order, int[] kinds) {
    List<DayWriter.Draft> drafts = new ArrayList<>();
    for (int s = 0; s < order.length; s++) {
      if (order[s].length > 0) {
        drafts.add(
            new DayWriter.Draft(
                slots.get(s).date(), kinds[s], Arrays.stream(order[s]).boxed().toList()));
      }
    }
    drafts.sort(DayWriter.byDateThenCrew(base.agency(), base.kinds()));
    return assignment(drafts, zones, base.kinds());
  }

  /** What was decided of a zone. */
  static Assignment.Zone decided(WorkZone zone) {
    return new Assignment.Zone(
        zone.routeId(), zone.repairs().stream().map(r -> r.defect().id()).toList());
  }

  /** Drafted days as decisions. */
  static Assignment assignment(
      List<DayWriter.Draft> drafts, List<WorkZone> zones, List<CrewKind> kinds) {
    List<Assignment.Day> days = new ArrayList<>();
    for (DayWriter.Draft draft : drafts) {
      CrewKind kind = kinds.get(draft.kind());
      List<Assignment.Zone> own = new ArrayList<>();
      for (int z : draft.zones()) {
        own.add(decided(zones.get(z)));
      }
      days.add(
          new Assignment.Day(
              draft.date(),
              kind.crew().id(),
              kind.plant() == null ? "" : kind.plant().id(),
              kind.trucks(),
              own));
    }
    return new Assignment(days);
  }
}
