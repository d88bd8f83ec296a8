package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.Place;
import lanemend.network.Side;
import lanemend.patching.FigureName;
import lanemend.patching.PatchDesign;
import lanemend.patching.RoadSetting;
import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.ZoneWork;

/**
 * Makes work zones out of repairs of one route: how long the zone is, how long the work in it
 * takes, what traffic control it needs.
 */
public final class Zones {
  /** Speed at which a crew shifts from patch to patch inside its cones, km/h (about 5 mph). */
  public static final double SHIFT_KMH = 8;

  /** Minutes to gather up and start again at the next patch; common practice, no source. */
  public static final double SHIFT_MINUTES = 3;

  /** Mix never falls from the sky: keeps rates finite for a repair whose steps take no time. */
  private static final double LEAST_LAY_MINUTES = 0.01;

  /** By place along the road, then by id, so that the order is the same each time. */
  static final Comparator<PatchDesign> ALONG =
      Comparator.comparingDouble((PatchDesign r) -> r.defect().place().fromAlongM())
          .thenComparingDouble(r -> r.defect().place().toAlongM())
          .thenComparing(r -> r.defect().id());

  /** One row of repairs along the road; of both sides the right one along and the left one back. */
  static List<PatchDesign> inOrder(List<PatchDesign> repairs) {
    List<PatchDesign> right = new ArrayList<>();
    List<PatchDesign> left = new ArrayList<>();
    for (PatchDesign repair : repairs) {
      (repair.defect().lane().side() == Side.LEFT ? left : right).add(repair);
    }
    right.sort(ALONG);
    left.sort(ALONG);
    return inOrder(right, left);
  }

  /** As {@link #inOrder(List)}, of two rows that are sorted along. */
  static List<PatchDesign> inOrder(List<PatchDesign> right, List<PatchDesign> left) {
    List<PatchDesign> all = new ArrayList<>(right);
    all.addAll(left);
    if (!right.isEmpty()) {
      Collections.reverse(all.subList(right.size(), all.size()));
    }
    return all;
  }

  private final PlanSettings settings;
  private final ZoneTraffic traffic;

  public Zones(PlanSettings settings, ZoneTraffic traffic) {
    this.settings = settings;
    this.traffic = traffic;
  }

  /** One zone of these repairs, which lie on one route and are {@link #inOrder}. */
  public WorkZone zone(List<PatchDesign> repairs) {
    Defect first = repairs.get(0).defect();
    Defect anchor = anchor(repairs).defect();
    double from = fromAlongM(repairs);
    double to = endAlongM(repairs);
    double work = 0;
    double tonnes = 0;
    LocalDate due = LocalDate.MAX;
    for (int i = 0; i < repairs.size(); i++) {
      PatchDesign repair = repairs.get(i);
      work += repair.minutes() + (i == 0 ? 0 : shiftMinutes(repairs.get(i - 1), repair));
      tonnes += repair.tonnes();
      LocalDate own = dueOn(repair);
      due = own.isBefore(due) ? own : due;
    }
    TrafficPlan plan = traffic.plan(ZoneWork.of(governing(repairs), to - from, work, repairs));
    ZoneSide side = ZoneSide.of(repairs);
    return new WorkZone(
        first.place().routeId() + " " + side.words() + ", " + first.id(),
        first.place().routeId(),
        side,
        from,
        to,
        anchor.place().x(),
        anchor.place().y(),
        repairs,
        plan,
        plan.setUpMinutes() + work + plan.turnOverMinutes() + plan.takeDownMinutes(),
        tonnes,
        due);
  }

  /** A zone as a crew works it; the same one where nothing was learned of the crew. */
  static WorkZone paced(WorkZone zone, CrewPace pace) {
    if (pace.minutes().isEmpty()
        || zone.repairs().stream()
            .noneMatch(r -> pace.minutes().containsKey(r.choice().treatment()))) {
      return zone;
    }
    List<PatchDesign> repairs = zone.repairs().stream().map(pace::paced).toList();
    double more = 0;
    for (int i = 0; i < repairs.size(); i++) {
      more += repairs.get(i).minutes() - zone.repairs().get(i).minutes();
    }
    return new WorkZone(
        zone.id(),
        zone.routeId(),
        zone.side(),
        zone.fromAlongM(),
        zone.toAlongM(),
        zone.x(),
        zone.y(),
        repairs,
        zone.traffic(),
        zone.workMinutes() + more,
        zone.tonnes(),
        zone.dueOn());
  }

  static double fromAlongM(List<PatchDesign> repairs) {
    return repairs.stream().mapToDouble(r -> r.defect().place().fromAlongM()).min().orElseThrow();
  }

  static double endAlongM(List<PatchDesign> repairs) {
    return repairs.stream().mapToDouble(r -> r.defect().place().toAlongM()).max().orElseThrow();
  }

  /** Minutes from the end of the repair before to the start of this one, not the zone's first. */
  static double betweenMinutes(WorkZone zone, int repair) {
    PatchDesign from = zone.repairs().get(repair - 1);
    PatchDesign to = zone.repairs().get(repair);
    return shiftMinutes(from, to) + (onOneSide(from, to) ? 0 : zone.traffic().turnOverMinutes());
  }

