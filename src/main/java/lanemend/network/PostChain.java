package lanemend.network;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The most posts that can stand together: along grows and the numbers, read from each post's ahead
 * to the next one's back, all rise or all fall. Among equals the posts nearest the road. Work grows
 * with the square of the posts of one route.
 */
record PostChain(List<Option> options) {
  private static final double APART_M = 0.01;

  /**
   * A place where a post may stand.
   *
   * @param post number of the post; one with several options is used at most once
   * @param distanceM from the post to the road
   */
  record Option(int post, double alongM, double backMiles, double aheadMiles, double distanceM) {
    CalibrationPost calibrationPost() {
      return new CalibrationPost(alongM, backMiles, aheadMiles);
    }
  }

  static PostChain longest(List<Option> options) {
    List<Option> sorted = new ArrayList<>(options);
    sorted.sort(
        Comparator.comparingDouble(Option::alongM)
            .thenComparingDouble(Option::distanceM)
            .thenComparingInt(Option::post));
    PostChain rising = longest(sorted, 1);
    PostChain falling = longest(sorted, -1);
    return falling.options.size() > rising.options.size() ? falling : rising;
  }

  private static PostChain longest(List<Option> sorted, int sign) {
    int n = sorted.size();
    int[] count = new int[n];
    double[] distance = new double[n];
    int[] before = new int[n];
    int last = -1;
    for (int i = 0; i < n; i++) {
      Option here = sorted.get(i);
      count[i] = 1;
      distance[i] = here.distanceM;
      before[i] = -1;
      for (int k = 0; k < i; k++) {
        Option earlier = sorted.get(k);
        boolean follows =
            here.alongM - earlier.alongM > APART_M
                && sign * (here.backMiles - earlier.aheadMiles) > 1e-9;
        double total = distance[k] + here.distanceM;
        if (follows
            && (count[k] + 1 > count[i] || (count[k] + 1 == count[i] && total < distance[i]))
            && !used(here.post, k, before, sorted)) {
          count[i] = count[k] + 1;
          distance[i] = total;
          before[i] = k;
        }
      }
      if (last < 0
          || count[i] > count[last]
          || (count[i] == count[last] && distance[i] < distance[last])) {
        last = i;
      }
    }
    List<Option> chain = new ArrayList<>();
    for (int i = last; i >= 0; i = before[i]) {
      chain.add(0, sorted.get(i));
    }
    return new PostChain(List.copyOf(chain));
  }

  /** An equation that jumps back could otherwise be used at two of its places. */
  private static boolean used(int post, int from, int[] before, List<Option> sorted) {
    for (int i = from; i >= 0; i = before[i]) {
      if (sorted.get(i).post == post) {
        return true;
      }
    }
    return false;
  }
}
