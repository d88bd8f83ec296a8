package lanemend.crewdays.learning;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How single log ratios stray around their crew's mean, by treatment: the variance within crews,
 * drawn towards that of all treatments with the weight of a few records (scaled inverse chi-square
 * prior, as Smyth 2004 does for many small groups). What it does not know is carried along.
 */
final class Noise {
  /** What the other treatments' spread counts for, in records. */
  private static final double PRIOR_RECORDS = 4;

  private final Map<Object, Double> squares = new HashMap<>();
  private final Map<Object, Integer> free = new HashMap<>();
  private final double atLarge;

  Noise(List<Fence.Kept> kept) {
    Map<List<Object>, List<Double>> cells = new HashMap<>();
    for (Fence.Kept k : kept) {
      List<Object> cell = List.of(String.valueOf(k.ratio().treatment()), k.ratio().crewId());
      cells.computeIfAbsent(cell, c -> new ArrayList<>()).add(k.log());
    }
    double sum = PRIOR_RECORDS * Pooling.USUAL_NOISE * Pooling.USUAL_NOISE;
    double count = PRIOR_RECORDS;
    for (Map.Entry<List<Object>, List<Double>> cell : cells.entrySet()) {
      double own = squares(cell.getValue());
      int more = cell.getValue().size() - 1;
      squares.merge(cell.getKey().get(0), own, Double::sum);
      free.merge(cell.getKey().get(0), more, Integer::sum);
      sum += own;
      count += more;
    }
    atLarge = sum / count;
  }

  private static double squares(List<Double> logs) {
    double mean = logs.stream().mapToDouble(d -> d).average().orElse(0);
    return logs.stream().mapToDouble(d -> (d - mean) * (d - mean)).sum();
  }

  /** Variance of one log ratio of a treatment, given by {@code String.valueOf}. */
  double variance(String treatment) {
    double sum = PRIOR_RECORDS * atLarge + squares.getOrDefault(treatment, 0.0);
    double least = Pooling.LEAST_NOISE * Pooling.LEAST_NOISE;
    return Math.max(least, sum / records(treatment));
  }

  /** Variance of the mean of {@code n}, its own variance not being known for sure: Student's. */
  double ofMean(String treatment, int n) {
    double d = records(treatment);
    return variance(treatment) / n * d / (d - 2);
  }

  /** Variance of half the variance, which lifts a mean of logs to the log of a mean. */
  double ofLift(String treatment) {
    double v = variance(treatment);
    return v * v / (2 * records(treatment));
  }

  private double records(String treatment) {
    return PRIOR_RECORDS + free.getOrDefault(treatment, 0);
  }
}
