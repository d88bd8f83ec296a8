package lanemend.crewdays.routing;

/**
 * What is kept of a slot's day that waits or is uncertain, so that places in it are judged soon: in
 * the problem's tables each of its stops and drives lies in another part of the memory.
 */
final class TimedDay {
  private static final long MIX = 0x9E3779B97F4A7C15L;

  /** Minutes of each drive, from the depot and back to it. */
  double[] driven = new double[5];

  /** Kilometres of each drive. */
  double[] drivenKm = new double[5];

  /** Waiting before each stop is reached, and last that of the whole day. */
  double[] waitedBefore = new double[5];

  /** Minutes at each stop, and their variances, 0 where minutes are certain. */
  double[] work = new double[5];

  double[] variance = new double[5];

  /** Cost of each stop besides its minutes, with that of its date. */
  double[] price = new double[5];

  /** How each stop takes its mix, null for one without. */
  ZoneSupply[] supply = new ZoneSupply[5];

  /** Variances of the minutes at the stops, added up. */
  double separate;

  /** Stands for kind, stops and order: equal for equal days. */
  long content;

  /** Takes what pricing the day has just found. */
  void keep(
      DayProblem p, StopKinds byStop, int kind, int date, int[] seq, int size, DayPrice found) {
    grow(seq.length + 1);
    separate = found.separate;
    System.arraycopy(found.waitedBefore, 0, waitedBefore, 0, size);
    waitedBefore[size] = found.wait;
    int depot = p.depotPlace(kind);
    int from = depot;
    long code = mixed(kind);
    for (int i = 0; i <= size; i++) {
      int to = i < size ? seq[i] : depot;
      int leg = p.leg(from, to);
      drivenKm[i] = p.legs()[leg];
      driven[i] = p.legs()[leg + 1];
      code = mixed(code ^ to);
      if (i < size) {
        work[i] = byStop.service(kind, to);
        variance[i] = byStop.variance(kind, to);
        supply[i] = byStop.supply(kind, to);
        price[i] = p.stopCost()[kind][to] + p.late()[date][to];
      }
      from = to;
    }
    content = code;
  }

  /** Stands for the day with one stop more, in whatever place. */
  long with(int stop) {
    return mixed(content + stop * MIX) | 1;
  }

  /** Finalizer of splitmix64 (Steele, Lea and Flood 2014; constants from memory). */
  private static long mixed(long code) {
    long z = (code + MIX);
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  void take(TimedDay other, int size) {
    grow(other.driven.length);
    System.arraycopy(other.driven, 0, driven, 0, size + 1);
    System.arraycopy(other.drivenKm, 0, drivenKm, 0, size + 1);
    System.arraycopy(other.waitedBefore, 0, waitedBefore, 0, size + 1);
    System.arraycopy(other.work, 0, work, 0, size);
    System.arraycopy(other.variance, 0, variance, 0, size);
    System.arraycopy(other.price, 0, price, 0, size);
    System.arraycopy(other.supply, 0, supply, 0, size);
    separate = other.separate;
    content = other.content;
  }

  private void grow(int length) {
    if (driven.length < length) {
      driven = new double[length];
      drivenKm = new double[length];
      waitedBefore = new double[length];
      work = new double[length];
      variance = new double[length];
      price = new double[length];
      supply = new ZoneSupply[length];
    }
  }
}
