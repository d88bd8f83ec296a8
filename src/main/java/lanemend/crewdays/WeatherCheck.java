package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Works the weather of a plan's dates out again; part of {@link PlanChecker}. */
final class WeatherCheck {
  private final Agency agency;
  private final WorkSeason season;

  WeatherCheck(Agency agency) {
    this.agency = agency;
    season = agency.plan().season();
  }

  /** Why nobody should be planned on a date, or empty. */
  Optional<String> against(LocalDate date) {
    if (rained(date)) {
      return Optional.of("is on a day lost to rain by the forecast");
    }
    return isKeptFree(date)
        ? Optional.of("is on a date that must be kept free for lost days")
        : Optional.empty();
  }

  private boolean rained(LocalDate date) {
    Optional<Forecast.Day> told = agency.forecast().on(date);
    return told.isPresent()
        && (told.get().rainChance() >= season.rainChance()
            || told.get().rainMm() >= season.rainMm());
  }

  /** True when hot mix may be laid on the date. */
  boolean hotMix(LocalDate date) {
    int day = 100 * date.getMonthValue() + date.getDayOfMonth();
    boolean inSeason =
        day >= 100 * season.hotMixFrom().getMonthValue() + season.hotMixFrom().getDayOfMonth()
            && day <= 100 * season.hotMixTo().getMonthValue() + season.hotMixTo().getDayOfMonth();
    double warmest = agency.forecast().on(date).map(Forecast.Day::maxC).orElse(usualAir(date));
    return inSeason && !(warmest < season.leastAirC());
  }

  /** The mix window's share on a date: never more than cold and wind leave. */
  double windowShare(LocalDate date) {
    MixCooling c = season.cooling();
    Optional<Forecast.Day> told = agency.forecast().on(date);
    double air = told.map(d -> (d.minC() + d.maxC()) / 2).orElse(usualAir(date));
    double wind = Math.max(told.map(Forecast.Day::windKmh).orElse(0.0), c.windKmh());
    if (Double.isNaN(air)) {
      return 1;
    }
    // Newton's cooling as a ratio of half-lives, worked with base 2 and the exponent apart.
    double cold = Math.min(air, c.airC());
    double now = (Math.log(c.loadC() - cold) - Math.log(c.leastC() - cold)) / Math.log(2);
    double usual = (Math.log(c.loadC() - c.airC()) - Math.log(c.leastC() - c.airC())) / Math.log(2);
    double blown =
        Math.exp(
            -MixCooling.EXPONENT
                * Math.log((MixCooling.TRUCK_KMH + wind) / (MixCooling.TRUCK_KMH + c.windKmh())));
    int steps = (int) (now / usual * blown / MixCooling.STEP + 1e-9);
    return steps * MixCooling.STEP;
  }

  private double usualAir(LocalDate date) {
    WorkSeason.Usual usual = season.usual().get(date.getMonth());
    return usual == null ? Double.NaN : usual.airC();
  }

  /** A date is kept free when up to it one more day than up to the day before must be. */
  private boolean isKeptFree(LocalDate date) {
    if (season.onTime() <= 0 || !counts(date)) {
      return false;
    }
    List<Double> chances = new ArrayList<>();
    int before = 0;
    for (LocalDate d = agency.plan().firstDay(); !d.isAfter(date); d = d.plusDays(1)) {
      if (counts(d)) {
        before = d.isBefore(date) ? -1 : needed(chances);
        WorkSeason.Usual usual = season.usual().get(d.getMonth());
        double lost = usual == null ? 0 : usual.lostDayChance();
        chances.add(agency.forecast().on(d).map(Forecast.Day::rainChance).orElse(lost));
      }
    }
    return needed(chances) > before;
  }

  private boolean counts(LocalDate date) {
    PlanSettings plan = agency.plan();
    return plan.workdays().contains(date.getDayOfWeek())
        && !plan.blackout().contains(date)
        && !rained(date);
  }

  /** Least number of lost days that is not exceeded with the wanted chance, by a table. */
  private int needed(List<Double> chances) {
    int n = chances.size();
    double[][] exactly = new double[n + 1][n + 1];
    exactly[0][0] = 1;
    for (int i = 1; i <= n; i++) {
      double lost = chances.get(i - 1);
      for (int k = 0; k <= i; k++) {
        exactly[i][k] = exactly[i - 1][k] * (1 - lost) + (k > 0 ? exactly[i - 1][k - 1] * lost : 0);
      }
    }
    int k = 0;
    double sum = exactly[n][0];
    while (sum < season.onTime() - 1e-12 && k < n) {
      sum += exactly[n][++k];
    }
    return k;
  }
}
