package lanemend.network;

import java.util.Arrays;

/**
 * What trucks may do along one line, in stretches between the places where an answer changes.
 *
 * @param fromM start of each stretch, ascending; the first is before the line's start
 */
record TravelTable(double[] fromM, double[] speedKmh, boolean[] oneWay, int[] level) {

  static TravelTable of(Route route, TravelRules rules) {
    double[] breaks =
        Arrays.stream(rules.breaks(route))
            .filter(b -> b > 0 && b < route.lengthM())
            .sorted()
            .distinct()
            .toArray();
    int n = breaks.length + 1;
    TravelTable table = new TravelTable(new double[n], new double[n], new boolean[n], new int[n]);
    for (int i = 0; i < n; i++) {
      double from = i == 0 ? 0 : breaks[i - 1];
      double to = i == n - 1 ? route.lengthM() : breaks[i];
      double middle = (from + to) / 2;
      table.fromM[i] = i == 0 ? Double.NEGATIVE_INFINITY : from;
      table.speedKmh[i] = checked(rules.speedKmh(route, middle), route.id());
      table.oneWay[i] = rules.oneWay(route, middle);
      table.level[i] = rules.level(route, middle);
    }
    return table;
  }

  static TravelTable of(Connector connector, TravelRules rules) {
    return new TravelTable(
        new double[] {Double.NEGATIVE_INFINITY},
        new double[] {checked(rules.speedKmh(connector), connector.id())},
        new boolean[] {rules.oneWay(connector)},
        new int[] {rules.level(connector)});
  }

  private static double checked(double speedKmh, String id) {
    if (!(speedKmh > 0 && Double.isFinite(speedKmh))) {
      throw new IllegalArgumentException(
          "the speed on %s is %s km/h, expected more than 0".formatted(id, speedKmh));
    }
    return speedKmh;
  }

  private int stretchAt(double along) {
    int at = Arrays.binarySearch(fromM, along);
    return at >= 0 ? at : -at - 2;
  }

  /** The level just before a place. */
  int levelBefore(double along) {
    return level[stretchAt(Math.nextDown(along))];
  }

  /** The level from a place on. */
  int levelAfter(double along) {
    return level[stretchAt(along)];
  }

  /** Minutes at legal speed between two places. */
  double minutes(double fromAlong, double toAlong) {
    double minutes = 0;
    for (int i = stretchAt(fromAlong); i < fromM.length && fromM[i] < toAlong; i++) {
      double from = Math.max(fromAlong, fromM[i]);
      double to = i + 1 < fromM.length ? Math.min(toAlong, fromM[i + 1]) : toAlong;
      minutes += (to - from) / 1000 / speedKmh[i] * 60;
    }
    return minutes;
  }

  /** True where any stretch between two places is one-way. */
  boolean oneWayBetween(double fromAlong, double toAlong) {
    for (int i = stretchAt(fromAlong); i < fromM.length && fromM[i] < toAlong; i++) {
      if (oneWay[i]) {
        return true;
      }
    }
    return false;
  }
}
