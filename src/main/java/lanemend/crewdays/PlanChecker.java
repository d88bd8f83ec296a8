package lanemend.crewdays;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import lanemend.inventory.Place;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairParts;

/**
 * Proves a plan, or says what is wrong with it. It works everything out again from the repairs, the
 * roads and the agency's facts and shares no code with the planner, so that a mistake in one shows
 * in the other.
 */
public final class PlanChecker {
  private final Agency agency;
  private final Haul haul;
  private final ZoneTraffic traffic;
  private final RepairParts parts;

  public PlanChecker(Agency agency, Haul haul, ZoneTraffic traffic) {
    this(agency, haul, traffic, RepairParts.NONE);
  }

  /** A checker of plans in which long repairs may be cut into parts. */
  public PlanChecker(Agency agency, Haul haul, ZoneTraffic traffic, RepairParts parts) {
    this.parts = parts;
    this.agency = agency;
    this.haul = haul;
    this.traffic = traffic;
  }

  /**
   * As {@link #check(Plan, List)}, and every rule set by hand that the plan does not keep.
   *
   * @param kept the plan so far, by which locked days are measured
   */
  public List<String> check(
      Plan plan, List<PatchDesign> repairs, HandRules rules, Assignment kept) {
    List<String> found = check(plan, repairs);
    new RulesCheck(plan, repairs, rules, kept).run(found);
    return found;
  }

  /** Every limit the plan breaks, a sentence each; empty for a good plan. */
  public List<String> check(Plan plan, List<PatchDesign> repairs) {
    List<String> found = new ArrayList<>();
    Map<String, PatchDesign> byId = new HashMap<>();
    repairs.forEach(r -> byId.put(r.defect().id(), r));
    new PartCheck(parts, found).putPartsForWholes(plan, byId);
    everyRepairOnce(plan, byId, found);
    oneDayPerCrew(plan, found);
    Map<LocalDate, Map<String, Double>> mix = new TreeMap<>();
    Map<LocalDate, Map<Equipment, Integer>> machines = new TreeMap<>();
    BigDecimal cost = BigDecimal.ZERO;
    double slack = 0.005;
    for (DayCheck check : checked(plan, byId)) {
      found.addAll(check.found());
      cost = cost.add(BigDecimal.valueOf(check.cost()));
      slack += check.costSlack();
      addUp(check.day(), byId, mix, machines);
    }
    plantTonnes(mix, found);
    stocks(mix, found);
    machinesPerDate(machines, found);
    truckPool(plan, found);
    if (Math.abs(plan.cost().subtract(cost).doubleValue()) > slack) {
      found.add("the plan says it costs " + plan.cost() + ", its days add up to " + cost);
    }
    if (!plan.currency().equals(agency.plan().currency())) {
      found.add("the plan counts in " + plan.currency() + ", not the agency's currency");
    }
    return found;
  }

  /** Every day that is of known repairs alone, checked. */
  private List<DayCheck> checked(Plan plan, Map<String, PatchDesign> byId) {
    List<DayCheck> checks =
        plan.days().parallelStream()
            .filter(day -> isKnown(day, byId))
            .map(day -> new DayCheck(agency, traffic, byId, day))
            .toList();
    List<Place> stops = new ArrayList<>();
    int[] first = new int[checks.size()];
    for (int i = 0; i < first.length; i++) {
      first[i] = stops.size();
      stops.addAll(checks.get(i).drivenTo());
    }
    DriveCheck drives = new DriveCheck(agency, haul, stops);
    IntStream.range(0, first.length).parallel().forEach(i -> checks.get(i).run(drives, first[i]));
    return checks;
  }

  private static boolean isKnown(CrewDay day, Map<String, PatchDesign> byId) {
    return day.stops().stream()
        .flatMap(s -> s.zone().repairs().stream())
        .allMatch(r -> byId.containsKey(r.defect().id()));
  }

  private static void everyRepairOnce(
      Plan plan, Map<String, PatchDesign> byId, List<String> found) {
    Set<String> planned = new HashSet<>();
    for (CrewDay day : plan.days()) {
      for (CrewDay.Stop stop : day.stops()) {
        for (PatchDesign repair : stop.zone().repairs()) {
          String id = repair.defect().id();
          if (!planned.add(id)) {
            found.add("defect " + id + " is repaired more than once");
          }
          if (!byId.containsKey(id)) {
            found.add("defect " + id + " was never asked for");
          }
        }
      }
    }
    Set<String> out = new HashSet<>();
    for (Plan.LeftOut one : plan.leftOut()) {
      if (planned.contains(one.defectId())) {
        found.add("defect " + one.defectId() + " is both planned and left out");
      }
      if (!out.add(one.defectId())) {
        found.add("defect " + one.defectId() + " is left out more than once");
      }
      if (one.reason().isBlank()) {
        found.add("defect " + one.defectId() + " is left out without a reason");
      }
    }
    for (String id : byId.keySet()) {
      if (!planned.contains(id) && !out.contains(id)) {
        found.add("defect " + id + " is neither planned nor left out");
      }
    }
  }

