package lanemend.crewdays;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.DaySearch;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.crewdays.routing.SearchResult;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.RepairParts;

/**
 * Plans crew days: repairs into work zones, zones onto crews and dates, then times, trucks, tonnes
 * and cost of each day. The first two are decisions and make an {@link Assignment}; everything else
 * follows from it and can be worked out again with {@link #schedule}.
 */
public final class CrewDayPlanner {
  private final Haul haul;
  private final Agency agency;
  private final Zones zoning;
  private final LeftOutReasons reasons;
  private final List<CrewKind> kinds;
  private final CrewCalendar calendar;
  private final RepairParts parts;
  private final RepairSplitter splitter;

  /** What planning gives: the decisions, and the plan that follows from them. */
  public record Planned(Assignment assignment, Plan plan, long iterations) {}

  /**
   * A planner for one agency.
   *
   * @throws IllegalArgumentException when a crew's yard is not among the yards
   */
  public CrewDayPlanner(Haul haul, Agency agency, ZoneTraffic traffic) {
    this(haul, agency, traffic, RepairParts.NONE);
  }

  /**
   * A planner that cuts repairs too long for a day into parts.
   *
   * @throws IllegalArgumentException when a crew's yard is not among the yards
   */
  public CrewDayPlanner(Haul haul, Agency agency, ZoneTraffic traffic, RepairParts parts) {
    this(haul, agency, traffic, parts, HandRules.NONE);
  }

  /** As above, and what is settled by hand is said of repairs that are left out. */
  CrewDayPlanner(
      Haul haul, Agency agency, ZoneTraffic traffic, RepairParts parts, HandRules rules) {
    this.haul = haul;
    this.parts = parts;
    this.agency = agency;
    zoning = new Zones(agency.plan(), traffic);
    reasons = new LeftOutReasons(agency, zoning, rules);
    calendar = new CrewCalendar(agency);
    kinds = CrewKind.all(agency, calendar.weather());
    splitter = new RepairSplitter(haul, agency, zoning, kinds, calendar, parts);
    for (Crew crew : agency.crews()) {
      CrewFit.yardIndex(agency, crew);
    }
  }

  /**
   * Plans these repairs; each ends in a crew day or is left out with a reason.
   *
   * @throws PlanStopped when the listener ends it before there is any plan
   */
  public Planned plan(List<PatchDesign> repairs, SearchBudget budget, PlanProgress progress) {
    Map<String, String> why = new LinkedHashMap<>();
    progress.at("work zones", 0, Double.NaN);
    byId(repairs);
    Doable doable = doable(repairs, why, new Stage(progress, "work zones", 0, 0.5));
    List<WorkZone> zones =
        new ZoneShaper(agency, zoning, doable.fit())
            .shape(doable.repairs(), doable.rows(), new Stage(progress, "work zones", 0.5, 1));
    int[] rows =
        zones.stream()
            .mapToInt(z -> doable.rows().get(Zones.anchor(z.repairs()).defect().id()))
            .toArray();
    CountyLegs legs = doable.legs().among(haul, rows, new Stage(progress, "drives", 0, 1));
    CountyProblem county = new CountyProblem(agency, zoning, zones, kinds, calendar, legs);
    DayProblem problem = county.build(new Stage(progress, "trucks", 0, 1));
    SearchResult found =
        DaySearch.solve(problem, budget, (share, cost) -> progress.at("crew days", share, cost));
    String full = reasons.horizonFull();
    for (int z : found.skipped()) {
      for (PatchDesign repair : zones.get(z).repairs()) {
        why.put(repair.defect().id(), full);
      }
    }
    List<DayWriter.Draft> drafts = new ArrayList<>();
    for (SearchResult.Day day : found.days()) {
      CountyProblem.CrewSlot slot = county.slots().get(day.slot());
      drafts.add(new DayWriter.Draft(slot.date(), day.kind(), day.stops()));
    }
    drafts.sort(DayWriter.byDateThenCrew(agency, kinds));
    Assignment assignment = PlanState.assignment(drafts, zones, kinds);
    Plan plan = write(drafts, zones, legs, RepairSplitter.leftOut(repairs, why));
    return new Planned(assignment, plan, found.iterations());
  }

  /**
   * These repairs with each in parts that a plan has in parts, or that is too long for a day.
   *
   * @param kept a plan whose cuts stay
   */
  public List<PatchDesign> inParts(List<PatchDesign> repairs, Assignment kept) {
    Map<String, Integer> cuts = new HashMap<>();
    kept.defectIds().stream()
        .flatMap(id -> RepairPart.parse(id).stream())
        .forEach(part -> cuts.put(part.defectId(), part.of()));
    List<PatchDesign> asKept = new ArrayList<>();
    List<PatchDesign> others = new ArrayList<>();
    for (PatchDesign repair : repairs) {
      Integer of = cuts.get(repair.defect().id());
      List<PatchDesign> cut = of == null ? List.of() : parts.cut(repair, of);
      asKept.addAll(cut);
      if (cut.isEmpty()) {
        others.add(repair);
      }
    }
    Map<String, String> why = new LinkedHashMap<>();
    List<PatchDesign> all = new ArrayList<>(asKept);
    all.addAll(doable(others, why, Stage.quiet()).repairs());
    others.stream().filter(r -> why.containsKey(r.defect().id())).forEach(all::add);
    return all;
  }

