package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.DaySearch;
import lanemend.crewdays.routing.KeptDays;
import lanemend.crewdays.routing.LeastChange;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.crewdays.routing.SearchResult;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairParts;

/**
 * Plans again with a plan at hand: anew but true to what is settled by hand, with least disturbance
 * after something changed, or only to bring in one urgent repair.
 */
public final class Replanner {
  private final Haul haul;
  private final Agency agency;
  private final ZoneTraffic traffic;
  private final HandRules rules;
  private final LocalDate today;

  /** The last day that may get work, null for that of the agency's plan. */
  private final LocalDate last;

  /**
   * The least change that does an urgent repair.
   *
   * @param crewId the crew that does it
   * @param date the day it is done
   * @param joined true when it shares the traffic control of a zone that was planned already
   * @param otherDays crew days changed besides that one
   * @param zonesMoved zones that are on another crew day than before
   * @param zonesOff zones taken out of the plan
   * @param daysReordered crew days whose zones are done in another order
   * @param frozenDays crew days changed although they are close at hand
   * @param proven true when every way to change less was tried
   */
  public record Urgent(
      Assignment assignment,
      String crewId,
      LocalDate date,
      boolean joined,
      int otherDays,
      int zonesMoved,
      int zonesOff,
      int daysReordered,
      int frozenDays,
      boolean proven) {}

  /**
   * A planner for one agency on one day.
   *
   * @param today crew days before it stay what they are
   */
  public Replanner(
      Haul haul, Agency agency, ZoneTraffic traffic, HandRules rules, LocalDate today) {
    this(haul, agency, traffic, rules, today, null);
  }

  private Replanner(
      Haul haul,
      Agency agency,
      ZoneTraffic traffic,
      HandRules rules,
      LocalDate today,
      LocalDate last) {
    this.haul = haul;
    this.agency = agency;
    this.traffic = traffic;
    this.rules = rules;
    this.today = today;
    this.last = last;
  }

  /** The same where work may come onto the days from today to this one only. */
  public Replanner upTo(LocalDate last) {
    return new Replanner(haul, agency, traffic, rules, today, last);
  }

  /**
   * Plans everything anew but for locked and past crew days, which stay, and keeps to the other
   * rules set by hand.
   */
  public CrewDayPlanner.Planned anew(
      List<PatchDesign> repairs, Assignment kept, SearchBudget budget, PlanProgress progress) {
    List<Assignment.Day> stay =
        kept.days().stream()
            .filter(
                d ->
                    rules.closed(d.crewId(), d.date()).isEmpty()
                        && (d.date().isBefore(today)
                            || rules.locked(d.crewId(), d.date()).isPresent()))
            .toList();
    Assignment fixed = new Assignment(stay);
    PlanBase base = PlanBase.of(haul, agency, traffic, rules, fixed);
    progress.at("work zones", 0, Double.NaN);
    List<WorkZone> more = new NewZones(base).shape(repairs, fixed.defectIds());
    PlanState state = new PlanState(base, fixed, byId(repairs), more, today, progress);
    SearchResult found =
        DaySearch.solve(
            state.problem, budget, (share, cost) -> progress.at("crew days", share, cost));
    return planned(state, found, repairs);
  }

  /**
   * Plans again and changes little: a zone that ends on another date costs {@code movePrice} more,
   * and with another crew again as much. Zones are not cut anew.
   *
   * @param kept the plan so far
   * @param frozenBefore crew days before it do not change
   * @param movePrice in the agency's currency
   */
  public CrewDayPlanner.Planned adjust(
      List<PatchDesign> repairs,
      Assignment kept,
      LocalDate frozenBefore,
      double movePrice,
      SearchBudget budget,
      PlanProgress progress) {
    Assignment asKept = waiting(kept, repairs);
    PlanBase base = PlanBase.of(haul, agency, traffic, rules, asKept);
    Assignment waiting = sidesApart(asKept, base, byId(repairs));
    progress.at("work zones", 0, Double.NaN);
    List<WorkZone> more = new NewZones(base).shape(repairs, waiting.defectIds());
    LocalDate fixed = frozenBefore.isAfter(today) ? frozenBefore : today;
    PlanState state = new PlanState(base, waiting, byId(repairs), more, fixed, progress);
    DayProblem problem = disturbed(state, movePrice);
    List<SearchResult.Day> start = new ArrayList<>();
    for (int s = 0; s < state.seq.length; s++) {
      if (state.seq[s].length > 0) {
        List<Integer> stops = Arrays.stream(state.seq[s]).boxed().toList();
        start.add(new SearchResult.Day(s, state.kind[s], stops, 0));
      }
    }
    SearchResult found =
        DaySearch.from(
            problem, start, budget, (share, cost) -> progress.at("crew days", share, cost));
    return planned(state, found, repairs);
  }

