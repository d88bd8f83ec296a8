package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * Moves whole days to the crew's first free date that can take them at no higher cost: work that
 * may as well be done now is not left for later.
 */
final class EarlierDates {
  private final DayProblem p;
  private final DayPrice price;

  EarlierDates(DayProblem p) {
    this.p = p;
    price = new DayPrice(p);
  }

  void apply(Solution s) {
    for (int[] group : DateSwap.groups(p)) {
      for (int i = 1; i < group.length; i++) {
        if (s.size[group[i]] > 0) {
          moveForward(s, group, i);
        }
      }
    }
  }

  private void moveForward(Solution s, int[] group, int index) {
    int from = group[index];
    int n = s.size[from];
    int[] stops = Arrays.copyOf(s.seq[from], n);
    int kind = s.kind[from];
    double cost = s.cost[from];
    for (int stop = n - 1; stop >= 0; stop--) {
      s.removeAt(from, stop);
    }
    s.refresh(from);
    int to = index;
    for (int i = 0; i < index; i++) {
      if (takes(s, group[i], kind, stops, cost)) {
        to = i;
        break;
      }
    }
    s.setKind(group[to], kind);
    for (int i = 0; i < n; i++) {
      s.insert(group[to], i, stops[i]);
    }
  }

  private boolean takes(Solution s, int slot, int kind, int[] stops, double cost) {
    DayProblem.Slot it = p.slots()[slot];
    return s.size[slot] == 0
        && Arrays.stream(it.kinds()).anyMatch(k -> k == kind)
        && s.admitsAll(slot, kind, stops, stops.length)
        && price.price(kind, it.date(), stops, stops.length, -1, -1)
        && price.cost <= cost + 1e-9;
  }
}
