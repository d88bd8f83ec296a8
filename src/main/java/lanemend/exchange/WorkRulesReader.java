package lanemend.exchange;

import java.time.DateTimeException;
import java.time.Month;
import java.time.MonthDay;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import lanemend.crewdays.FinishRule;
import lanemend.crewdays.MixCooling;
import lanemend.crewdays.WorkSeason;
import lanemend.measure.Conversion;

/**
 * The parts of an agency's {@code plan} that may be left out: how sure a day must be to end in
 * time, spreads, season and weather.
 */
final class WorkRulesReader {
  /** Asked of a day where the file says nothing. */
  static final double USUAL_PROBABILITY = 0.85;

  private WorkRulesReader() {}

  static FinishRule finish(JsonFields plan) {
    FinishRule usual = FinishRule.NONE.asking(USUAL_PROBABILITY);
    double wanted =
        plan.has("finish_probability")
            ? plan.number("finish_probability", 0, 0.999)
            : usual.probability();
    if (!plan.has("spread")) {
      return usual.asking(wanted);
    }
    JsonFields f = plan.object("spread");
    FinishRule rule =
        new FinishRule(
            wanted,
            share(f, "day", usual.daySpread()),
            share(f, "drive", usual.driveSpread()),
            share(f, "set_up", usual.setUpSpread()),
            share(f, "truck_wait", usual.truckWaitSpread()));
    f.done();
    return rule;
  }

  private static double share(JsonFields f, String field, double usual) {
    return f.has(field) ? f.number(field, 0, 2) : usual;
  }

  static WorkSeason season(JsonFields plan) {
    WorkSeason usual = WorkSeason.NONE;
    if (!plan.has("season")) {
      return usual;
    }
    JsonFields f = plan.object("season");
    MonthDay from = day(f, "hot_mix_from", usual.hotMixFrom());
    MonthDay to = day(f, "hot_mix_to", usual.hotMixTo());
    if (from.isAfter(to)) {
      f.wrong("hot_mix_to", "a day of the year not before hot_mix_from");
      from = usual.hotMixFrom();
      to = usual.hotMixTo();
    }
    WorkSeason season =
        new WorkSeason(
            from,
            to,
            celsius(f, "least_air", usual.leastAirC()),
            f.has("rain_probability_lost")
                ? f.number("rain_probability_lost", 0.01, 2)
                : usual.rainChance(),
            f.has("rain_in_lost") || f.has("rain_mm_lost")
                ? f.either("rain_in_lost", 1_000 * Conversion.M_PER_IN, "rain_mm_lost", 1, 1_000)
                : usual.rainMm(),
            f.has("on_time_probability")
                ? f.number("on_time_probability", 0, 0.999)
                : usual.onTime(),
            months(f),
            cooling(f));
    f.done();
    return season;
  }

  private static MonthDay day(JsonFields f, String field, MonthDay usual) {
    if (!f.has(field)) {
      return usual;
    }
    try {
      return MonthDay.parse("--" + f.text(field));
    } catch (DateTimeException e) {
      f.wrong(field, "a day of the year such as 04-15");
      return usual;
    }
  }

  private static Map<Month, WorkSeason.Usual> months(JsonFields f) {
    Map<Month, WorkSeason.Usual> usual = new EnumMap<>(Month.class);
    if (!f.has("usual")) {
      return usual;
    }
    JsonFields months = f.object("usual");
    for (Month month : Month.values()) {
      String name = month.name().toLowerCase(Locale.ROOT);
      if (months.has(name)) {
        JsonFields m = months.object(name);
        usual.put(
            month,
            new WorkSeason.Usual(
                m.number("lost_day_probability", 0, 1), celsius(m, "air", Double.NaN)));
        m.done();
      }
    }
    months.done();
    return usual;
  }

  private static MixCooling cooling(JsonFields f) {
    MixCooling usual = MixCooling.STANDARD;
    if (!f.has("mix_cooling")) {
      return usual;
    }
    JsonFields c = f.object("mix_cooling");
    double load = celsius(c, "load", usual.loadC());
    double least = celsius(c, "least", usual.leastC());
    double air = celsius(c, "window_air", usual.airC());
    double wind =
        c.has("window_wind_mph") || c.has("window_wind_kmh")
            ? c.either("window_wind_mph", Conversion.KMH_PER_MPH, "window_wind_kmh", 1, 200)
            : usual.windKmh();
    c.done();
    if (!(load > least && least > air)) {
      if (c.problems().none()) {
        c.wrongWhole("load temperature above least temperature above window_air");
      }
      return usual;
    }
    return new MixCooling(load, least, air, wind);
  }

  /** A temperature in the unit its field's name ends with. */
  private static double celsius(JsonFields f, String field, double usual) {
    if (f.has(field + "_f") && f.has(field + "_c")) {
      f.wrong(field + "_c", "only one of " + field + "_f and " + field + "_c");
      return usual;
    }
    if (f.has(field + "_f")) {
      return (f.number(field + "_f", -100, 700) - 32) / 1.8;
    }
    return f.has(field + "_c") ? f.number(field + "_c", -70, 370) : usual;
  }
}
