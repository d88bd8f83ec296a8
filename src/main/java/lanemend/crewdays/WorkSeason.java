package lanemend.crewdays;

import java.time.LocalDate;
import java.time.Month;
import java.time.MonthDay;
import java.util.Map;

/**
 * When the year lets crews work and lay hot mix.
 *
 * @param hotMixFrom first day of the year on which hot mix is laid
 * @param hotMixTo last such day, on or after the first
 * @param leastAirC least air temperature for hot mix; NaN asks for none
 * @param rainChance forecast probability of rain from which a day counts as lost; above 1 for never
 * @param rainMm forecast rain from which a day counts as lost
 * @param onTime chance with which the work of every stretch of the plan is to be done in time in
 *     spite of days lost to weather: dates are kept free for it; 0 keeps none
 * @param usual weather by month where no forecast reaches; months not named lose no day
 */
public record WorkSeason(
    MonthDay hotMixFrom,
    MonthDay hotMixTo,
    double leastAirC,
    double rainChance,
    double rainMm,
    double onTime,
    Map<Month, Usual> usual,
    MixCooling cooling) {

  /**
   * A month's usual weather.
   *
   * @param lostDayChance chance that a day is lost
   * @param airC air temperature during the shift; NaN when not known
   */
  public record Usual(double lostDayChance, double airC) {}

  /** The whole year, no limits. */
  public static final WorkSeason NONE =
      new WorkSeason(
          MonthDay.of(1, 1),
          MonthDay.of(12, 31),
          Double.NaN,
          0.6,
          5,
          0.8,
          Map.of(),
          MixCooling.STANDARD);

  public WorkSeason {
    usual = Map.copyOf(usual);
    if (hotMixFrom.isAfter(hotMixTo)) {
      throw new IllegalArgumentException(
          "hot mix from " + hotMixFrom + " to " + hotMixTo + " is no season of one year");
    }
    if (!(onTime >= 0 && onTime < 1)) {
      throw new IllegalArgumentException("a chance of being in time of " + onTime);
    }
  }

  /** True on a date of the hot-mix season. */
  public boolean hotMix(LocalDate date) {
    MonthDay day = MonthDay.from(date);
    return !day.isBefore(hotMixFrom) && !day.isAfter(hotMixTo);
  }
}
