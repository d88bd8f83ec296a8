package lanemend.cli;

import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.exchange.TreatmentRulesJson;
import lanemend.patching.TreatmentRules;
import lanemend.store.Store;

/** Brings an agency's own treatment rules in place of the standard ones. */
final class RulesIntake {
  private final Store store;
  private final String who;

  RulesIntake(Store store, String who) {
    this.store = store;
    this.who = who;
  }

  IntakeResult take(Path file) {
    TreatmentRules rules = TreatmentRulesJson.read(file);
    String text = AgencyIntake.textOf(file);
    store.write(
        who, "import rules " + file, change -> change.putSetting(County.RULES_SETTING, text));
    return new IntakeResult(
        "rules", rules.rules().size(), List.of(), List.of(), "treatment is chosen by these now");
  }
}
