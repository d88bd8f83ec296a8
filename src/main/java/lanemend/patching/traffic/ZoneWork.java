package lanemend.patching.traffic;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.PatchDesign;
import lanemend.patching.RoadSetting;
import lanemend.patching.Treatment;

/**
 * The work of one zone as far as traffic control needs it.
 *
 * @param lengthM from the first repair to the last
 * @param workMinutes the zone stands, without set-up, take-down and turning the closure over
 * @param position of the outermost repair
 * @param severalLanes true where repairs lie in more than one lane of a side
 * @param longestSpotMinutes at one place
 * @param machines true where a machine that fills a lane comes
 * @param intrusionM into the lane from its edge; not a number where the whole lane is needed
 * @param bothSides true where repairs lie on both sides of the road, done one side after the other
 */
public record ZoneWork(
    RoadSetting setting,
    double lengthM,
    double workMinutes,
    WorkPosition position,
    boolean severalLanes,
    double longestSpotMinutes,
    boolean machines,
    double intrusionM,
    boolean bothSides) {

  private static final Set<Equipment> FILL_A_LANE =
      EnumSet.of(
          Equipment.MOTOR_GRADER,
          Equipment.DISTRIBUTOR,
          Equipment.BROOM,
          Equipment.ROLLER,
          Equipment.LOADER);

  /**
   * Checks what is worked with.
   *
   * @throws IllegalArgumentException when speed, lanes, length or minutes make no sense
   */
  public ZoneWork {
    expect(setting.postedKmh() > 0, "posted speed", setting.postedKmh(), "km/h above 0");
    expect(setting.lanes() >= 1, "number of lanes", setting.lanes(), "1 or more");
    expect(setting.laneWidthM() > 0, "lane width", setting.laneWidthM(), "metres above 0");
    expect(setting.aadt() >= 0, "AADT", setting.aadt(), "0 or more");
    expect(lengthM >= 0, "zone length", lengthM, "0 m or more");
    expect(workMinutes >= 0, "minutes of work", workMinutes, "0 or more");
  }

  /** Work on one side of the road. */
  public ZoneWork(
      RoadSetting setting,
      double lengthM,
      double workMinutes,
      WorkPosition position,
      boolean severalLanes,
      double longestSpotMinutes,
      boolean machines,
      double intrusionM) {
    this(
        setting,
        lengthM,
        workMinutes,
        position,
        severalLanes,
        longestSpotMinutes,
        machines,
        intrusionM,
        false);
  }

  /** Work with machines at one place of the outer lane. */
  public static ZoneWork inLane(RoadSetting setting, double lengthM, double workMinutes) {
    return new ZoneWork(
        setting,
        lengthM,
        workMinutes,
        WorkPosition.OUTER_LANE,
        false,
        workMinutes,
        true,
        Double.NaN);
  }

  /** The work of these repairs, which lie on one route. */
  public static ZoneWork of(
      RoadSetting setting, double lengthM, double workMinutes, List<PatchDesign> repairs) {
    int outermost = 0;
    boolean several = false;
    boolean both = false;
    EnumMap<Side, Integer> laneOf = new EnumMap<>(Side.class);
    boolean edges = true;
    double reach = 0;
    double longest = 0;
    boolean machines = false;
    Lane first = repairs.get(0).defect().lane();
    for (PatchDesign repair : repairs) {
      Lane lane = repair.defect().lane();
      Integer before = laneOf.putIfAbsent(lane.side(), lane.number());
      several |= before != null && before != lane.number();
      both |= lane.side() != first.side();
      outermost = Math.max(outermost, lane.number());
      edges &= repair.choice().treatment() == Treatment.EDGE_REPAIR;
      reach = Math.max(reach, repair.defect().widthM());
      longest = Math.max(longest, repair.minutes());
      machines |= repair.equipment().stream().anyMatch(FILL_A_LANE::contains);
    }
    return new ZoneWork(
        setting,
        lengthM,
        workMinutes,
        position(setting, new Lane(first.side(), outermost)),
        several,
        longest,
        machines,
        edges ? reach : Double.NaN,
        both);
  }

  private static WorkPosition position(RoadSetting setting, Lane lane) {
    if (lane.number() == 0) {
      return WorkPosition.SHOULDER;
    }
    int lanes = setting.lanesEachWay();
    if (lanes == 1) {
      return WorkPosition.OUTER_LANE;
    }
    if (setting.oneDirection() && lane.side() == Side.LEFT) {
      return WorkPosition.INNER_LANE;
    }
    if (lane.number() >= lanes) {
      return WorkPosition.OUTER_LANE;
    }
    return lane.number() == 1 ? WorkPosition.INNER_LANE : WorkPosition.MIDDLE_LANE;
  }

  /** True where drivers see the closed lane on their right. */
  public boolean onTheRight() {
    return position != WorkPosition.INNER_LANE;
  }

  private static void expect(boolean holds, String what, double found, String expected) {
    if (!holds) {
      throw new IllegalArgumentException(what + " is " + found + "; " + expected + " is expected");
    }
  }
}
