package lanemend.crewdays.routing;

/**
 * What is kept of a slot's day that waits or is uncertain, so that places in it are judged soon.
 */
final class TimedDay {
  private static final long MIX = 0x9E3779B97F4A7C15L;

  /** Minutes of each drive, from the depot and back to it. */
  double[] driven = new double[5];

  /** Waiting before each stop is reached, and last that of the whole day. */
  double[] waitedBefore = new double[5];

  /** Variances of the minutes at the stops, added up. */
  double separate;

  /** Squares of the drives, added up. */
  double drives;

  /** Stands for kind, stops and order: equal for equal days. */
  long content;

  /** Takes what pricing the day has just found. */
  void keep(DayProblem p, int kind, int[] seq, int size, DayPrice price) {
    grow(seq.length + 1);
    separate = price.separate;
    drives = price.drives;
    System.arraycopy(price.waitedBefore, 0, waitedBefore, 0, size);
    waitedBefore[size] = price.wait;
    int depot = p.depotPlace(kind);
    int from = depot;
    long code = mixed(kind);
    for (int i = 0; i <= size; i++) {
      int to = i < size ? seq[i] : depot;
      driven[i] = p.legs()[p.leg(from, to) + 1];
      code = mixed(code ^ to);
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
    System.arraycopy(other.waitedBefore, 0, waitedBefore, 0, size + 1);
    separate = other.separate;
    drives = other.drives;
    content = other.content;
  }

  private void grow(int length) {
    if (driven.length < length) {
      driven = new double[length];
      waitedBefore = new double[length];
    }
  }
}
