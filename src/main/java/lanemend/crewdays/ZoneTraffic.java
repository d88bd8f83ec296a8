package lanemend.crewdays;

import lanemend.patching.RoadSetting;
import lanemend.patching.traffic.TrafficPlan;

/** Works out the traffic control of one work zone; {@code patching.TrafficPlanner::plan} is one. */
@FunctionalInterface
public interface ZoneTraffic {
  /**
   * Plans one zone.
   *
   * @param workMinutes mean minutes of work, without set-up and take-down
   */
  TrafficPlan plan(RoadSetting setting, double zoneLengthM, double workMinutes);
}
