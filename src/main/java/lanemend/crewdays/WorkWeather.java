package lanemend.crewdays;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import lanemend.measure.Unit;

/**
 * What weather leaves of a plan's dates. A forecast decides the dates it reaches; for the others
 * the month's usual chance of a lost day counts. Lost days are taken as independent, so their
 * number up to any date is Poisson binomial; as many dates up to it are kept free as are lost at
 * most with the agency's probability, and a date is kept free when that number grows.
 */
public final class WorkWeather {

  /** What a date is good for. */
  public enum Use {
    /** Any work. */
    FULL,
    /** Work without hot mix. */
    NO_HOT_MIX,
    /** Kept free for work that weather has pushed back. */
    KEPT_FREE,
    /** No work. */
    LOST
  }

  /**
   * One date.
   *
   * @param reason why it is not good for any work, or empty
   * @param lostChance chance that the day is lost
   * @param windowShare share of the mix window left by cold and wind
   */
  public record Outlook(
      LocalDate date, Use use, String reason, double lostChance, double windowShare) {
    /** True when hot mix may be laid. */
    public boolean hotMix() {
      return use == Use.FULL;
    }

    /** True when crews are planned on this date. */
    public boolean worked() {
      return use == Use.FULL || use == Use.NO_HOT_MIX;
    }
  }

  private final Agency agency;
  private final WorkSeason season;
  private final Map<LocalDate, Outlook> byDate = new LinkedHashMap<>();

  private WorkWeather(Agency agency) {
    this.agency = agency;
    season = agency.plan().season();
    LostDays lost = new LostDays();
    int kept = 0;
    for (int i = 0; i < agency.plan().calendarDays(); i++) {
      LocalDate date = agency.plan().firstDay().plusDays(i);
      Outlook sky = sky(date);
      if (season.onTime() > 0 && sky.worked() && agencyWorks(date)) {
        lost.add(sky.lostChance());
        if (lost.atMost(season.onTime()) > kept) {
          kept++;
          sky = keptFree(sky, kept);
        }
      }
      byDate.put(date, sky);
    }
  }

  /** The dates of an agency's plan. */
  public static WorkWeather of(Agency agency) {
    return new WorkWeather(agency);
  }

  /** Every calendar date of the plan in order. */
  public List<Outlook> dates() {
    return List.copyOf(byDate.values());
  }

  /** One date, also outside the plan, where nothing is kept free. */
  public Outlook on(LocalDate date) {
    Outlook known = byDate.get(date);
    return known == null ? sky(date) : known;
  }

  private boolean agencyWorks(LocalDate date) {
    return agency.plan().workdays().contains(date.getDayOfWeek())
        && !agency.plan().blackout().contains(date);
  }

  private static Outlook keptFree(Outlook sky, int number) {
    return new Outlook(
        sky.date(),
        Use.KEPT_FREE,
        "kept free for work that weather pushes back (" + number + ")",
        sky.lostChance(),
        sky.windowShare());
  }

  private Outlook sky(LocalDate date) {
    Optional<Forecast.Day> told = agency.forecast().on(date);
    WorkSeason.Usual usual =
        season.usual().getOrDefault(date.getMonth(), new WorkSeason.Usual(0, Double.NaN));
    double chance = told.map(Forecast.Day::rainChance).orElse(usual.lostDayChance());
    double air = told.map(Forecast.Day::meanC).orElse(usual.airC());
    double wind = told.map(Forecast.Day::windKmh).orElse(season.cooling().windKmh());
    double share = Double.isNaN(air) ? 1 : season.cooling().stepped(air, wind);
    Optional<String> rain = told.flatMap(this::rain);
    if (rain.isPresent()) {
      return new Outlook(date, Use.LOST, rain.get(), 1, share);
    }
    double warmest = told.map(Forecast.Day::maxC).orElse(usual.airC());
    String cold = cold(date, warmest, told.isPresent());
    return new Outlook(date, cold.isEmpty() ? Use.FULL : Use.NO_HOT_MIX, cold, chance, share);
  }

  private Optional<String> rain(Forecast.Day day) {
    if (day.rainChance() >= season.rainChance()) {
      return Optional.of(
          "forecast: "
              + Math.round(100 * day.rainChance())
              + " % chance of rain, work stops from "
              + Math.round(100 * season.rainChance())
              + " %");
    }
    if (day.rainMm() >= season.rainMm()) {
      return Optional.of(
          "forecast: "
              + shown(day.rainMm() / 1000, Unit.THICKNESS_METER)
              + " of rain, work stops from "
              + shown(season.rainMm() / 1000, Unit.THICKNESS_METER));
    }
    return Optional.empty();
  }

  private String cold(LocalDate date, double warmest, boolean foretold) {
    if (!season.hotMix(date)) {
      return "no hot mix: outside its season";
    }
    if (warmest < season.leastAirC()) {
      return "no hot mix: "
          + (foretold ? "forecast " : "usual air ")
          + shown(warmest, Unit.DEGREE_CELSIUS)
          + " at most, least "
          + shown(season.leastAirC(), Unit.DEGREE_CELSIUS);
    }
    return "";
  }

  private String shown(double value, Unit unit) {
    return agency.units().show(value, unit).text();
  }
}
