package lanemend.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A run of fixes that can be driven through without a break, and the most likely way through it.
 *
 * <p>Hidden Markov model after Newson and Krumm, "Hidden Markov Map Matching Through Noise and
 * Sparseness", ACM SIGSPATIAL GIS 2009: the hidden states are places on the roads near each fix, a
 * fix lies about its place normally, and the driving distance between two places differs from the
 * straight distance of their fixes exponentially. The most likely sequence is Viterbi's.
 */
final class TrackChain {
  /**
   * One fix that counts.
   *
   * @param fix its number in the track
   * @param states where it may be
   * @param weight how far it tells something new, 0 to 1; see {@link #beliefs}
   * @param meters driving distance from each state of the step before, infinite where there is no
   *     way; empty at the chain's start
   * @param straightM straight distance from the fix of the step before
   */
  record Step(
      int fix, List<TrackRoads.State> states, double weight, double[][] meters, double straightM) {}

  private final double sigmaM;
  private final double betaM;
  private final List<Step> steps = new ArrayList<>();
  private final List<double[]> scores = new ArrayList<>();
  private final List<int[]> came = new ArrayList<>();

  TrackChain(double sigmaM, double betaM, Step first) {
    this.sigmaM = sigmaM;
    this.betaM = betaM;
    double[] score = new double[first.states().size()];
    for (int k = 0; k < score.length; k++) {
      score[k] = emission(first, k);
    }
    steps.add(first);
    scores.add(score);
    came.add(new int[score.length]);
  }

  /** Adds the next step; false, and nothing is added, when it cannot be reached. */
  boolean add(Step next) {
    double[] before = scores.get(scores.size() - 1);
    double[] score = new double[next.states().size()];
    int[] by = new int[score.length];
    boolean any = false;
    for (int k = 0; k < score.length; k++) {
      score[k] = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < before.length; i++) {
        double s = before[i] + transition(next, i, k);
        if (s > score[k]) {
          score[k] = s;
          by[k] = i;
        }
      }
      score[k] += emission(next, k);
      any |= score[k] > Double.NEGATIVE_INFINITY;
    }
    if (any) {
      steps.add(next);
      scores.add(score);
      came.add(by);
    }
    return any;
  }

  private double emission(Step step, int k) {
    double z = step.states().get(k).distanceM() / sigmaM;
    return -0.5 * z * z;
  }

  private double transition(Step step, int from, int to) {
    double meters = step.meters()[from][to];
    return meters == Double.POSITIVE_INFINITY
        ? Double.NEGATIVE_INFINITY
        : -Math.abs(meters - step.straightM()) / betaM;
  }

  List<Step> steps() {
    return steps;
  }

  Step last() {
    return steps.get(steps.size() - 1);
  }

  /** How much less likely each state of the last step is than its best, as a logarithm. */
  double[] lastScores() {
    double[] score = scores.get(scores.size() - 1).clone();
    double best = Arrays.stream(score).max().orElse(0);
    for (int k = 0; k < score.length; k++) {
      score[k] -= best;
    }
    return score;
  }

  /** The most likely state of each step. */
  int[] best() {
    int n = steps.size();
    int[] best = new int[n];
    double[] last = scores.get(n - 1);
    for (int k = 1; k < last.length; k++) {
      if (last[k] > last[best[n - 1]]) {
        best[n - 1] = k;
      }
    }
    for (int t = n - 1; t > 0; t--) {
      best[t - 1] = came.get(t)[best[t]];
    }
    return best;
  }

  /**
   * Belief in each state of each step given the whole chain (forward-backward algorithm; Rabiner,
   * Proceedings of the IEEE 77, 1989). Errors of a receiver last for seconds, so fixes close in
   * time are not independent: how near each lies to a road counts by its weight, else a steady
   * error of 10 m would look like proof after a minute. How far one fix lies from the next does not
   * suffer from a steady error and counts in full.
   */
  double[][] beliefs() {
    int n = steps.size();
    double[][] forward = new double[n][];
    forward[0] = weighted(steps.get(0));
    for (int t = 1; t < n; t++) {
      Step step = steps.get(t);
      forward[t] = weighted(step);
      for (int k = 0; k < forward[t].length; k++) {
        double[] in = new double[forward[t - 1].length];
        for (int i = 0; i < in.length; i++) {
          in[i] = forward[t - 1][i] + transition(step, i, k);
        }
        forward[t][k] += logSum(in);
      }
    }
    double[][] beliefs = new double[n][];
    double[] backward = new double[forward[n - 1].length];
    for (int t = n - 1; t >= 0; t--) {
      beliefs[t] = shared(forward[t], backward);
      if (t > 0) {
        backward = before(steps.get(t), backward, forward[t - 1].length);
      }
    }
    return beliefs;
  }

  private double[] weighted(Step step) {
    double[] all = new double[step.states().size()];
    for (int k = 0; k < all.length; k++) {
      all[k] = step.weight() * emission(step, k);
    }
    return all;
  }

  private double[] before(Step step, double[] backward, int count) {
    double[] emissions = weighted(step);
    double[] earlier = new double[count];
    for (int i = 0; i < count; i++) {
      double[] out = new double[backward.length];
      for (int k = 0; k < out.length; k++) {
        out[k] = backward[k] + emissions[k] + transition(step, i, k);
      }
      earlier[i] = logSum(out);
    }
    return earlier;
  }

  private static double[] shared(double[] forward, double[] backward) {
    double[] belief = new double[forward.length];
    for (int k = 0; k < belief.length; k++) {
      belief[k] = forward[k] + backward[k];
    }
    double sum = logSum(belief);
    for (int k = 0; k < belief.length; k++) {
      belief[k] = Math.exp(belief[k] - sum);
    }
    return belief;
  }

  private static double logSum(double[] logs) {
    double highest = Double.NEGATIVE_INFINITY;
    for (double log : logs) {
      highest = Math.max(highest, log);
    }
    if (highest == Double.NEGATIVE_INFINITY) {
      return highest;
    }
    double sum = 0;
    for (double log : logs) {
      sum += Math.exp(log - highest);
    }
    return highest + Math.log(sum);
  }
}
