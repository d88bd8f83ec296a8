package lanemend.crewdays;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Weather foretold by day, each date once. */
public record Forecast(List<Day> days) {

  /** Nothing is foretold. */
  public static final Forecast NONE = new Forecast(List.of());

  /**
   * One date.
   *
   * @param rainChance 0 to 1
   * @param windKmh mean wind over the shift; 0 when not told
   */
  public record Day(
      LocalDate date, double rainChance, double rainMm, double minC, double maxC, double windKmh) {

    /** Air over the shift, taken as the middle of the day's range. */
    public double meanC() {
      return (minC + maxC) / 2;
    }
  }

  public Forecast {
    days = List.copyOf(days);
  }

  /** What is foretold for a date. */
  public Optional<Day> on(LocalDate date) {
    return days.stream().filter(d -> d.date().equals(date)).findFirst();
  }
}
