package lanemend.renewal.sections;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Kulldorff's scan (1997) along routes. Every window of contiguous cells, all lanes together, is
 * scored by how much likelier its repairs are under a rate of its own than under the county's; the
 * strongest of a route is held against the strongest of random routes. Routes are then held to the
 * false-discovery line, and further clusters of a flagged route to the same line (Benjamini and
 * Bogomolov 2014).
 */
public final class ClusterScan {
  private static final int MOST_PER_ROUTE = 8;

  private ClusterScan() {}

  /**
   * The scan's log likelihood ratio: {@code c ln(c / e) + (C - c) ln((C - c) / (C - e))} where
   * {@code c > e}, else 0; C is the total, to which expectations are scaled.
   */
  public static double logRatio(double c, double e, double total) {
    if (!(c > e)) {
      return 0;
    }
    double rest = total - c;
    return c * Math.log(c / e) + (rest > 0 ? rest * Math.log(rest / (total - e)) : 0);
  }

  /** Clusters of all routes, strongest first within a route; those that pass are flagged. */
  public static List<Cluster> scan(List<Strip> strips, ScanSettings settings) {
    double total = 0;
    double expected = 0;
    for (Strip s : strips) {
      total += Arrays.stream(s.repairs()).sum();
      expected += Arrays.stream(s.expected()).sum();
    }
    if (total == 0 || !(expected > 0)) {
      return List.of();
    }
    double all = total;
    double scale = total / expected;
    SplittableRandom seeds = new SplittableRandom(settings.seed());
    long[] seed = strips.stream().mapToLong(s -> seeds.nextLong()).toArray();
    List<List<Cluster>> byRoute =
        IntStream.range(0, strips.size())
            .parallel()
            .mapToObj(r -> new RouteScan(strips.get(r), scale, all, settings, seed[r]).clusters())
            .toList();
    return flag(byRoute, settings.falseDiscovery());
  }

  private static List<Cluster> flag(List<List<Cluster>> byRoute, double q) {
    // A route without any window above expectation has p = 1 and still counts as a question asked.
    double[] p = byRoute.stream().mapToDouble(c -> c.isEmpty() ? 1 : c.get(0).pValue()).toArray();
    double line = FalseDiscovery.line(p, q);
    List<Cluster> out = new ArrayList<>();
    for (List<Cluster> clusters : byRoute) {
      boolean route = !clusters.isEmpty() && clusters.get(0).pValue() <= line;
      for (Cluster c : clusters) {
        out.add(
            new Cluster(
                c.routeId(),
                c.rank(),
                c.fromAlongM(),
                c.toAlongM(),
                c.repairs(),
                c.expected(),
                c.score(),
                c.pValue(),
                route && c.pValue() <= line));
      }
    }
    return out;
  }

  /** One route's windows and its random likenesses. */
  private static final class RouteScan {
    private final Strip strip;
    private final double scale;
    private final double total;
    private final ScanSettings settings;
    private final SplittableRandom random;
    private final boolean frailty;
    private final int n;
    private final double[] sumExpected;
    private final double[] sumExtra;
    private final int[] sumRepairs;
    private final int[] shortest;
    private final int[] longest;
    private final boolean[] taken;
    private double[] none;
    private double[] ratio;
    private double[] shape;

    RouteScan(Strip strip, double scale, double total, ScanSettings settings, long seed) {
      this.strip = strip;
      this.scale = scale;
      this.total = total;
      this.settings = settings;
      this.random = new SplittableRandom(seed);
      frailty = settings.chance() == ScanSettings.Chance.FRAILTY;
      n = strip.cells();
      sumExpected = new double[n + 1];
      sumExtra = new double[n + 1];
      sumRepairs = new int[n + 1];
      shortest = new int[n];
      longest = new int[n];
      taken = new boolean[n];
      prepare();
    }

    private void prepare() {
      double[] edges = strip.edges();
      for (int j = 0; j < n; j++) {
        double extra = 0;
        for (int l = strip.laneStart()[j]; frailty && l < strip.laneStart()[j + 1]; l++) {
          double e = scale * strip.laneExpected()[l];
          extra += e * e / strip.laneFrailty()[l];
        }
        sumExpected[j + 1] = sumExpected[j] + scale * strip.expected()[j];
        sumExtra[j + 1] = sumExtra[j] + extra;
        int end = j;
        while (end < n && edges[end + 1] - edges[j] < settings.minLengthM() - 1) {
          end++;
        }
        shortest[j] = end + 1;
        while (end + 1 < n && edges[end + 2] - edges[j] <= settings.maxLengthM() + 1) {
          end++;
        }
        // Too near the end of the route for a shortest window, there is none.
        longest[j] = Math.min(n, end + 1);
      }
      lanes();
    }

    /** Chance of no repair and the ratio that carries it to one more, lane by lane. */
    private void lanes() {
      int lanes = strip.laneExpected().length;
      none = new double[lanes];
      ratio = new double[lanes];
      shape = new double[lanes];
      for (int l = 0; l < lanes; l++) {
        double e = scale * strip.laneExpected()[l];
        double k = frailty ? strip.laneFrailty()[l] : Double.POSITIVE_INFINITY;
        shape[l] = k;
        none[l] = Double.isInfinite(k) ? Math.exp(-e) : Math.exp(-k * Math.log1p(e / k));
        ratio[l] = Double.isInfinite(k) ? e : e / (k + e);
      }
    }

