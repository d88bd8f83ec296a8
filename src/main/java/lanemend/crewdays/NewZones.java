package lanemend.crewdays;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lanemend.inventory.Place;
import lanemend.patching.PatchDesign;

/** Work zones of repairs that are in no crew day yet; those pinned together stay together. */
final class NewZones {
  private final PlanBase base;
  private final LeftOutReasons reasons;

  NewZones(PlanBase base) {
    this.base = base;
    reasons = new LeftOutReasons(base.agency(), base.zoning(), base.rules());
  }

  /** Zones of all repairs that some crew can do and that are not planned already. */
  List<WorkZone> shape(List<PatchDesign> repairs, Set<String> planned) {
    List<PatchDesign> open = new ArrayList<>();
    for (PatchDesign repair : repairs) {
      if (!planned.contains(repair.defect().id()) && reasons.before(repair).isEmpty()) {
        open.add(repair);
      }
    }
    List<Place> at = open.stream().map(r -> r.defect().place()).toList();
    CountyLegs legs = CountyLegs.of(base.haul(), base.agency(), at);
    CrewFit fit = new CrewFit(base.agency(), base.kinds(), base.calendar(), legs);
    List<PatchDesign> loose = new ArrayList<>();
    Map<String, List<PatchDesign>> pinned = new LinkedHashMap<>();
    Map<String, Integer> rows = new HashMap<>();
    for (int i = 0; i < open.size(); i++) {
      PatchDesign repair = open.get(i);
      String id = repair.defect().id();
      rows.put(id, i);
      if (base.rules().pin(id).isPresent()) {
        HandRule pin = base.rules().pin(id).get();
        String key = pin.zone() + "\n" + pin.crewId() + "\n" + pin.date();
        pinned.computeIfAbsent(key, k -> new ArrayList<>()).add(repair);
      } else if (fit.best(base.zoning().zone(List.of(repair)), i).obstacle()
          == CrewFit.Obstacle.NONE) {
        loose.add(repair);
      }
    }
    List<WorkZone> zones = new ArrayList<>();
    for (List<PatchDesign> group : pinned.values()) {
      zones.addAll(base.zoning().allowed(Zones.inOrder(group)));
    }
    zones.addAll(new ZoneShaper(base.agency(), base.zoning(), fit).shape(loose, rows));
    return zones;
  }
}
