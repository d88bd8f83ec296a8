package lanemend.patching;

import java.time.LocalDate;

/**
 * A treatment that somebody chose for a defect in place of what the rules say.
 *
 * @param note why, in the words of whoever chose; never empty
 * @param by name
 */
public record ChosenTreatment(
    String defectId, Treatment treatment, String note, String by, LocalDate on) {

  /** Name of the rule that a repair so chosen shows. */
  public static final String RULE = "chosen-by-hand";

  /** Checks that it can be answered for. */
  public ChosenTreatment {
    if (note == null || note.isBlank()) {
      throw new IllegalArgumentException(
          "the treatment chosen for " + defectId + " needs a note that says why");
    }
    if (by == null || by.isBlank()) {
      throw new IllegalArgumentException("who chose the treatment of " + defectId + " is missing");
    }
  }

  /** The choice as a repair shows it. */
  TreatmentChoice asChoice() {
    return new TreatmentChoice(treatment, RULE, note + " (chosen by " + by + " on " + on + ")");
  }
}
