package lanemend.crewdays;

/**
 * Finite-source queue M/M/c//N in closed form: N trucks that each call after a mean time away, and
 * c servers (one grader) that serve one call each in a mean time. {@code P_n / P_0} is the product
 * over {@code k = 1..n} of {@code (N - k + 1) u / (min(k, c) m)}; throughput {@code X = u (N - L)}.
 * (Textbook model; checked in the tests against the worked rows named there.)
 *
 * @param sources N, trucks
 * @param servers c
 * @param callsPerMinute u, rate at which one truck that is away comes back
 * @param servedPerMinute m, rate at which one server is done
 */
public record MachineRepairQueue(
    int sources, int servers, double callsPerMinute, double servedPerMinute) {

  public MachineRepairQueue {
    if (sources < 1 || servers < 1 || !(callsPerMinute > 0) || !(servedPerMinute > 0)) {
      throw new IllegalArgumentException(
          "a finite-source queue needs at least one source and server and rates above 0");
    }
  }

  /** Chance of n trucks at the servers, n = 0 to N. */
  public double[] chances() {
    double[] chance = new double[sources + 1];
    chance[0] = 1;
    double sum = 1;
    for (int n = 1; n <= sources; n++) {
      chance[n] =
          chance[n - 1]
              * (sources - n + 1)
              * callsPerMinute
              / (Math.min(n, servers) * servedPerMinute);
      sum += chance[n];
    }
    for (int n = 0; n <= sources; n++) {
      chance[n] /= sum;
    }
    return chance;
  }

  /** Chance that all servers idle. */
  public double idle() {
    return chances()[0];
  }

  /** Mean number at the servers, in service or waiting. */
  public double inSystem() {
    double[] chance = chances();
    double sum = 0;
    for (int n = 1; n <= sources; n++) {
      sum += n * chance[n];
    }
    return sum;
  }

  /** Mean number waiting. */
  public double waiting() {
    double[] chance = chances();
    double sum = 0;
    for (int n = servers + 1; n <= sources; n++) {
      sum += (n - servers) * chance[n];
    }
    return sum;
  }

  /** Services in a minute. */
  public double throughputPerMinute() {
    return callsPerMinute * (sources - inSystem());
  }

  /** Mean minutes of waiting for one service. */
  public double waitMinutes() {
    return waiting() / throughputPerMinute();
  }

  /** Mean minutes at the servers for one call. */
  public double systemMinutes() {
    return inSystem() / throughputPerMinute();
  }
}
