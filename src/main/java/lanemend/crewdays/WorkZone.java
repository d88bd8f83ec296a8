package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import lanemend.patching.traffic.TrafficPlan;

/**
 * Repairs of one route that share one traffic-control set-up: of one side, or of both sides of a
 * two-lane road, where the closure is turned over in between.
 *
 * @param repairs in the order they are done: by growing along, of both sides the right side so and
 *     then the left side back
 * @param workMinutes mean minutes at the zone from first cone to last, trucks never waited for
 * @param dueOn the earliest due date among the repairs
 * @param x projected x of the repair nearest the zone's middle, where crew and trucks drive to
 */
public record WorkZone(
    String id,
    String routeId,
    ZoneSide side,
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

  /** The zone as it stands while one side is worked on: itself, or the right side and the left. */
  public List<WorkZone> phases() {
    return side == ZoneSide.BOTH
        ? Stream.of(ZoneSide.RIGHT, ZoneSide.LEFT).map(this::phase).toList()
        : List.of(this);
  }

  private WorkZone phase(ZoneSide one) {
    List<PatchDesign> own =
        repairs.stream().filter(r -> ZoneSide.of(r.defect().lane().side()) == one).toList();
    return new WorkZone(
        id, routeId, one, fromAlongM, toAlongM, x, y, own, traffic, workMinutes, tonnes, dueOn);
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
