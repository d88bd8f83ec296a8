package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lanemend.patching.PatchDesign;

/**
 * Says of each repair that found no crew day what stood against it, by trying it on every day of
 * every crew that can do it.
 */
final class NoRoom {
  private final Haul haul;
  private final Agency agency;
  private final ZoneTraffic traffic;
  private final HandRules rules;
  private final LocalDate today;

  /** The last day that may get work, null for that of the agency's plan. */
  private final LocalDate last;

  NoRoom(
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

  /** The plan with a reason found out in place of "not put on any crew day". */
  Plan explain(Plan plan, Assignment assignment, List<PatchDesign> repairs) {
    if (plan.leftOut().stream().noneMatch(l -> l.reason().equals(LeftOutReasons.NOT_PLACED))) {
      return plan;
    }
    OpenPlan open = new OpenPlan(haul, agency, traffic, rules, repairs, assignment, today);
    List<Plan.LeftOut> leftOut = new ArrayList<>();
    for (Plan.LeftOut one : plan.leftOut()) {
      boolean found = one.reason().equals(LeftOutReasons.NOT_PLACED);
      leftOut.add(found ? new Plan.LeftOut(one.defectId(), why(open, one.defectId())) : one);
    }
    return new Plan(plan.days(), leftOut, plan.cost(), plan.currency());
  }

  private String why(OpenPlan open, String defectId) {
    Map<String, Integer> against = new TreeMap<>();
    int days = 0;
    for (OpenPlan.Hindrance one : open.hindrances(defectId, this::mayGetWork)) {
      if (one == OpenPlan.Hindrance.NONE) {
        return LeftOutReasons.NOT_PLACED;
      }
      against.merge(one.words(), 1, Integer::sum);
      days++;
    }
    if (days == 0) {
      return LeftOutReasons.NOT_PLACED;
    }
    return noRoom()
        + ": "
        + against.entrySet().stream()
            .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
            .map(e -> e.getKey() + " on " + e.getValue())
            .collect(Collectors.joining(", "))
        + (days == 1 ? " crew day" : " crew days");
  }

  private boolean mayGetWork(LocalDate date) {
    return last == null || (!date.isBefore(today) && !date.isAfter(last));
  }

  private String noRoom() {
    PlanSettings plan = agency.plan();
    return last == null
        ? "no room before " + plan.firstDay().plusDays(plan.calendarDays())
        : "no room from " + today + " to " + last;
  }
}