  /**
   * Works out times, figures and cost of decisions already made. It does not judge them: {@link
   * PlanChecker} does.
   *
   * @throws IllegalArgumentException when the assignment names a crew, plant or defect that is not
   *     there, more trucks than the crew has, or work the crew cannot do at all
   */
  public Plan schedule(Assignment assignment, List<PatchDesign> repairs) {
    Map<String, PatchDesign> byId = byId(repairs);
    Map<String, PatchDesign> rest = new LinkedHashMap<>(byId);
    List<WorkZone> zones = new ArrayList<>();
    List<DayWriter.Draft> drafts = new ArrayList<>();
    for (Assignment.Day day : assignment.days()) {
      List<Integer> order = new ArrayList<>();
      for (Assignment.Zone zone : day.zones()) {
        List<PatchDesign> own = new ArrayList<>();
        for (String id : zone.defectIds()) {
          PatchDesign repair =
              byId.containsKey(id)
                  ? byId.get(id)
                  : RepairSplitter.partOf(id, byId, parts).orElse(null);
          if (repair == null) {
            throw new IllegalArgumentException(
                "the plan names defect " + id + ", which is not among the repairs");
          }
          own.add(repair);
          takeOut(rest, id, byId);
        }
        order.add(zones.size());
        zones.add(zoning.zone(Zones.inOrder(own)));
      }
      drafts.add(new DayWriter.Draft(day.date(), kindOf(day), order));
    }
    drafts.sort(DayWriter.byDateThenCrew(agency, kinds));
    List<Place> anchors =
        zones.stream().map(z -> Zones.anchor(z.repairs()).defect().place()).toList();
    CountyLegs legs =
        CountyLegs.of(haul, agency, anchors)
            .along(haul, drafts.stream().map(DayWriter.Draft::zones).toList());
    Map<String, String> why = new LinkedHashMap<>();
    for (PatchDesign repair : doable(List.copyOf(rest.values()), why, Stage.quiet()).repairs()) {
      why.put(repair.defect().id(), LeftOutReasons.NOT_PLACED);
    }
    return write(drafts, zones, legs, RepairSplitter.leftOut(repairs, why));
  }

  /** Takes a repair, or one part of it, out of what is not planned. */
  private void takeOut(Map<String, PatchDesign> rest, String id, Map<String, PatchDesign> byId) {
    String whole = byId.containsKey(id) ? id : RepairPart.defectOf(id);
    if (!whole.equals(id) && rest.remove(whole) != null) {
      int of = RepairPart.parse(id).orElseThrow().of();
      parts.cut(byId.get(whole), of).forEach(p -> rest.put(p.defect().id(), p));
    }
    rest.remove(id);
  }

  private int kindOf(Assignment.Day day) {
    int found = CrewKind.of(kinds, day, calendar.weather());
    if (found >= 0) {
      return found;
    }
    throw new IllegalArgumentException(
        "no crew '"
            + day.crewId()
            + "' with "
            + day.trucks()
            + " trucks and plant '"
            + day.plantId()
            + "' on "
            + day.date());
  }

  /** Repairs some crew can do alone in a day, each with its row in the fit's legs. */
  private record Doable(
      List<PatchDesign> repairs, Map<String, Integer> rows, CountyLegs legs, CrewFit fit) {}

  private Doable doable(List<PatchDesign> repairs, Map<String, String> why, Stage stage) {
    List<PatchDesign> open = new ArrayList<>();
    List<PatchDesign> cut = new ArrayList<>();
    for (PatchDesign repair : repairs) {
      Optional<String> reason = reasons.before(repair);
      if (reason.isEmpty()) {
        open.add(repair);
      } else if (!reasons.tooLong(repair) || !cutUp(repair, cut)) {
        why.put(repair.defect().id(), reason.get());
      }
    }
    List<Place> at = open.stream().map(r -> r.defect().place()).toList();
    CountyLegs legs = CountyLegs.of(haul, agency, at);
    CrewFit fit = new CrewFit(agency, kinds, calendar, legs);
    List<PatchDesign> can = new ArrayList<>();
    Map<String, Integer> rows = new HashMap<>();
    WorkZone[] alone = new WorkZone[open.size()];
    CrewFit.Verdict[] verdicts = new CrewFit.Verdict[open.size()];
    stage.each(
        open.size(),
        i -> {
          alone[i] = zoning.zone(List.of(open.get(i)));
          verdicts[i] = fit.best(alone[i], i);
        });
    for (int i = 0; i < open.size(); i++) {
      CrewFit.Verdict verdict = verdicts[i];
      if (verdict.obstacle() == CrewFit.Obstacle.NONE) {
        can.add(open.get(i));
        rows.put(open.get(i).defect().id(), i);
      } else if (!verdict.obstacle().eased() || !cutUp(open.get(i), cut)) {
        why.put(open.get(i).defect().id(), reasons.of(alone[i], verdict));
      }
    }
    if (cut.isEmpty()) {
      return new Doable(can, rows, legs, fit);
    }
    // Every part fits alone, so nothing is cut again.
    cut.addAll(0, can);
    return doable(cut, why, stage);
  }

  private boolean cutUp(PatchDesign repair, List<PatchDesign> into) {
    List<PatchDesign> cut = splitter.split(repair);
    into.addAll(cut);
    return !cut.isEmpty();
  }

  private static Map<String, PatchDesign> byId(List<PatchDesign> repairs) {
    Map<String, PatchDesign> byId = new LinkedHashMap<>();
    for (PatchDesign repair : repairs) {
      if (byId.put(repair.defect().id(), repair) != null) {
        throw new IllegalArgumentException("two repairs are of defect " + repair.defect().id());
      }
    }
    return byId;
  }

  private Plan write(
      List<DayWriter.Draft> drafts,
      List<WorkZone> zones,
      CountyLegs legs,
      List<Plan.LeftOut> leftOut) {
    CrewFit fit = new CrewFit(agency, kinds, calendar, legs);
    return new DayWriter(agency, zoning, kinds, fit, legs).plan(drafts, zones, leftOut);
  }
}
