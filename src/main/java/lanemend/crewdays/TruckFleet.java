package lanemend.crewdays;

import java.util.Optional;

/**
 * Trucks between a plant and one work zone: how many loads, how long the crew waits for them, how
 * long a load stands. The grader (or the raking crew) is the one server of a finite-source queue
 * and the trucks are its sources, away for {@code load + haul + spot and dump + return} and held
 * while their load is laid.
 */
public final class TruckFleet {
  /** A zone whose mix would need more loads than this is refused rather than searched on. */
  private static final int MOST_LOADS = 400;

  private static final double EPS = 1e-9;

  private TruckFleet() {}

  /**
   * What a zone lays.
   *
   * @param tonnes mix
   * @param layMinutes minutes of laying itself, trucks never waited for
   * @param spanMinutes from the first mix laid to the last, with the work between patches
   */
  public record Laying(double tonnes, double layMinutes, double spanMinutes) {}

  /**
   * What a plant and the road to the zone give; minutes at truck speed.
   *
   * @param loaderMinutes mean wait for a turn at the plant's loader
   */
  public record Haulage(
      double haulMinutes,
      double returnMinutes,
      double loadMinutes,
      double dumpMinutes,
      double windowMinutes,
      double payloadTonnes,
      double loaderMinutes) {

    /** A plant where trucks never wait for each other. */
    public Haulage(
        double haulMinutes,
        double returnMinutes,
        double loadMinutes,
        double dumpMinutes,
        double windowMinutes,
        double payloadTonnes) {
      this(haulMinutes, returnMinutes, loadMinutes, dumpMinutes, windowMinutes, payloadTonnes, 0);
    }

    /** Truck cycle without waiting at the grader. */
    public double cycleMinutes() {
      return loaderMinutes + loadMinutes + haulMinutes + dumpMinutes + returnMinutes;
    }
  }

  /**
   * One zone with a number of trucks.
   *
   * @param loads truck loads, equal in size
   * @param intervalMinutes minutes the crew takes to lay one load
   * @param waitMinutes minutes the crew waits for trucks over the whole zone
   * @param queueMinutes mean minutes a truck waits to be unloaded
   */
  public record Supply(
      int trucks, int loads, double intervalMinutes, double waitMinutes, double queueMinutes) {}

  /**
   * Works out a zone's supply. The first loads, one for each truck, come loaded with the crew; each
   * load after those costs the crew the steady wait of the queue, {@code 1/X - 1/m}. Loads are made
   * smaller, and so more, until one is laid inside the mix window.
   *
   * @return empty when the mix window cannot be kept with any size of load
   */
  public static Optional<Supply> supply(int trucks, Laying laying, Haulage haulage) {
    double road = haulage.haulMinutes() + haulage.dumpMinutes();
    int fewest = loadsByPayload(laying.tonnes(), haulage.payloadTonnes());
    for (int loads = fewest; loads <= MOST_LOADS && road < haulage.windowMinutes(); loads++) {
      double interval = laying.layMinutes() / loads;
      if (road + leastAge(trucks, loads, interval, laying, haulage)
          > haulage.windowMinutes() + 1e-6) {
        continue;
      }
      double wait = 0;
      double queued = 0;
      if (loads > trucks) {
        MachineRepairQueue queue = queue(trucks, interval, haulage);
        wait = (loads - trucks) * (1 / queue.throughputPerMinute() - interval);
        queued = queue.waitMinutes();
      }
      double laid = road + queued + (laying.spanMinutes() + wait) / loads;
      if (laid <= haulage.windowMinutes() + EPS) {
        return Optional.of(new Supply(trucks, loads, interval, wait, queued));
      }
    }
    return Optional.empty();
  }

  /**
   * Least minutes over which one load is laid: no number of trucks brings more than {@code
   * min(1/interval, trucks/(cycle + interval))} loads a minute. It spares most queues of places too
   * far from the plant.
   */
  private static double leastAge(
      int trucks, int loads, double interval, Laying laying, Haulage haulage) {
    double round = (haulage.cycleMinutes() + interval) / trucks;
    double wait = Math.max(0, loads - trucks) * Math.max(0, round - interval);
    return (laying.spanMinutes() + wait) / loads;
  }

  /** Fewest loads by what one truck carries. */
  public static int loadsByPayload(double tonnes, double payloadTonnes) {
    return Math.max(1, (int) Math.ceil(tonnes / payloadTonnes - EPS));
  }

  /** The queue of trucks at the grader. */
  public static MachineRepairQueue queue(int trucks, double intervalMinutes, Haulage haulage) {
    return new MachineRepairQueue(trucks, 1, 1 / haulage.cycleMinutes(), 1 / intervalMinutes);
  }

  /**
   * Trucks that keep the grader fed when nothing varies: {@code 1 + cycle / interval}, rounded up,
   * where the cycle has no waiting and the one more stands at the grader (FM 5-434 paragraph 10-10,
   * as quoted by another work). It is the least number whose deterministic rate {@code min(1/s,
   * k/(s + cycle))} reaches the grader's.
   */
  public static int trucksByRule(double intervalMinutes, Haulage haulage) {
    return (int) Math.ceil(1 + haulage.cycleMinutes() / intervalMinutes - EPS);
  }

  /**
   * The cheapest number of trucks for one zone on its own: crew and trucks paid while the zone
   * lasts.
   *
   * @param most trucks the crew has
   * @param otherMinutes minutes of the zone besides waiting for trucks
   * @param crewPerHour cost of the crew, and of road-user delay, in an hour
   * @return empty when no number of trucks keeps the mix window
   */
  public static Optional<Supply> cheapest(
      int most,
      Laying laying,
      Haulage haulage,
      double otherMinutes,
      double crewPerHour,
      double truckPerHour) {
    Optional<Supply> best = Optional.empty();
    double cost = Double.POSITIVE_INFINITY;
    for (int k = 1; k <= most; k++) {
      Optional<Supply> one = supply(k, laying, haulage);
      if (one.isPresent()) {
        double c = (crewPerHour + k * truckPerHour) * (otherMinutes + one.get().waitMinutes()) / 60;
        if (c < cost - EPS) {
          cost = c;
          best = one;
        }
      }
    }
    return best;
  }
}
