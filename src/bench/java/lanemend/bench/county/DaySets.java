package lanemend.bench.county;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lanemend.crewdays.CountyCase;

/**
 * Every set of zones one crew can do in a day, with the cheapest order that keeps the shift:
 * dynamic program over sets and last zones (Held and Karp 1962), with all orders kept that no other
 * is both cheaper and shorter than. Lateness is not in the costs.
 */
final class DaySets {
  /** A way to do a set that ends at {@code last}. */
  private record Way(Way before, int last, double cost, double minutes) {}

  private final List<int[]> orders = new ArrayList<>();
  private final List<Double> costs = new ArrayList<>();
  private final Map<Long, Integer> index = new HashMap<>();

  private DaySets() {}

  /**
   * The sets of a crew.
   *
   * @throws IllegalArgumentException for more zones than bits
   */
  static DaySets of(CountyCase c, int crew) {
    if (c.zones() > Long.SIZE) {
      throw new IllegalArgumentException("at most " + Long.SIZE + " zones, not " + c.zones());
    }
    DaySets found = new DaySets();
    Map<Long, List<Way>> level = new HashMap<>();
    for (int z = 0; z < c.zones(); z++) {
      found.extend(c, crew, 0, null, z, level);
    }
    while (!level.isEmpty()) {
      Map<Long, List<Way>> next = new HashMap<>();
      for (Map.Entry<Long, List<Way>> set : level.entrySet()) {
        found.close(c, crew, set.getKey(), set.getValue());
        for (Way way : set.getValue()) {
          for (int z = 0; z < c.zones(); z++) {
            found.extend(c, crew, set.getKey(), way, z, next);
          }
        }
      }
      level = next;
    }
    return found;
  }

  private void extend(
      CountyCase c, int crew, long set, Way way, int zone, Map<Long, List<Way>> into) {
    CountyCase.Crew of = c.crews()[crew];
    long with = set | 1L << zone;
    if (with == set || !c.can(crew, zone) || tonnes(c, with) > of.limitTonnes()) {
      return;
    }
    int from = way == null ? of.place() : way.last();
    double leg = c.minutes()[from][zone] + c.service()[zone];
    double minutes = leg + (way == null ? 0 : way.minutes());
    double cost =
        (way == null ? of.openingCost() : way.cost())
            + c.km()[from][zone] * c.costPerKm()
            + leg * of.costPerMinute();
    if (minutes > of.limitMinutes()) {
      return;
    }
    List<Way> ways = into.computeIfAbsent(with, k -> new ArrayList<>());
    for (Way other : ways) {
      if (other.last() == zone && other.cost() <= cost && other.minutes() <= minutes) {
        return;
      }
    }
    ways.removeIf(o -> o.last() == zone && o.cost() >= cost && o.minutes() >= minutes);
    ways.add(new Way(way, zone, cost, minutes));
  }

  private static double tonnes(CountyCase c, long set) {
    double sum = 0;
    for (long rest = set; rest != 0; rest &= rest - 1) {
      sum += c.tonnes()[Long.numberOfTrailingZeros(rest)];
    }
    return sum;
  }

  /** Keeps the cheapest way home, if any is in time. */
  private void close(CountyCase c, int crew, long set, List<Way> ways) {
    CountyCase.Crew of = c.crews()[crew];
    Way best = null;
    double least = Double.POSITIVE_INFINITY;
    for (Way way : ways) {
      double leg = c.minutes()[way.last()][of.place()];
      double cost =
          way.cost() + c.km()[way.last()][of.place()] * c.costPerKm() + leg * of.costPerMinute();
      if (way.minutes() + leg <= of.limitMinutes() && cost < least) {
        least = cost;
        best = way;
      }
    }
    if (best != null) {
      int[] order = new int[Long.bitCount(set)];
      int at = order.length;
      for (Way way = best; way != null; way = way.before()) {
        order[--at] = way.last();
      }
      index.put(set, orders.size());
      orders.add(order);
      costs.add(least);
    }
  }

  int size() {
    return orders.size();
  }

  double cost(int set) {
    return costs.get(set);
  }

  int[] order(int set) {
    return orders.get(set);
  }

  /** Which set these zones are. */
  int indexOf(int[] zones) {
    return index.get(Arrays.stream(zones).mapToLong(z -> 1L << z).reduce(0, (a, b) -> a | b));
  }

  /** Sum of a figure of the zones over a set. */
  double sum(int set, double[] ofZone) {
    double sum = 0;
    for (int z : orders.get(set)) {
      sum += ofZone[z];
    }
    return sum;
  }
}
