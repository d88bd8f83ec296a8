package lanemend.crewdays;

import lanemend.patching.traffic.TrafficPlan;
import lanemend.patching.traffic.ZoneWork;

/** Works out the traffic control of one work zone; {@code TrafficPlanner::plan} is one. */
@FunctionalInterface
public interface ZoneTraffic {
  /** Plans one zone; its minutes are means, without set-up and take-down. */
  TrafficPlan plan(ZoneWork work);
}
