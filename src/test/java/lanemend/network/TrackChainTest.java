package lanemend.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;

/** The chain against a count of every sequence there is. */
class TrackChainTest {
  private static final double SIGMA = 5;
  private static final double BETA = 8;
  private static final int STEPS = 5;

  private static TrackRoads.State state(double distance) {
    PlaceOnLink place = new PlaceOnLink(0, 0, 1, false, 0, 0, 0, 0, 0);
    return new TrackRoads.State(place, 0, 0, distance);
  }

  private static TrackChain.Step step(Random random, int fix, int before) {
    List<TrackRoads.State> states = new ArrayList<>();
    for (int k = 0; k <= random.nextInt(3); k++) {
      states.add(state(15 * random.nextDouble()));
    }
    double[][] meters = new double[before][states.size()];
    for (double[] row : meters) {
      for (int k = 0; k < row.length; k++) {
        row[k] = random.nextInt(5) == 0 ? Double.POSITIVE_INFINITY : 60 * random.nextDouble();
      }
    }
    return new TrackChain.Step(fix, states, 1, meters, 30);
  }

  private static double logOf(List<TrackChain.Step> steps, int[] way) {
    double log = 0;
    for (int t = 0; t < way.length; t++) {
      double z = steps.get(t).states().get(way[t]).distanceM() / SIGMA;
      log -= 0.5 * z * z;
      if (t > 0) {
        log -= Math.abs(steps.get(t).meters()[way[t - 1]][way[t]] - 30) / BETA;
      }
    }
    return log;
  }

  private static void every(List<TrackChain.Step> steps, int[] way, int t, List<int[]> all) {
    if (t == way.length) {
      all.add(way.clone());
      return;
    }
    for (int k = 0; k < steps.get(t).states().size(); k++) {
      way[t] = k;
      every(steps, way, t + 1, all);
    }
  }

  @RepeatedTest(40)
  void bestAndBeliefsAreThoseOfACountOfEveryWay(RepetitionInfo round) {
    // Given a random chain of five steps with up to three states each, some ways closed
    Random random = new Random(round.getCurrentRepetition());
    TrackChain chain = new TrackChain(SIGMA, BETA, step(random, 0, 0));
    for (int t = 1; t < STEPS; ) {
      t += chain.add(step(random, t, chain.last().states().size())) ? 1 : 0;
    }
    List<int[]> ways = new ArrayList<>();
    every(chain.steps(), new int[STEPS], 0, ways);
    // then the best is the best of all of them
    double best = ways.stream().mapToDouble(w -> logOf(chain.steps(), w)).max().orElseThrow();
    assertEquals(best, logOf(chain.steps(), chain.best()), 1e-9);
    // and the belief in a state is the share of the ways through it
    double sum = ways.stream().mapToDouble(w -> Math.exp(logOf(chain.steps(), w))).sum();
    double[][] beliefs = chain.beliefs();
    for (int t = 0; t < STEPS; t++) {
      for (int k = 0; k < beliefs[t].length; k++) {
        int at = t;
        int state = k;
        double through =
            ways.stream()
                .filter(w -> w[at] == state)
                .mapToDouble(w -> Math.exp(logOf(chain.steps(), w)))
                .sum();
        assertEquals(through / sum, beliefs[t][k], 1e-9);
      }
    }
  }

  @Test
  void whatCannotBeReachedIsNotAdded() {
    TrackChain chain =
        new TrackChain(
            SIGMA, BETA, new TrackChain.Step(0, List.of(state(1)), 1, new double[0][0], 0));
    double[][] closed = {{Double.POSITIVE_INFINITY}};
    assertFalse(chain.add(new TrackChain.Step(1, List.of(state(1)), 1, closed, 30)));
    assertEquals(1, chain.steps().size());
  }
}
