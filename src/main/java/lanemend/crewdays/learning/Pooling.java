package lanemend.crewdays.learning;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.special.Erf;

/**
 * Means of crews and treatments pulled towards each other as far as their records leave it open.
 *
 * <p>The mean of crew c at treatment t is mu + t's own + c's own + what is particular to the two,
 * each normal around 0 with a standard deviation of its own; a cell's observed mean is normal
 * around that with its variance. Given the three deviations everything is linear (Lindley and Smith
 * 1972, "Bayes estimates for the linear model"); they are not fixed at one estimate, which would
 * make intervals too narrow where crews are few, but summed over: half-Cauchy priors as Gelman
 * (2006, "Prior distributions for variance parameters in hierarchical models") advises for few
 * groups, on a grid even in their logarithms that is laid a second time where the weight is.
 */
final class Pooling {
  /** Spread of a single log ratio where records do not say. */
  static final double USUAL_NOISE = 0.25;

  /** No spread is believed to be less: hours are written to a tenth. */
  static final double LEAST_NOISE = 0.02;

  /** Log ratios of an agency's plans at large: out by more than e is rare. */
  private static final double MEAN_SD = 0.5;

  /** Scale of the half-Cauchy priors: crews, or treatments, that differ by a fifth are usual. */
  private static final double SCALE = 0.2;

  private static final double LEAST_SD = 0.004;
  private static final double MOST_SD = 2.5;
  private static final int COARSE = 8;
  private static final int FINE = 9;
  private static final double NEGLIGIBLE = 1e-4;

  /**
   * What was observed of a crew at a treatment.
   *
   * @param variance of {@code mean}
   */
  record Cell(int treatment, int crew, double mean, double variance) {}

  /** A term of what is asked for: a weight times the true mean of a crew at a treatment. */
  record Term(int treatment, int crew, double weight) {}

  /** Three standard deviations: of treatments, of crews, of what is particular to the two. */
  private record Sds(double treatment, double crew, double both) {}

  private record Node(Sds sds, double logWeight) {}

  private final List<Cell> cells;
  private final double[] observed;
  private final List<Node> nodes;

  /** Looks at cells, of which there may be none. */
  Pooling(List<Cell> cells) {
    this.cells = List.copyOf(cells);
    observed = cells.stream().mapToDouble(Cell::mean).toArray();
    double[][] whole = {{LEAST_SD, MOST_SD}, {LEAST_SD, MOST_SD}, {LEAST_SD, MOST_SD}};
    nodes = heavy(grid(where(heavy(grid(whole, COARSE))), FINE));
  }

