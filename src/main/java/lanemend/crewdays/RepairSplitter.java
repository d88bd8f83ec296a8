package lanemend.crewdays;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.RepairParts;

/**
 * Cuts a repair that no crew can do in a day, or that is longer than a work zone may be, into the
 * fewest parts that can each be done in a day. Fewest is cheapest: each part more is set up again,
 * has its own tapers and a joint to cut back.
 */
final class RepairSplitter {
  /** A repair longer than so many days is no patch but a job to be let. */
  private static final int MOST_PARTS = 30;

  private final Haul haul;
  private final Agency agency;
  private final Zones zoning;
  private final List<CrewKind> kinds;
  private final CrewCalendar calendar;
  private final RepairParts parts;

  RepairSplitter(
      Haul haul,
      Agency agency,
      Zones zoning,
      List<CrewKind> kinds,
      CrewCalendar calendar,
      RepairParts parts) {
    this.haul = haul;
    this.agency = agency;
    this.zoning = zoning;
    this.kinds = kinds;
    this.calendar = calendar;
    this.parts = parts;
  }

  /** The parts; empty when no cutting helps. */
  List<PatchDesign> split(PatchDesign repair) {
    if (RepairPart.parse(repair.defect().id()).isPresent()) {
      return List.of();
    }
    for (int n = 2; n <= MOST_PARTS; n++) {
      List<PatchDesign> cut = parts.cut(repair, n);
      if (cut.isEmpty()) {
        return cut;
      }
      if (eachFits(cut)) {
        return cut;
      }
    }
    return List.of();
  }

  private boolean eachFits(List<PatchDesign> cut) {
    for (PatchDesign part : cut) {
      Place place = part.defect().place();
      if (Zones.endAlongM(List.of(part)) - place.fromAlongM() > zoning.maxLengthM(List.of(part))) {
        return false;
      }
    }
    List<Place> places = cut.stream().map(p -> p.defect().place()).toList();
    CrewFit fit = new CrewFit(agency, kinds, calendar, CountyLegs.of(haul, agency, places));
    for (int i = 0; i < cut.size(); i++) {
      WorkZone alone = zoning.zone(List.of(cut.get(i)));
      if (fit.best(alone, i).obstacle() != CrewFit.Obstacle.NONE) {
        return false;
      }
    }
    return true;
  }

  /** The part of this id of one of the repairs; empty when there is none. */
  static Optional<PatchDesign> partOf(
      String id, Map<String, PatchDesign> wholes, RepairParts parts) {
    return RepairPart.parse(id)
        .filter(p -> wholes.containsKey(p.defectId()))
        .flatMap(
            p -> {
              List<PatchDesign> cut = parts.cut(wholes.get(p.defectId()), p.of());
              return cut.isEmpty() ? Optional.empty() : Optional.of(cut.get(p.number() - 1));
            });
  }

  /**
   * What is left out, a repair at a time: whole, or the parts of it that are.
   *
   * @param why reasons by id of repair or part
   */
  static List<Plan.LeftOut> leftOut(List<PatchDesign> repairs, Map<String, String> why) {
    Map<String, Set<RepairPart>> ofRepair = new LinkedHashMap<>();
    why.keySet().stream()
        .flatMap(id -> RepairPart.parse(id).stream())
        .forEach(p -> ofRepair.computeIfAbsent(p.defectId(), k -> new LinkedHashSet<>()).add(p));
    return repairs.stream()
        .map(r -> r.defect().id())
        .flatMap(
            id -> {
              if (why.containsKey(id)) {
                return List.of(new Plan.LeftOut(id, why.get(id))).stream();
              }
              Set<RepairPart> out = ofRepair.getOrDefault(id, Set.of());
              return out.stream()
                  .map(p -> new Plan.LeftOut(p.id(), p.words() + ": " + why.get(p.id())));
            })
        .toList();
  }
}