  private static boolean onOneSide(PatchDesign a, PatchDesign b) {
    return a.defect().lane().side() == b.defect().lane().side();
  }

  /** Minutes to shift from one patch to the next inside the zone, either way along it. */
  private static double shiftMinutes(PatchDesign from, PatchDesign to) {
    Place a = from.defect().place();
    Place b = to.defect().place();
    double gap = Math.max(a.fromAlongM(), b.fromAlongM()) - Math.min(a.toAlongM(), b.toAlongM());
    return SHIFT_MINUTES + Math.max(0, gap) / (SHIFT_KMH * 1000 / 60);
  }

  /** The repair nearest the zone's middle: where the crew drives to and from. */
  static PatchDesign anchor(List<PatchDesign> repairs) {
    double middle = (fromAlongM(repairs) + endAlongM(repairs)) / 2;
    PatchDesign best = repairs.get(0);
    for (PatchDesign repair : repairs) {
      if (Math.abs(repair.defect().place().middleAlongM() - middle)
          < Math.abs(best.defect().place().middleAlongM() - middle)) {
        best = repair;
      }
    }
    return best;
  }

  /** The setting the whole zone is signed for: the fastest road among its repairs, then busiest. */
  static RoadSetting governing(List<PatchDesign> repairs) {
    return repairs.stream()
        .map(PatchDesign::setting)
        .max(
            Comparator.comparingDouble(RoadSetting::postedKmh)
                .thenComparingDouble(RoadSetting::aadt))
        .orElseThrow();
  }

  /**
   * These repairs, {@link #inOrder}, as the zone they make, or a zone a side where it may not be.
   */
  List<WorkZone> allowed(List<PatchDesign> repairs) {
    WorkZone together = zone(repairs);
    return together.side() == ZoneSide.BOTH && !together.traffic().turnsOver()
        ? together.phases().stream().map(p -> zone(inOrder(p.repairs()))).toList()
        : List.of(together);
  }

  /** Longest zone these repairs' road classes allow; infinite where the agency sets none. */
  double maxLengthM(List<PatchDesign> repairs) {
    return repairs.stream()
        .mapToDouble(
            r ->
                settings.maxZoneM().getOrDefault(r.setting().roadClass(), Double.POSITIVE_INFINITY))
        .min()
        .orElseThrow();
  }

  /**
   * Due date: days by severity times the factor of the road's class, whole days, after the finding.
   *
   * @throws IllegalArgumentException when the agency sets no days for the severity
   */
  LocalDate dueOn(PatchDesign repair) {
    Defect defect = repair.defect();
    Integer days = settings.dueDays().get(defect.severity());
    if (days == null) {
      throw new IllegalArgumentException("no due days are set for severity " + defect.severity());
    }
    double factor = settings.dueFactor().getOrDefault(repair.setting().roadClass(), 1.0);
    return defect.foundOn().plusDays(Math.round(days * factor));
  }

  /** What the zone lays; null when it takes no mix. */
  static TruckFleet.Laying laying(WorkZone zone) {
    if (!(zone.tonnes() > 0)) {
      return null;
    }
    double lay = 0;
    for (PatchDesign repair : zone.repairs()) {
      lay += layMinutes(repair);
    }
    double clock = 0;
    double firstLaid = Double.NaN;
    double lastLaid = 0;
    for (int i = 0; i < zone.repairs().size(); i++) {
      PatchDesign repair = zone.repairs().get(i);
      clock += i == 0 ? 0 : betweenMinutes(zone, i);
      double own = layMinutes(repair);
      if (own > 0) {
        double start = clock + (repair.minutes() - own) / 2;
        firstLaid = Double.isNaN(firstLaid) ? start : firstLaid;
        lastLaid = start + own;
      }
      clock += repair.minutes();
    }
    return new TruckFleet.Laying(zone.tonnes(), lay, lastLaid - firstLaid);
  }

  /** Minutes from the first cone to the first mix laid. */
  static double readyMinutes(WorkZone zone) {
    double clock = zone.traffic().setUpMinutes();
    for (int i = 0; i < zone.repairs().size(); i++) {
      PatchDesign repair = zone.repairs().get(i);
      clock += i == 0 ? 0 : betweenMinutes(zone, i);
      double own = layMinutes(repair);
      if (own > 0) {
        return clock + (repair.minutes() - own) / 2;
      }
      clock += repair.minutes();
    }
    return clock;
  }

  /**
   * Minutes of laying itself: tonnes by the laydown rate, never more than the repair takes; all its
   * minutes when no rate is known. Half of what is left lies before the laying and half after.
   */
  private static double layMinutes(PatchDesign repair) {
    if (!(repair.tonnes() > 0)) {
      return 0;
    }
    double byRate =
        repair
            .figure(FigureName.LAYDOWN_RATE)
            .map(rate -> repair.tonnes() / rate.value() * 60)
            .orElse(repair.minutes());
    return Math.max(LEAST_LAY_MINUTES, Math.min(byRate, repair.minutes()));
  }
}
