package lanemend.cli;

import java.time.LocalDate;
import lanemend.county.County;
import lanemend.store.Store;
import picocli.CommandLine.Option;

/** The day a question is asked for. */
final class DayOption {
  @Option(
      names = "--as-of",
      paramLabel = "DATE",
      description = "roads and what lies on them as they were on a day (default: today)")
  private LocalDate asOf;

  County county(Store store) {
    return County.asOf(store, asOf);
  }
}
