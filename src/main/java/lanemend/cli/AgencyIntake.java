package lanemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lanemend.county.County;
import lanemend.crewdays.Agency;
import lanemend.exchange.AgencyReader;
import lanemend.exchange.PatchOverrides;
import lanemend.exchange.RenewalRulesReader;
import lanemend.network.ProjectedCrs;
import lanemend.patching.PatchSettings;
import lanemend.renewal.RenewalRules;
import lanemend.store.Store;

/** Brings the agency's own facts in; taken whole or not at all. */
final class AgencyIntake {
  private final Store store;
  private final String who;

  AgencyIntake(Store store, String who) {
    this.store = store;
    this.who = who;
  }

  IntakeResult take(Path file) {
    Agency agency = AgencyReader.read(file, ProjectedCrs.fromWkt(store.crsWkt()));
    PatchOverrides.read(file, PatchSettings.standard());
    RenewalRulesReader.read(file, RenewalRules.standard());
    String text = textOf(file);
    store.write(
        who,
        "import agency " + file,
        change -> {
          change.putSetting(County.AGENCY_SETTING, text);
          change.replacePlaces(agency.yards(), agency.plants());
        });
    return new IntakeResult(
        "agency",
        1,
        List.of(),
        List.of(),
        agency.name()
            + ", "
            + agency.crews().size()
            + " crews, "
            + agency.yards().size()
            + " yards, "
            + agency.plants().size()
            + " plants");
  }

  static String textOf(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new Refusal(file + " cannot be read: " + e.getMessage());
    }
  }
}