  /** The plan without what waits no longer and what is left out by hand. */
  private Assignment waiting(Assignment kept, List<PatchDesign> repairs) {
    Set<String> ids = byId(repairs).keySet();
    Set<String> gone = new HashSet<>(kept.defectIds());
    gone.removeIf(id -> ids.contains(id) && rules.leftOut(id).isEmpty());
    return kept.without(gone);
  }

  /** The plan with a zone a side where one of both sides is not allowed any more. */
  private static Assignment sidesApart(
      Assignment plan, PlanBase base, Map<String, PatchDesign> byId) {
    List<Assignment.Day> days = new ArrayList<>();
    for (Assignment.Day day : plan.days()) {
      List<Assignment.Zone> zones = new ArrayList<>();
      for (Assignment.Zone zone : day.zones()) {
        List<PatchDesign> own = zone.defectIds().stream().map(byId::get).toList();
        if (ZoneSide.of(own) == ZoneSide.BOTH) {
          base.zoning().allowed(Zones.inOrder(own)).forEach(z -> zones.add(PlanState.decided(z)));
        } else {
          zones.add(zone);
        }
      }
      days.add(new Assignment.Day(day.date(), day.crewId(), day.plantId(), day.trucks(), zones));
    }
    return new Assignment(days);
  }

  private static DayProblem disturbed(PlanState state, double movePrice) {
    DayProblem p = state.problem;
    double[][] late = Arrays.stream(p.late()).map(double[]::clone).toArray(double[][]::new);
    double[][] stopCost = Arrays.stream(p.stopCost()).map(double[]::clone).toArray(double[][]::new);
    double[] skip = p.skipCost().clone();
    for (int z = 0; z < state.zones.size(); z++) {
      int home = state.home[z];
      if (home < 0) {
        continue;
      }
      for (int d = 0; d < late.length; d++) {
        late[d][z] += d == p.slots()[home].date() ? 0 : movePrice;
      }
      Crew crew = state.slots.get(home).crew();
      for (int k = 0; k < stopCost.length; k++) {
        boolean same = state.base.kinds().get(state.kindBehind[k]).crew().equals(crew);
        stopCost[k][z] += same ? 0 : movePrice;
      }
      // Leaving out must stay dearer than the farthest move.
      skip[z] += 2 * movePrice;
    }
    return new DayProblem(
        p.stops(),
        p.depots(),
        p.legs(),
        p.kinds(),
        p.slots(),
        p.service(),
        stopCost,
        p.demand(),
        late,
        p.shared(),
        skip,
        p.supply(),
        p.chance());
  }

  /** What the search found, with days whose zones are the same left in the order they had. */
  private CrewDayPlanner.Planned planned(
      PlanState state, SearchResult found, List<PatchDesign> repairs) {
    int[][] order = new int[state.slots.size()][0];
    int[] kinds = state.kind.clone();
    for (SearchResult.Day day : found.days()) {
      int s = day.slot();
      order[s] = day.stops().stream().mapToInt(c -> c).toArray();
      kinds[s] = day.kind();
      if (sameStops(order[s], state.seq[s]) && runs(state, s)) {
        order[s] = state.seq[s];
        kinds[s] = state.kind[s];
      }
    }
    Assignment assignment = state.assignment(order, kinds);
    return new CrewDayPlanner.Planned(
        assignment, schedule(assignment, repairs), found.iterations());
  }

  private static boolean runs(PlanState state, int slot) {
    KeptDays days = new KeptDays(state.problem, state.seq, state.kind);
    return Double.isFinite(days.cost(slot));
  }

  private static boolean sameStops(int[] a, int[] b) {
    int[] x = a.clone();
    int[] y = b.clone();
    Arrays.sort(x);
    Arrays.sort(y);
    return Arrays.equals(x, y);
  }

  /**
   * Times, figures and cost of decisions, with a reason for each repair that is in no day. What the
   * decisions name and no longer waits is passed over.
   */
  public Plan schedule(Assignment decided, List<PatchDesign> repairs) {
    Set<String> gone = new HashSet<>(decided.defectIds());
    gone.removeAll(byId(repairs).keySet());
    Assignment assignment = decided.without(gone);
    PlanBase base = PlanBase.of(haul, agency, traffic, rules, assignment);
    Plan plan =
        new CrewDayPlanner(haul, base.agency(), traffic, RepairParts.NONE, rules)
            .schedule(assignment, repairs);
    return new NoRoom(haul, agency, traffic, rules, today, last).explain(plan, assignment, repairs);
  }

