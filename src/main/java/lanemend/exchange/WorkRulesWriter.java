package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.Month;
import java.time.MonthDay;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import lanemend.crewdays.FinishRule;
import lanemend.crewdays.MixCooling;
import lanemend.crewdays.WorkSeason;
import lanemend.measure.Conversion;

/** Writes what {@link WorkRulesReader} reads. */
final class WorkRulesWriter {
  private final JsonGenerator out;
  private final boolean us;

  WorkRulesWriter(JsonGenerator out, boolean us) {
    this.out = out;
    this.us = us;
  }

  void finish(FinishRule rule) throws IOException {
    JsonText.number(out, "finish_probability", rule.probability());
    out.writeObjectFieldStart("spread");
    JsonText.number(out, "day", rule.daySpread());
    JsonText.number(out, "drive", rule.driveSpread());
    JsonText.number(out, "set_up", rule.setUpSpread());
    JsonText.number(out, "truck_wait", rule.truckWaitSpread());
    out.writeEndObject();
  }

  void season(WorkSeason season) throws IOException {
    out.writeObjectFieldStart("season");
    day("hot_mix_from", season.hotMixFrom());
    day("hot_mix_to", season.hotMixTo());
    temperature("least_air", season.leastAirC());
    JsonText.number(out, "rain_probability_lost", season.rainChance());
    JsonText.number(
        out,
        us ? "rain_in_lost" : "rain_mm_lost",
        us ? season.rainMm() / 1_000 / Conversion.M_PER_IN : season.rainMm());
    JsonText.number(out, "on_time_probability", season.onTime());
    out.writeObjectFieldStart("usual");
    for (Map.Entry<Month, WorkSeason.Usual> m : new TreeMap<>(season.usual()).entrySet()) {
      out.writeObjectFieldStart(m.getKey().name().toLowerCase(Locale.ROOT));
      JsonText.number(out, "lost_day_probability", m.getValue().lostDayChance());
      temperature("air", m.getValue().airC());
      out.writeEndObject();
    }
    out.writeEndObject();
    MixCooling c = season.cooling();
    out.writeObjectFieldStart("mix_cooling");
    temperature("load", c.loadC());
    temperature("least", c.leastC());
    temperature("window_air", c.airC());
    JsonText.number(
        out,
        us ? "window_wind_mph" : "window_wind_kmh",
        us ? c.windKmh() / Conversion.KMH_PER_MPH : c.windKmh());
    out.writeEndObject();
    out.writeEndObject();
  }

  private void day(String field, MonthDay day) throws IOException {
    out.writeStringField(field, day.toString().substring(2));
  }

  private void temperature(String field, double celsius) throws IOException {
    if (!Double.isNaN(celsius)) {
      JsonText.number(out, field + (us ? "_f" : "_c"), us ? celsius * 1.8 + 32 : celsius);
    }
  }
}
