package lanemend.exchange;

import java.util.List;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.sections.FlaggedModel;

/**
 * A renewal study as {@link StudyFile} keeps it: what took its time, with what it was made of.
 *
 * @param stamp of the change log's line below, so that it is not taken for another store's
 * @param lastChange the change log's last line when the records were read
 * @param agency the agency file's text then, for the rules of the study
 * @param cost of patching the study counts with
 */
public record KeptStudy(
    String stamp,
    long lastChange,
    String agency,
    RepairCost cost,
    Exposure exposure,
    FlaggedModel flagged,
    List<Hindcast> hindcasts) {

  public KeptStudy {
    hindcasts = List.copyOf(hindcasts);
  }
}