  /**
   * Brings in one repair that must be done by a date and changes as little as can be; see {@link
   * LeastChange} for what is least.
   *
   * @param by the last day it may be done
   * @param frozenBefore crew days before it change only if they must
   * @param seconds after which the best found so far must do
   * @return null when no way was found
   * @throws IllegalArgumentException when the defect is not among the repairs
   */
  public Urgent urgent(
      List<PatchDesign> repairs,
      Assignment kept,
      String defectId,
      LocalDate by,
      LocalDate frozenBefore,
      double seconds) {
    Map<String, PatchDesign> byId = byId(repairs);
    PatchDesign repair = byId.get(defectId);
    if (repair == null) {
      throw new IllegalArgumentException("defect '" + defectId + "' does not wait for a crew day");
    }
    HandRules ruled = rules.with(HandRule.doneBy(defectId, by, "urgent"));
    Assignment asKept = waiting(kept, repairs).without(Set.of(defectId));
    PlanBase base = PlanBase.of(haul, agency, traffic, ruled, asKept);
    Assignment rest = sidesApart(asKept, base, byId);
    List<WorkZone> shapes = new ArrayList<>();
    shapes.add(base.zoning().zone(List.of(repair)));
    List<LeastChange.Entry> entries = new ArrayList<>();
    int planned = rest.days().stream().mapToInt(d -> d.zones().size()).sum();
    entries.add(new LeastChange.Entry(planned, -1));
    joined(base, rest, byId, repair, shapes, entries);
    PlanState state = new PlanState(base, rest, byId, shapes, today);
    KeptDays days = new KeptDays(state.problem, state.seq, state.kind);
    boolean[] frozen = new boolean[state.slots.size()];
    for (int s = 0; s < frozen.length; s++) {
      frozen[s] = state.slots.get(s).date().isBefore(frozenBefore);
    }
    boolean[] mayLeave = new boolean[state.zones.size()];
    for (int z = 0; z < mayLeave.length; z++) {
      mayLeave[z] =
          state.zones.get(z).repairs().stream()
              .map(r -> r.defect().id())
              .allMatch(id -> ruled.pin(id).isEmpty() && ruled.doneBy(id).isEmpty());
    }
    LeastChange.Found found = new LeastChange(days, frozen, mayLeave, seconds).find(entries);
    return found == null ? null : urgent(state, found, rest);
  }

  /** Zones of the plan that could take the repair in, as shapes of their own. */
  private static void joined(
      PlanBase base,
      Assignment rest,
      Map<String, PatchDesign> byId,
      PatchDesign repair,
      List<WorkZone> shapes,
      List<LeastChange.Entry> entries) {
    int planned = rest.days().stream().mapToInt(d -> d.zones().size()).sum();
    int z = 0;
    for (Assignment.Day day : rest.days()) {
      for (Assignment.Zone zone : day.zones()) {
        if (zone.routeId().equals(repair.defect().place().routeId())) {
          List<PatchDesign> all = new ArrayList<>();
          zone.defectIds().forEach(id -> all.add(byId.get(id)));
          all.add(repair);
          double length = Zones.endAlongM(all) - Zones.fromAlongM(all);
          List<WorkZone> shape =
              length <= base.zoning().maxLengthM(all)
                  ? base.zoning().allowed(Zones.inOrder(all))
                  : List.of();
          if (shape.size() == 1) {
            entries.add(new LeastChange.Entry(planned + shapes.size(), z));
            shapes.add(shape.get(0));
          }
        }
        z++;
      }
    }
  }

  private static Urgent urgent(PlanState state, LeastChange.Found found, Assignment rest) {
    List<Assignment.Day> days = new ArrayList<>();
    // Days that cannot be worked any more are not this change's business.
    rest.days().stream().filter(d -> state.slot(d.crewId(), d.date()) < 0).forEach(days::add);
    days.addAll(state.assignment(found.days().allStops(), found.days().allKinds()).days());
    CountyProblem.CrewSlot slot = state.slots.get(found.slot());
    return new Urgent(
        OpenPlan.inOrder(days, state.base.agency()),
        slot.crew().id(),
        slot.date(),
        found.entry().instead() >= 0,
        found.changed().size(),
        found.moved().size(),
        found.off().size(),
        found.reordered(),
        found.frozen(),
        found.proven());
  }

  private static Map<String, PatchDesign> byId(List<PatchDesign> repairs) {
    Map<String, PatchDesign> byId = new LinkedHashMap<>();
    repairs.forEach(r -> byId.put(r.defect().id(), r));
    return new HashMap<>(byId);
  }
}
