package lanemend.crewdays;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import lanemend.network.SideRoad;
import lanemend.patching.RoadSign;
import lanemend.patching.traffic.TrafficPlan;

/**
 * What a crew loads for a day's traffic control. Zones are set up one after another, so the most at
 * any one stop is enough; the sum over the day is what is set up and taken down in all.
 */
public record DayNeeds(List<Need> needs) {

  /** What a need is. */
  public enum Kind {
    SIGN,
    DEVICE,
    PERSON
  }

  /**
   * One line of the list.
   *
   * @param code designation of a sign; empty for the rest
   * @param what legend, device or duty
   * @param atOneStop the most at any one stop
   * @param overTheDay set up at all stops together
   */
  public record Need(Kind kind, String code, String what, int atOneStop, int overTheDay) {
    /** As on a list: signs with their designation. */
    public String text() {
      return code.isEmpty() ? what : what + " (" + code + ")";
    }
  }

  public DayNeeds {
    needs = List.copyOf(needs);
  }

  /**
   * The needs of a day, signs first, each kind in the order first met.
   *
   * @param sideRoads of a route, by its id
   */
  public static DayNeeds of(CrewDay day, Function<String, List<SideRoad>> sideRoads) {
    Map<Key, int[]> counts = new LinkedHashMap<>();
    for (CrewDay.Stop stop : day.stops()) {
      Map<Key, Integer> here = atStop(stop.zone().traffic());
      int mouths =
          SideRoadInZone.of(stop.zone(), sideRoads.apply(stop.zone().routeId())).stream()
              .mapToInt(s -> s.road().mouths())
              .sum();
      if (mouths > 0) {
        here.put(new Key(Kind.SIGN, "W20-1", "ROAD WORK AHEAD, side roads"), mouths);
      }
      here.forEach(
          (key, count) -> {
            int[] sum = counts.computeIfAbsent(key, k -> new int[2]);
            sum[0] = Math.max(sum[0], count);
            sum[1] += count;
          });
    }
    List<Need> needs = new ArrayList<>();
    for (Kind kind : Kind.values()) {
      counts.forEach(
          (key, sum) -> {
            if (key.kind() == kind) {
              needs.add(new Need(kind, key.code(), key.what(), sum[0], sum[1]));
            }
          });
    }
    return new DayNeeds(needs);
  }

  /** The needs of one kind. */
  public List<Need> of(Kind kind) {
    return needs.stream().filter(n -> n.kind() == kind).toList();
  }

  private record Key(Kind kind, String code, String what) {}

  private static Map<Key, Integer> atStop(TrafficPlan plan) {
    Map<Key, Integer> here = new LinkedHashMap<>();
    for (TrafficPlan.SignPlacement placed : plan.signs()) {
      RoadSign sign = placed.sign();
      here.merge(new Key(Kind.SIGN, sign.code(), sign.legend()), placed.boards(), Integer::sum);
    }
    for (TrafficPlan.DeviceCount device : plan.devices()) {
      here.merge(new Key(Kind.DEVICE, "", device.device()), device.count(), Integer::sum);
    }
    if (plan.flaggers() > 0) {
      here.merge(new Key(Kind.PERSON, "", "flaggers"), plan.flaggers(), Integer::sum);
    }
    return here;
  }
}
