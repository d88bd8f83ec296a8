package lanemend.crewdays.routing;

/**
 * How long a search may run. By iterations the result is the same each time for the same seed and
 * threads; by seconds it depends on the machine.
 *
 * @param iterations per thread, or 0 when limited by time
 * @param seconds or 0 when limited by iterations
 */
public record SearchBudget(long iterations, double seconds, long seed, int threads) {

  public SearchBudget {
    if (iterations < 0 || !(seconds >= 0) || threads < 1 || (iterations > 0) == (seconds > 0)) {
      throw new IllegalArgumentException(
          "a search runs for iterations or for seconds, on at least one thread");
    }
  }

  /** The same result each time. */
  public static SearchBudget iterations(long iterations, long seed) {
    return new SearchBudget(iterations, 0, seed, 2);
  }

  /** The best found in a time, on both cores. */
  public static SearchBudget seconds(double seconds, long seed) {
    return new SearchBudget(0, seconds, seed, 2);
  }
}
