package lanemend.store;

import java.time.LocalDate;

/**
 * An entry of a phone that somebody must look at before it is a defect, because its place is not
 * clear.
 *
 * @param entryId the phone's own id
 * @param json what was sent
 * @param reason why its place is not clear
 * @param settled null while it waits
 * @param settledOn null while it waits
 * @param becameId the defect it became; empty when it did not
 */
public record FieldEntry(
    String entryId,
    String json,
    String reason,
    String sentBy,
    LocalDate raisedOn,
    Settled settled,
    String settledBy,
    LocalDate settledOn,
    String becameId,
    String note) {

  /** What somebody made of it. */
  public enum Settled {
    PLACED,
    WITHDRAWN
  }

  /** One that has just come. */
  public static FieldEntry waiting(
      String entryId, String json, String reason, String sentBy, LocalDate on) {
    return new FieldEntry(entryId, json, reason, sentBy, on, null, "", null, "", "");
  }

  /** This one, placed as a defect. */
  public FieldEntry placed(String defectId, String who, LocalDate on) {
    return new FieldEntry(
        entryId, json, reason, sentBy, raisedOn, Settled.PLACED, who, on, defectId, "");
  }

  /** This one, set aside with a note. */
  public FieldEntry withdrawn(String why, String who, LocalDate on) {
    return new FieldEntry(
        entryId, json, reason, sentBy, raisedOn, Settled.WITHDRAWN, who, on, "", why);
  }
}
