package lanemend.cli;

import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.crewdays.Forecast;
import lanemend.exchange.FieldMap;
import lanemend.exchange.ForecastJson;
import lanemend.exchange.ForecastReader;
import lanemend.exchange.Read;
import lanemend.store.Store;

/** Brings a weather forecast in; its word on a date replaces an earlier one. */
final class ForecastIntake {
  private final Store store;
  private final String who;

  ForecastIntake(Store store, String who) {
    this.store = store;
    this.who = who;
  }

  IntakeResult take(Path file, FieldMap map) {
    Read<Forecast.Day> read = ForecastReader.read(file, map);
    Forecast before =
        store
            .read(s -> s.setting(County.FORECAST_SETTING))
            .map(text -> ForecastJson.parse("forecast", text))
            .orElse(Forecast.NONE);
    Forecast now = ForecastJson.merged(before, read.rows());
    store.write(
        who,
        "import forecast " + file,
        change -> {
          change.putSetting(County.FORECAST_SETTING, ForecastJson.json(now));
          change.recordImport(IntakeResult.runOf("forecast", file, read));
        });
    return new IntakeResult(
        "forecast", read.rows().size(), read.problems(), read.notes(), reach(now.days()));
  }

  private static String reach(List<Forecast.Day> days) {
    return days.isEmpty()
        ? "no date foretold"
        : days.get(0).date() + " to " + days.get(days.size() - 1).date() + "; 'plan' reads it";
  }
}