  /** Every combination of {@code n} values of each deviation, even in their logarithms. */
  private List<Node> grid(double[][] range, int n) {
    List<Node> all = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        for (int k = 0; k < n; k++) {
          Sds sds = new Sds(at(range[0], i, n), at(range[1], j, n), at(range[2], k, n));
          all.add(new Node(sds, logLikelihood(sds) + prior(sds)));
        }
      }
    }
    return all;
  }

  private static double at(double[] range, int i, int n) {
    return range[0] * Math.pow(range[1] / range[0], i / (n - 1.0));
  }

  /** Log density of the deviations' logarithms. */
  private static double prior(Sds s) {
    return halfCauchy(s.treatment()) + halfCauchy(s.crew()) + halfCauchy(s.both());
  }

  private static double halfCauchy(double sd) {
    return Math.log(sd) - Math.log1p(sd * sd / (SCALE * SCALE));
  }

  private static List<Node> heavy(List<Node> all) {
    double most = all.stream().mapToDouble(Node::logWeight).max().orElseThrow();
    return all.stream()
        .filter(n -> n.logWeight() > most + Math.log(NEGLIGIBLE))
        .map(n -> new Node(n.sds(), n.logWeight() - most))
        .toList();
  }

  /** The box that holds the heavy nodes, one step wider than they reach. */
  private static double[][] where(List<Node> heavy) {
    double step = Math.pow(MOST_SD / LEAST_SD, 1.0 / (COARSE - 1));
    double[][] box = new double[3][];
    for (int d = 0; d < 3; d++) {
      int which = d;
      double low = heavy.stream().mapToDouble(n -> sd(n.sds(), which)).min().orElseThrow();
      double high = heavy.stream().mapToDouble(n -> sd(n.sds(), which)).max().orElseThrow();
      box[d] = new double[] {Math.max(LEAST_SD, low / step), Math.min(MOST_SD, high * step)};
    }
    return box;
  }

  private static double sd(Sds s, int which) {
    return which == 0 ? s.treatment() : which == 1 ? s.crew() : s.both();
  }

  private static double covariance(Sds s, int t1, int c1, int t2, int c2) {
    boolean treatment = t1 == t2;
    boolean crew = c1 == c2;
    return MEAN_SD * MEAN_SD
        + (treatment ? s.treatment() * s.treatment() : 0)
        + (crew ? s.crew() * s.crew() : 0)
        + (treatment && crew ? s.both() * s.both() : 0);
  }

  private Root root(Sds s) {
    int n = cells.size();
    double[][] m = new double[n][n];
    for (int i = 0; i < n; i++) {
      Cell a = cells.get(i);
      for (int j = 0; j <= i; j++) {
        Cell b = cells.get(j);
        m[i][j] = covariance(s, a.treatment(), a.crew(), b.treatment(), b.crew());
      }
      m[i][i] += a.variance();
    }
    return new Root(m);
  }

  private double logLikelihood(Sds s) {
    Root root = root(s);
    double[] white = root.whiten(observed);
    return -root.logDeterminant() - Root.product(white, white) / 2;
  }

  /**
   * What is believed of sums of true means, one {@link Belief} each.
   *
   * @param asked the terms of each sum; crews and treatments without a cell may be among them
   */
  List<Belief> of(List<List<Term>> asked) {
    int n = nodes.size();
    double[] weight = new double[n];
    double[][] mean = new double[asked.size()][n];
    double[][] variance = new double[asked.size()][n];
    for (int k = 0; k < n; k++) {
      Node node = nodes.get(k);
      weight[k] = Math.exp(node.logWeight());
      Root root = root(node.sds());
      double[] white = root.whiten(observed);
      for (int a = 0; a < asked.size(); a++) {
        double[] with = root.whiten(with(node.sds(), asked.get(a)));
        mean[a][k] = Root.product(with, white);
        variance[a][k] = variance(node.sds(), asked.get(a)) - Root.product(with, with);
      }
    }
    List<Belief> beliefs = new ArrayList<>();
    for (int a = 0; a < asked.size(); a++) {
      beliefs.add(new Belief(weight, mean[a], variance[a]));
    }
    return beliefs;
  }

  private static double variance(Sds s, List<Term> sum) {
    double v = 0;
    for (Term a : sum) {
      for (Term b : sum) {
        v +=
            a.weight()
                * b.weight()
                * covariance(s, a.treatment(), a.crew(), b.treatment(), b.crew());
      }
    }
    return v;
  }

  private double[] with(Sds s, List<Term> sum) {
    double[] v = new double[cells.size()];
    for (int i = 0; i < v.length; i++) {
      Cell cell = cells.get(i);
      for (Term t : sum) {
        v[i] += t.weight() * covariance(s, t.treatment(), t.crew(), cell.treatment(), cell.crew());
      }
    }
    return v;
  }

  /** A mixture of normals. */
  static final class Belief {
    private final double[] weight;
    private final double[] mean;
    private final double[] sd;

    Belief(double[] weight, double[] mean, double[] variance) {
      double sum = 0;
      for (double w : weight) {
        sum += w;
      }
      this.weight = new double[weight.length];
      this.sd = new double[weight.length];
      for (int k = 0; k < weight.length; k++) {
        this.weight[k] = weight[k] / sum;
        // A difference of nearly equal numbers may come out below 0 by rounding.
        this.sd[k] = Math.sqrt(Math.max(variance[k], 1e-12));
      }
      this.mean = mean;
    }

    double mean() {
      double m = 0;
      for (int k = 0; k < weight.length; k++) {
        m += weight[k] * mean[k];
      }
      return m;
    }

    /** The same moved by {@code by}, with {@code more} variance that is apart from it. */
    Belief plus(double by, double more) {
      double[] moved = new double[mean.length];
      double[] wider = new double[mean.length];
      for (int k = 0; k < moved.length; k++) {
        moved[k] = mean[k] + by;
        wider[k] = sd[k] * sd[k] + more;
      }
      return new Belief(weight, moved, wider);
    }

    /** The value below which it lies with this probability. */
    double quantile(double probability) {
      double low = Double.POSITIVE_INFINITY;
      double high = Double.NEGATIVE_INFINITY;
      for (int k = 0; k < mean.length; k++) {
        low = Math.min(low, mean[k] - 4 * sd[k]);
        high = Math.max(high, mean[k] + 4 * sd[k]);
      }
      while (high - low > 1e-5) {
        double middle = (low + high) / 2;
        if (below(middle) < probability) {
          low = middle;
        } else {
          high = middle;
        }
      }
      return (low + high) / 2;
    }

    private double below(double x) {
      double p = 0;
      for (int k = 0; k < mean.length; k++) {
        p += weight[k] * Erf.erfc((mean[k] - x) / (sd[k] * Math.sqrt(2))) / 2;
      }
      return p;
    }
  }
}