    List<Cluster> clusters() {
      load(strip.repairs());
      List<int[]> windows = new ArrayList<>();
      List<Double> scores = new ArrayList<>();
      int[] at = new int[2];
      double score = strongest(at, 0);
      while (score > 0 && windows.size() < MOST_PER_ROUTE) {
        windows.add(at.clone());
        scores.add(score);
        Arrays.fill(taken, at[0], at[1], true);
        score = strongest(at, 0);
      }
      Arrays.fill(taken, false);
      if (windows.isEmpty()) {
        return List.of();
      }
      double first = plainlyChance(scores.get(0));
      double[] maxima = Double.isNaN(first) ? maxima(scores.get(0)) : new double[0];
      load(strip.repairs());
      List<Cluster> out = new ArrayList<>();
      for (int k = 0; k < windows.size(); k++) {
        int[] w = windows.get(k);
        double s = scores.get(k);
        // A weaker window of a route that is plainly chance is not worth a number of its own.
        double p = Double.isNaN(first) ? pValue(maxima, s) : k == 0 ? first : 1;
        out.add(
            new Cluster(
                strip.routeId(),
                k + 1,
                strip.edges()[w[0]],
                strip.edges()[w[1]],
                sumRepairs[w[1]] - sumRepairs[w[0]],
                sumExpected[w[1]] - sumExpected[w[0]],
                s,
                p,
                false));
      }
      return out;
    }

    private double pValue(double[] maxima, double score) {
      long beaten = Arrays.stream(maxima).filter(m -> m >= score).count();
      // Stopped early: exactly the last draw was the last needed, so the share itself is unbiased.
      return beaten >= settings.enough() && maxima.length < settings.replicates()
          ? (double) beaten / maxima.length
          : (1.0 + beaten) / (maxima.length + 1.0);
    }

    /**
     * A quick look: when random routes beat the score so often that no line could flag it, its
     * p-value; else NaN. Each window's score is turned into the least count that reaches it, so
     * that a random route costs comparisons of whole numbers only. Routes that pass are drawn anew,
     * so the look does not sway the p-value that counts.
     */
    private double plainlyChance(double observed) {
      int looks =
          (int) Math.min(settings.replicates(), settings.enough() / settings.falseDiscovery());
      int[] reach = reach(observed);
      int[] counts = new int[n];
      int beaten = 0;
      for (int r = 1; r <= looks; r++) {
        draw(counts);
        load(counts);
        if (reaches(reach) && ++beaten == settings.enough()) {
          return (double) beaten / r;
        }
      }
      return Double.NaN;
    }

    private int[] reach(double observed) {
      int windows = 0;
      for (int i = 0; i < n; i++) {
        windows += Math.max(0, longest[i] - shortest[i] + 1);
      }
      int[] reach = new int[windows];
      int at = 0;
      for (int i = 0; i < n; i++) {
        for (int j = shortest[i]; j <= longest[i]; j++) {
          reach[at++] = least(i, j, observed);
        }
      }
      return reach;
    }

    private int least(int i, int j, double observed) {
      double e = sumExpected[j] - sumExpected[i];
      if (e <= 0) {
        return Integer.MAX_VALUE;
      }
      double wanted = observed * (1 + (sumExtra[j] - sumExtra[i]) / e);
      // No count below this reaches it, by the bound of strongest().
      int c = (int) Math.ceil(e + Math.sqrt(wanted / (0.5 / e + 1 / (total - e))) - 1e-9);
      while (c < total && logRatio(c, e, total) < wanted) {
        c++;
      }
      return c;
    }

    private boolean reaches(int[] reach) {
      int at = 0;
      for (int i = 0; i < n; i++) {
        int before = sumRepairs[i];
        for (int j = shortest[i]; j <= longest[i]; j++) {
          if (sumRepairs[j] - before >= reach[at++]) {
            return true;
          }
        }
      }
      return false;
    }

    private double[] maxima(double observed) {
      double[] maxima = new double[settings.replicates()];
      int[] counts = new int[n];
      int[] at = new int[2];
      int beaten = 0;
      for (int r = 0; r < maxima.length; r++) {
        draw(counts);
        load(counts);
        maxima[r] = strongest(at, 0);
        if (maxima[r] >= observed && ++beaten == settings.enough()) {
          return Arrays.copyOf(maxima, r + 1);
        }
      }
      return maxima;
    }

    private void draw(int[] counts) {
      for (int j = 0; j < n; j++) {
        int sum = 0;
        for (int l = strip.laneStart()[j]; l < strip.laneStart()[j + 1]; l++) {
          double u = random.nextDouble() - none[l];
          double chance = none[l];
          boolean infinite = Double.isInfinite(shape[l]);
          int k = 0;
          while (u >= 0 && chance > 1e-18) {
            chance *= ratio[l] * (infinite ? 1 : shape[l] + k) / (k + 1);
            u -= chance;
            k++;
          }
          sum += k;
        }
        counts[j] = sum;
      }
    }

    private void load(int[] counts) {
      for (int j = 0; j < n; j++) {
        sumRepairs[j + 1] = sumRepairs[j] + counts[j];
      }
    }

    /** The strongest window above {@code floor}, its place in {@code at}. */
    private double strongest(int[] at, double floor) {
      double best = floor;
      for (int i = 0; i < n; i++) {
        for (int j = i + 1; j <= longest[i] && !taken[j - 1]; j++) {
          double e = sumExpected[j] - sumExpected[i];
          double c = sumRepairs[j] - sumRepairs[i];
          if (j < shortest[i] || c <= e || e <= 0) {
            continue;
          }
          double spread = 1 + (sumExtra[j] - sumExtra[i]) / e;
          double over = c - e;
          // ln x <= x - 1 twice bounds the ratio without a logarithm.
          if (over * over * (0.5 / e + 1 / (total - e)) <= best * spread) {
            continue;
          }
          double score = logRatio(c, e, total) / spread;
          if (score > best) {
            best = score;
            at[0] = i;
            at[1] = j;
          }
        }
      }
      return best;
    }
  }
}
