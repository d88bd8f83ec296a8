package lanemend.crewdays;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.RepairParts;

/** Proves that parts make up their repair; part of {@link PlanChecker}. */
final class PartCheck {
  private final RepairParts parts;
  private final List<String> found;

  PartCheck(RepairParts parts, List<String> found) {
    this.parts = parts;
    this.found = found;
  }

  /** Puts the parts of each repair the plan has cut in the place of the whole. */
  void putPartsForWholes(Plan plan, Map<String, PatchDesign> byId) {
    Stream<String> planned =
        plan.days().stream()
            .flatMap(d -> d.stops().stream())
            .flatMap(s -> s.zone().repairs().stream())
            .map(r -> r.defect().id());
    Set<String> named =
        Stream.concat(planned, plan.leftOut().stream().map(Plan.LeftOut::defectId))
            .filter(id -> !byId.containsKey(id))
            .collect(Collectors.toSet());
    Map<String, Set<Integer>> counts = new TreeMap<>();
    for (String id : named) {
      RepairPart.parse(id)
          .filter(p -> byId.containsKey(p.defectId()))
          .ifPresent(p -> counts.computeIfAbsent(p.defectId(), k -> new TreeSet<>()).add(p.of()));
    }
    for (Map.Entry<String, Set<Integer>> cut : counts.entrySet()) {
      PatchDesign whole = byId.get(cut.getKey());
      if (cut.getValue().size() > 1) {
        found.add("defect " + cut.getKey() + " is cut in two ways");
      } else {
        List<PatchDesign> own = parts.cut(whole, cut.getValue().iterator().next());
        makeUp(whole, own);
        byId.remove(cut.getKey());
        own.forEach(p -> byId.put(p.defect().id(), p));
      }
    }
  }

  private void makeUp(PatchDesign whole, List<PatchDesign> own) {
    String id = whole.defect().id();
    Place all = whole.defect().place();
    double at = all.fromAlongM();
    double length = 0;
    double tonnes = 0;
    for (PatchDesign part : own) {
      if (Math.abs(part.defect().place().fromAlongM() - at) > 1e-6
          || !part.choice().equals(whole.choice())
          || !part.defect().lane().equals(whole.defect().lane())) {
        found.add("the parts of defect " + id + " do not follow on each other");
      }
      at = part.defect().place().toAlongM();
      length += part.defect().lengthM();
      tonnes += part.tonnes();
    }
    if (Math.abs(at - all.toAlongM()) > 1e-6
        || Math.abs(length - whole.defect().lengthM()) > 1e-6) {
      found.add("the parts of defect " + id + " do not make up the whole");
    }
    if (tonnes < whole.tonnes() - 1e-6) {
      found.add("the parts of defect " + id + " take less mix than the whole");
    }
  }
}
