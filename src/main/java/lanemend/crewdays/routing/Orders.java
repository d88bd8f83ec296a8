package lanemend.crewdays.routing;

/**
 * The cheapest order of a few stops that keeps the day's limits, by trying every one; orders whose
 * driving so far already costs too much or leaves no time for the rest are not followed.
 */
final class Orders {
  private final DayProblem p;
  private final DayPrice price;
  private int[] order;
  private int[] best;
  private double bestCost;
  private double restMinutes;
  private int kind;
  private int date;

  Orders(DayProblem p, DayPrice price) {
    this.p = p;
    this.price = price;
  }

  /** Cost of the order found last. */
  double cost() {
    return bestCost;
  }

  /** The best order that costs less than {@code bar}, or null. */
  int[] best(int kind, int date, int[] stops, double bar) {
    this.kind = kind;
    this.date = date;
    order = stops.clone();
    best = null;
    bestCost = bar;
    DayKind k = p.kinds()[kind];
    double fixed = k.fixedCost();
    double separate = 0;
    double service = 0;
    for (int stop : stops) {
      separate += p.chance() == null ? 0 : p.chance().variance()[kind][stop];
      service += p.service()[kind][stop];
      fixed +=
          p.stopCost()[kind][stop]
              + p.late()[date][stop]
              + k.costPerMinute() * p.service()[kind][stop];
    }
    double most =
        p.chance() == null ? k.limitMinutes() : p.chance().most(k.limitMinutes(), separate);
    restMinutes = most + 1e-6 - service;
    if (restMinutes >= 0) {
      extend(0, p.depotPlace(kind), fixed, 0);
    }
    return best;
  }

  private void extend(int placed, int from, double soFar, double driven) {
    if (placed == order.length) {
      if (price.price(kind, date, order, order.length, -1, -1) && price.cost < bestCost) {
        bestCost = price.cost;
        best = order.clone();
      }
      return;
    }
    DayKind k = p.kinds()[kind];
    for (int i = placed; i < order.length; i++) {
      int stop = order[i];
      int leg = p.leg(from, stop);
      double cost = soFar + k.costPerKm() * p.legs()[leg] + k.costPerMinute() * p.legs()[leg + 1];
      double minutes = driven + p.legs()[leg + 1];
      if (cost < bestCost && minutes <= restMinutes) {
        order[i] = order[placed];
        order[placed] = stop;
        extend(placed + 1, stop, cost, minutes);
        order[placed] = order[i];
        order[i] = stop;
      }
    }
  }
}
