package lanemend.crewdays;

import java.util.Arrays;

/** How many of the days so far are lost: a Poisson binomial number, worked out exactly. */
final class LostDays {
  /** Chance of exactly i lost days. */
  private double[] chance = {1};

  /** One more day, lost with this chance. */
  void add(double lost) {
    double[] next = Arrays.copyOf(chance, chance.length + 1);
    for (int i = chance.length; i >= 0; i--) {
      double stays = i < chance.length ? chance[i] * (1 - lost) : 0;
      next[i] = stays + (i > 0 ? chance[i - 1] * lost : 0);
    }
    chance = next;
  }

  /** The least number that is not exceeded with this probability. */
  int atMost(double probability) {
    double sum = 0;
    for (int i = 0; i < chance.length; i++) {
      sum += chance[i];
      if (sum >= probability - 1e-12) {
        return i;
      }
    }
    return chance.length - 1;
  }
}
