package lanemend.cli;

import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.exchange.CurvesReader;
import lanemend.renewal.overlay.ConditionIndex.Curves;
import lanemend.store.Store;

/** Brings the agency's curves for the condition index in; taken whole or not at all. */
final class CurvesIntake {
  private final Store store;
  private final String who;

  CurvesIntake(Store store, String who) {
    this.store = store;
    this.who = who;
  }

  IntakeResult take(Path file) {
    Curves curves = CurvesReader.read(file);
    String text = AgencyIntake.textOf(file);
    store.write(
        who, "import curves " + file, change -> change.putSetting(County.CURVES_SETTING, text));
    return new IntakeResult(
        "curves",
        curves.deducts().size() + curves.corrected().size(),
        List.of(),
        List.of(),
        curves.deducts().size()
            + " deduct and "
            + curves.corrected().size()
            + " correction curves, from: "
            + curves.source());
  }
}
