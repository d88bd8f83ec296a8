package lanemend.exchange;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import lanemend.crewdays.Forecast;
import lanemend.measure.Conversion;

/** A weather forecast from CSV, a row a date. Touches nothing but the file it reads. */
public final class ForecastReader {
  private static final double WETTEST_M = 2;

  private ForecastReader() {}

  /**
   * Reads the file.
   *
   * @throws ExchangeException when the file as a whole cannot be read
   */
  public static Read<Forecast.Day> read(Path file, FieldMap map) {
    RowSource source = RowSource.of(file);
    EventCells.checkColumns(
        file,
        source,
        map,
        "date",
        "rain_probability",
        "min_temperature_f|min_temperature_c",
        "max_temperature_f|max_temperature_c");
    Map<LocalDate, RowOrigin> seen = new HashMap<>();
    Gather<Forecast.Day> gather = new Gather<>();
    gather.run(source, map, cells -> day(cells, seen));
    return gather.read(RowSource.nameOf(file), Set.of());
  }

  private static Forecast.Day day(Cells cells, Map<LocalDate, RowOrigin> seen) {
    LocalDate date = cells.date("date");
    if (date == null && !cells.filled("date")) {
      cells.wrong("date", "", "a date such as 2026-04-30");
    }
    OptionalDouble rain = cells.number("rain_probability", 0, 1);
    if (!cells.filled("rain_probability")) {
      cells.wrong("rain_probability", "", "a probability from 0 to 1");
    }
    OptionalDouble depth = cells.size("rain_in", Conversion.M_PER_IN, "rain_mm", 1e-3, WETTEST_M);
    double min = temperature(cells, "min_temperature");
    double max = temperature(cells, "max_temperature");
    if (min > max) {
      String field = cells.filled("max_temperature_c") ? "max_temperature_c" : "max_temperature_f";
      cells.wrong(field, cells.line(field), "at least the day's least temperature");
    }
    double wind = wind(cells);
    RowOrigin before = date == null ? null : seen.putIfAbsent(date, cells.row().origin());
    if (before != null) {
      cells.wrong("date", date.toString(), "each date once; it also stands at " + before.text());
    }
    return new Forecast.Day(date, rain.orElse(0), 1_000 * depth.orElse(0), min, max, wind);
  }

  private static double temperature(Cells cells, String field) {
    if (cells.filled(field + "_f") && cells.filled(field + "_c")) {
      cells.wrong(field + "_c", cells.line(field + "_c"), "only one of the two units");
      return Double.NaN;
    }
    OptionalDouble f = cells.number(field + "_f", -80, 150);
    OptionalDouble c = cells.number(field + "_c", -60, 65);
    if (!cells.filled(field + "_f") && !cells.filled(field + "_c")) {
      cells.wrong(field + "_f", "", "a temperature, here or in " + field + "_c");
    }
    return f.isPresent() ? (f.getAsDouble() - 32) / 1.8 : c.orElse(Double.NaN);
  }

  private static double wind(Cells cells) {
    if (cells.filled("wind_mph") && cells.filled("wind_kmh")) {
      cells.wrong("wind_kmh", cells.line("wind_kmh"), "only one of wind_mph and wind_kmh");
    }
    OptionalDouble mph = cells.number("wind_mph", 0, 200);
    OptionalDouble kmh = cells.number("wind_kmh", 0, 320);
    return mph.isPresent() ? mph.getAsDouble() * Conversion.KMH_PER_MPH : kmh.orElse(0);
  }
}
