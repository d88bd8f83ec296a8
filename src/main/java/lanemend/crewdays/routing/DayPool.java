package lanemend.crewdays.routing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Days that paid at some prices, by slot, each with what it costs there. A day found for one slot
 * is kept for all of its group that can run it.
 */
final class DayPool {
  private final DayProblem p;
  private final DayPrice exact;
  private final List<List<Day>> ofSlot = new ArrayList<>();
  private final Set<List<Integer>> known = new HashSet<>();

  /** Stops in order and what the whole day costs. */
  private record Day(int[] stops, double cost) {
    double earns(double[] price) {
      double value = -cost;
      for (int stop : stops) {
        value += price[stop];
      }
      return value;
    }
  }

  DayPool(DayProblem p) {
    this.p = p;
    exact = new DayPrice(p);
    for (int s = 0; s < p.slots().length; s++) {
      ofSlot.add(new ArrayList<>());
    }
  }

  /** Keeps a day of a slot, unless it is known. */
  void add(int slot, int[] stops) {
    int group = p.slots()[slot].group();
    List<Integer> key = new ArrayList<>(stops.length + 1);
    key.add(group);
    Arrays.stream(stops).forEach(key::add);
    if (!known.add(key)) {
      return;
    }
    for (int s = 0; s < ofSlot.size(); s++) {
      double cost = p.slots()[s].group() == group ? cost(s, stops) : Double.POSITIVE_INFINITY;
      if (cost < Double.POSITIVE_INFINITY) {
        ofSlot.get(s).add(new Day(stops, cost));
      }
    }
  }

  /** The least the slot can run these stops for in this order; infinite when it cannot. */
  private double cost(int slot, int[] stops) {
    int date = p.date(slot);
    double load = 0;
    for (int stop : stops) {
      load += p.demand()[stop];
      if ((p.shared().machineBits()[stop] & p.barred(date)) != 0) {
        return Double.POSITIVE_INFINITY;
      }
    }
    double least = Double.POSITIVE_INFINITY;
    for (int kind : p.slots()[slot].kinds()) {
      if (load <= p.mostLoad(kind, date) && exact.price(kind, date, stops, stops.length, -1, -1)) {
        least = Math.min(least, exact.cost);
      }
    }
    return least;
  }

  int size() {
    return known.size();
  }

  /** The day of a slot that earns most at these prices; null when none earns anything. */
  RelaxedDay.Best best(int slot, double[] price) {
    Day best = null;
    double most = 0;
    for (Day day : ofSlot.get(slot)) {
      double value = day.earns(price);
      if (value > most) {
        most = value;
        best = day;
      }
    }
    return best == null ? null : new RelaxedDay.Best(most, best.stops());
  }
}
