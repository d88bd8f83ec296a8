package lanemend.exchange;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import lanemend.crewdays.Forecast;

/** The forecast as the store keeps it. */
public final class ForecastJson {
  private ForecastJson() {}

  /** The text that {@link #parse} reads. */
  public static String json(Forecast forecast) {
    return JsonText.of(
        out -> {
          out.writeStartObject();
          out.writeArrayFieldStart("days");
          for (Forecast.Day d : forecast.days()) {
            out.writeStartObject();
            out.writeStringField("date", d.date().toString());
            JsonText.number(out, "rain_probability", d.rainChance());
            JsonText.number(out, "rain_mm", d.rainMm());
            JsonText.number(out, "min_temperature_c", d.minC());
            JsonText.number(out, "max_temperature_c", d.maxC());
            JsonText.number(out, "wind_kmh", d.windKmh());
            out.writeEndObject();
          }
          out.writeEndArray();
          out.writeEndObject();
        });
  }

  /**
   * Reads the text.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static Forecast parse(String name, String json) {
    JsonProblems problems = new JsonProblems(name);
    JsonFields root = new JsonFields(JsonValue.parse(name, json), problems);
    List<Forecast.Day> days =
        root.objects(
            "days",
            f ->
                new Forecast.Day(
                    f.date("date"),
                    f.number("rain_probability", 0, 1),
                    f.number("rain_mm", 0, 10_000),
                    f.number("min_temperature_c", -100, 100),
                    f.number("max_temperature_c", -100, 100),
                    f.number("wind_kmh", 0, 1_000)));
    root.done();
    problems.check();
    return new Forecast(days);
  }

  /** {@code later} where it reaches, {@code earlier} elsewhere; by date. */
  public static Forecast merged(Forecast earlier, List<Forecast.Day> later) {
    TreeMap<LocalDate, Forecast.Day> byDate = new TreeMap<>();
    earlier.days().forEach(d -> byDate.put(d.date(), d));
    later.forEach(d -> byDate.put(d.date(), d));
    return new Forecast(new ArrayList<>(byDate.values()));
  }
}
