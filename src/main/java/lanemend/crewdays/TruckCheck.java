package lanemend.crewdays;

import java.util.ArrayList;
import java.util.List;
import java.util.PriorityQueue;
import java.util.function.Consumer;

/**
 * Follows every truck of a day from load to load; part of {@link PlanChecker}. The waits of the
 * queue come from mean-value analysis, stop by stop, not from the closed form the planner uses.
 */
final class TruckCheck {
  private static final double TOLERANCE_MIN = 0.06;

  private final Plant plant;
  private final double dump;
  private final double payload;
  private final int trucks;
  private final double opens;
  private final double closes;
  private final int others;
  private final double window;
  private final PriorityQueue<Double> free = new PriorityQueue<>();

  private ZoneCheck zone;
  private double out;
  private double back;
  private int loads;
  private double wait;
  private double queued;

  private double lastLeft = Double.NEGATIVE_INFINITY;
  private double lastRoom;
  private double lastFree;

  /**
   * A day's trucks.
   *
   * @param others trucks of other crews that may load at the plant on the day
   * @param window minutes from loading until the mix must be laid
   */
  TruckCheck(
      PlanSettings plan,
      Plant plant,
      int trucks,
      int others,
      double window,
      double firstTrip,
      double opens,
      double closes) {
    this.others = others;
    this.window = window;
    this.plant = plant;
    this.trucks = trucks;
    this.opens = opens;
    this.closes = closes;
    dump = plan.dumpMinutes();
    payload = plan.truckPayloadTonnes();
    double turn = firstTurn(firstTrip);
    for (int i = 0; i < trucks; i++) {
      free.add(turn);
      turn += plant.loadMinutes();
    }
  }

  /** Settles loads and waits of the next zone; hauls at truck speed. */
  void zone(ZoneCheck zone, double haulOut, double haulBack) {
    this.zone = zone;
    out = haulOut;
    double full = zone.laying / Math.ceil(zone.tonnes / payload - 1e-9);
    back = haulBack + turn(haulOut + dump + full + haulBack);
    loads = (int) Math.ceil(zone.tonnes / payload - 1e-9);
    settle();
    while (age() > window + 1e-9 && loads < 1000) {
      loads++;
      settle();
    }
  }

  /** Wait for a turn at the loader by mean-value analysis, one truck more at a time. */
  private double turn(double away) {
    double response = plant.loadMinutes();
    for (int n = 2; n <= trucks + others; n++) {
      double there = (n - 1) / (response + away) * response;
      response = plant.loadMinutes() * (1 + there);
    }
    return response - plant.loadMinutes();
  }

  private void settle() {
    wait = 0;
    queued = 0;
    if (loads > trucks) {
      double serve = zone.laying / loads;
      double away = plant.loadMinutes() + out + dump + back;
      double queue = 0;
      double response = serve;
      double rate = 0;
      for (int n = 1; n <= trucks; n++) {
        response = serve * (1 + queue);
        rate = n / (response + away);
        queue = rate * response;
      }
      wait = (loads - trucks) * (1 / rate - serve);
      queued = response - serve;
    }
  }

  private double age() {
    return out + dump + queued + (zone.mixSpan + wait) / loads;
  }

  /** Minutes the crew waits for trucks during the zone. */
  double waitMinutes() {
    return wait;
  }

  /**
   * Checks the zone's truck runs.
   *
   * @param start minute at which work at the zone starts
   * @param firstLeft minute at which the plan says the first load leaves the plant
   */
  void check(double start, double firstLeft, Consumer<String> say) {
    double lay = start + zone.untilMix;
    double gap = (zone.mixSpan + wait) / loads;
    double own = lay - dump - out;
    if (age() > window + TOLERANCE_MIN) {
      say.accept("lays mix " + age() + " minutes old, the window is " + window);
    }
    if (Math.abs(firstLeft - own) <= TOLERANCE_MIN) {
      fetched(lay, gap, own, say);
    } else if (Math.abs(firstLeft - lastLeft) <= TOLERANCE_MIN) {
      carried(lay, say);
    } else {
      say.accept("has no truck that brings the mix laid at minute " + lay);
      fetched(lay, gap, own, say);
    }
  }

  private void fetched(double lay, double gap, double firstLeft, Consumer<String> say) {
    if (!inHours(firstLeft - plant.loadMinutes(), firstLeft)) {
      say.accept(plant.name() + " is not open when the load of minute " + firstLeft + " is taken");
    }
    int first = Math.min(loads, trucks);
    List<Double> used = new ArrayList<>();
    for (int j = 0; j < first; j++) {
      double there = free.remove() + plant.loadMinutes() + out + dump;
      if (there > lay + j * gap + TOLERANCE_MIN) {
        say.accept("needs a truck at minute " + (lay + j * gap) + " that comes at " + there);
      }
      used.add(lay + (loads - first + j + 1) * gap + back);
    }
    free.addAll(used);
    lastLeft = firstLeft + (loads - 1) * gap;
    lastRoom = payload - zone.tonnes / loads;
    lastFree = used.get(first - 1);
    if (!inHours(lastLeft, lastLeft)) {
      say.accept(plant.name() + " is closed when the load of minute " + lastLeft + " is taken");
    }
  }

  private void carried(double lay, Consumer<String> say) {
    lastRoom -= zone.tonnes;
    if (lastRoom < -1e-6) {
      say.accept("carries more mix on than a truck holds");
    }
    double laid = lay + zone.mixSpan + wait;
    if (laid > lastLeft + window + TOLERANCE_MIN) {
      say.accept("lays mix " + (laid - lastLeft) + " minutes old that it carried on");
    }
    free.remove(lastFree);
    lastFree = laid + back;
    free.add(lastFree);
  }

  /** When a truck that comes this early may start to load. */
  private double firstTurn(double there) {
    if (plant.isStockpile()) {
      return there;
    }
    double length = closes > opens ? closes - opens : closes - opens + 1440;
    double start = opens - 1440;
    while (start + length <= there) {
      start += 1440;
    }
    return Math.max(there, start);
  }

  /** True when the plant is open all the while, on this day or one beside it. */
  private boolean inHours(double from, double to) {
    if (plant.isStockpile()) {
      return true;
    }
    double length = closes > opens ? closes - opens : closes - opens + 1440;
    for (int d = -1; d <= 1; d++) {
      double start = opens + d * 1440;
      if (from >= start - TOLERANCE_MIN && to <= start + length + TOLERANCE_MIN) {
        return true;
      }
    }
    return false;
  }
}
