package lanemend.crewdays.routing;

/**
 * Runs one day stop by stop and says when a crew must wait for mix. The rule it follows:
 *
 * <ul>
 *   <li>The trucks reach the plant together in the morning and load one after another.
 *   <li>A stop's loads fall due evenly over its span. A truck stays with its load until the next is
 *       due, drives back to the plant, loads and comes again.
 *   <li>Work at a stop starts on arrival, or later if the trucks that are free soonest could not
 *       bring the first loads in time or the plant is not open early enough.
 *   <li>If the last load fetched has room for all mix of the next stop, and that mix can be laid
 *       before the load is older than the mix window, it is carried along and no truck goes for it.
 *   <li>The last load of each stop must leave the plant before it closes.
 * </ul>
 *
 * Nothing is allocated after construction: the search calls this in its inner loop.
 */
public final class DayClock {
  private static final double EPS = 1e-9;

  private double[] free = new double[8];
  private MixDay mix;
  private double now;
  private double waited;
  private double spareTonnes;
  private double carriedLeft;
  private double carrierFree;
  private double arrive;
  private double wait;
  private double firstLoadLeft;

  /** Starts a day at its depot at minute 0; {@code mix} is null for a day without mix. */
  public void begin(MixDay mix) {
    this.mix = mix;
    now = 0;
    waited = 0;
    spareTonnes = -1;
    firstLoadLeft = Double.NaN;
    if (mix != null) {
      if (free.length < mix.trucks()) {
        free = new double[mix.trucks()];
      }
      // In the morning the day's trucks come together and load one after another.
      double first = Math.max(mix.firstTripMinutes(), mix.opens());
      for (int j = 0; j < mix.trucks(); j++) {
        free[j] = first + j * mix.loadMinutes();
      }
    }
  }

  /** Becomes as another clock of the same kind of day stands. */
  void copy(DayClock other) {
    mix = other.mix;
    now = other.now;
    waited = other.waited;
    spareTonnes = other.spareTonnes;
    carriedLeft = other.carriedLeft;
    carrierFree = other.carrierFree;
    if (mix != null) {
      if (free.length < mix.trucks()) {
        free = new double[mix.trucks()];
      }
      System.arraycopy(other.free, 0, free, 0, mix.trucks());
    }
  }

  /**
   * Drives to a stop and works there.
   *
   * @param supply the stop's mix, or null when it takes none; never given on a day without mix
   * @return false when the plant closes before the stop's last load can leave it; times are kept
   *     all the same
   */
  public boolean visit(double driveMinutes, double serviceMinutes, ZoneSupply supply) {
    arrive = now + driveMinutes;
    wait = 0;
    firstLoadLeft = Double.NaN;
    boolean open = true;
    if (supply != null) {
      double lay = arrive + supply.readyMinutes();
      if (carries(supply, lay)) {
        carry(supply, lay);
      } else {
        open = fetch(supply, lay);
      }
    }
    waited += wait;
    now = arrive + wait + serviceMinutes;
    return open;
  }

  private boolean carries(ZoneSupply supply, double lay) {
    return spareTonnes + EPS >= supply.tonnes()
        && lay + supply.spanMinutes() <= carriedLeft + mix.windowMinutes() + EPS;
  }

  private void carry(ZoneSupply supply, double lay) {
    spareTonnes -= supply.tonnes();
    firstLoadLeft = carriedLeft;
    int i = 0;
    while (free[i] != carrierFree) {
      i++;
    }
    carrierFree = lay + supply.spanMinutes() + supply.backMinutes();
    free[i] = carrierFree;
    sort();
  }

  private boolean fetch(ZoneSupply supply, double ready) {
    int first = Math.min(supply.loads(), mix.trucks());
    double gap = supply.gapMinutes();
    double trip = mix.loadMinutes() + supply.outMinutes();
    double lay = Math.max(ready, mix.opens() + trip);
    for (int j = 0; j < first; j++) {
      lay = Math.max(lay, free[j] + trip - j * gap);
    }
    wait = lay - ready;
    firstLoadLeft = lay - supply.outMinutes();
    carriedLeft = firstLoadLeft + (supply.loads() - 1) * gap;
    spareTonnes = mix.payloadTonnes() - supply.tonnes() / supply.loads();
    for (int j = 0; j < first; j++) {
      int load = supply.loads() - first + j;
      free[j] = lay + (load + 1) * gap + supply.backMinutes();
    }
    carrierFree = free[first - 1];
    sort();
    return carriedLeft <= mix.closes() + EPS;
  }

  private void sort() {
    for (int i = 1; i < mix.trucks(); i++) {
      double v = free[i];
      int j = i - 1;
      while (j >= 0 && free[j] > v) {
        free[j + 1] = free[j];
        j--;
      }
      free[j + 1] = v;
    }
  }

  /** Drives home and gives the minute of arrival there. */
  public double end(double driveMinutes) {
    now += driveMinutes;
    return now;
  }

  /** Arrival at the latest stop. */
  public double arrive() {
    return arrive;
  }

  /** Minutes the crew waited at the latest stop before work could start. */
  public double waitMinutes() {
    return wait;
  }

  /** End of work at the latest stop, or arrival home after {@link #end}. */
  public double now() {
    return now;
  }

  /** All waiting of the day so far. */
  public double waited() {
    return waited;
  }

  /** When the latest stop's first load left the plant; NaN when it takes no mix. */
  public double firstLoadLeft() {
    return firstLoadLeft;
  }
}
