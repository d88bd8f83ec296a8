package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import lanemend.patching.traffic.TrafficPlan;

/**
 * Repairs of one route and side that share one traffic-control set-up.
 *
 * @param repairs by growing along
 * @param workMinutes mean minutes at the zone from first cone to last, trucks never waited for
 * @param dueOn the earliest due date among the repairs
 * @param x projected x of the repair nearest the zone's middle, where crew and trucks drive to
 */
public record WorkZone(
    String id,
    String routeId,
    Side side,
    double fromAlongM,
    double toAlongM,
    double x,
    double y,
    List<PatchDesign> repairs,
    TrafficPlan traffic,
    double workMinutes,
    double tonnes,
    LocalDate dueOn) {

  public WorkZone {
    repairs = List.copyOf(repairs);
  }

  public double lengthM() {
    return toAlongM - fromAlongM;
  }

  /** Machines needed, over all repairs. */
  public Set<Equipment> equipment() {
    return repairs.stream()
        .flatMap(r -> r.equipment().stream())
        .collect(java.util.stream.Collectors.toUnmodifiableSet());
  }

  /** Treatments done here. */
  public Set<Treatment> treatments() {
    return repairs.stream()
        .map(r -> r.choice().treatment())
        .collect(java.util.stream.Collectors.toUnmodifiableSet());
  }
}