  private static void oneDayPerCrew(Plan plan, List<String> found) {
    Set<String> seen = new HashSet<>();
    for (CrewDay day : plan.days()) {
      if (!seen.add(day.crew().id() + " " + day.date())) {
        found.add("crew " + day.crew().name() + " has two days on " + day.date());
      }
    }
  }

  private static void addUp(
      CrewDay day,
      Map<String, PatchDesign> byId,
      Map<LocalDate, Map<String, Double>> mix,
      Map<LocalDate, Map<Equipment, Integer>> machines) {
    Set<Equipment> needed = new HashSet<>();
    double tonnes = 0;
    for (CrewDay.Stop stop : day.stops()) {
      for (PatchDesign repair : stop.zone().repairs()) {
        PatchDesign raw = byId.get(repair.defect().id());
        needed.addAll(raw.equipment());
        tonnes += raw.tonnes();
      }
    }
    if (tonnes > 0) {
      mix.computeIfAbsent(day.date(), d -> new HashMap<>())
          .merge(day.plantId(), tonnes, Double::sum);
    }
    for (Equipment kind : needed) {
      machines
          .computeIfAbsent(day.date(), d -> new EnumMap<>(Equipment.class))
          .merge(kind, 1, Integer::sum);
    }
  }

  private void plantTonnes(Map<LocalDate, Map<String, Double>> mix, List<String> found) {
    for (Map.Entry<LocalDate, Map<String, Double>> date : mix.entrySet()) {
      for (Plant plant : agency.plants()) {
        double tonnes = date.getValue().getOrDefault(plant.id(), 0.0);
        if (tonnes > plant.dailyTonnes() + 1e-6) {
          found.add(
              "on "
                  + date.getKey()
                  + " "
                  + tonnes
                  + " t are ordered from "
                  + plant.name()
                  + ", which gives "
                  + plant.dailyTonnes());
        }
      }
    }
  }

  private void stocks(Map<LocalDate, Map<String, Double>> mix, List<String> found) {
    for (Plant plant : agency.plants()) {
      double taken = mix.values().stream().mapToDouble(m -> m.getOrDefault(plant.id(), 0.0)).sum();
      if (taken > plant.stockTonnes() + 1e-6) {
        found.add(
            taken + " t are taken from " + plant.name() + ", which holds " + plant.stockTonnes());
      }
    }
  }

  private void truckPool(Plan plan, List<String> found) {
    List<EquipmentUnit> pool =
        agency.equipment().stream().filter(u -> u.kind() == Equipment.HAUL_TRUCK).toList();
    Map<LocalDate, Integer> used = new TreeMap<>();
    plan.days().forEach(d -> used.merge(d.date(), d.trucks(), Integer::sum));
    for (Map.Entry<LocalDate, Integer> date : used.entrySet()) {
      long there = pool.stream().filter(u -> !u.outOfService().contains(date.getKey())).count();
      if (!pool.isEmpty() && date.getValue() > there) {
        found.add(
            "on "
                + date.getKey()
                + " "
                + date.getValue()
                + " trucks are out, the pool has "
                + there);
      }
    }
  }

  private void machinesPerDate(
      Map<LocalDate, Map<Equipment, Integer>> machines, List<String> found) {
    for (Map.Entry<LocalDate, Map<Equipment, Integer>> date : machines.entrySet()) {
      for (Map.Entry<Equipment, Integer> use : date.getValue().entrySet()) {
        List<EquipmentUnit> units =
            agency.equipment().stream().filter(u -> u.kind() == use.getKey()).toList();
        long there = units.stream().filter(u -> !u.outOfService().contains(date.getKey())).count();
        // A kind the agency lists no unit of belongs to each crew and is not shared.
        if (!units.isEmpty() && use.getValue() > there) {
          found.add(
              "on "
                  + date.getKey()
                  + " "
                  + use.getValue()
                  + " crews need "
                  + use.getKey()
                  + ", "
                  + there
                  + " in service");
        }
      }
    }
  }
}
