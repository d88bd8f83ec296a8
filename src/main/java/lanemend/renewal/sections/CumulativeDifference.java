package lanemend.renewal.sections;

import java.util.ArrayList;
import java.util.List;

/**
 * Units of a route by the cumulative difference approach (AASHTO 1993, appendix J): where the
 * running total of repairs, less what the route's mean rate would give, turns from rising to
 * falling or back, one unit ends and the next begins.
 */
public final class CumulativeDifference {
  private CumulativeDifference() {}

  /**
   * Z after each cell: running repairs less the mean rate times running exposure. With equal
   * exposure everywhere this is appendix J's Z over distance; it ends at 0.
   */
  public static double[] differences(double[] response, double[] exposure) {
    double total = 0;
    double length = 0;
    for (int i = 0; i < response.length; i++) {
      total += response[i];
      length += exposure[i];
    }
    double mean = length == 0 ? 0 : total / length;
    double[] z = new double[response.length];
    double at = 0;
    for (int i = 0; i < z.length; i++) {
      at += response[i] - mean * exposure[i];
      z[i] = at;
    }
    return z;
  }

  /** Ends of the units: the cells after which the slope of Z changes sign; flat keeps its sign. */
  public static int[] ends(double[] response, double[] exposure) {
    double[] z = differences(response, exposure);
    List<Integer> ends = new ArrayList<>();
    double grain = 1e-9 * (1 + java.util.Arrays.stream(response).sum());
    int sign = 0;
    for (int i = 0; i < z.length; i++) {
      double slope = z[i] - (i == 0 ? 0 : z[i - 1]);
      int now = Math.abs(slope) <= grain ? 0 : slope > 0 ? 1 : -1;
      if (now != 0 && sign != 0 && now != sign) {
        ends.add(i);
      }
      sign = now == 0 ? sign : now;
    }
    ends.add(z.length);
    return ends.stream().mapToInt(Integer::intValue).toArray();
  }
}
