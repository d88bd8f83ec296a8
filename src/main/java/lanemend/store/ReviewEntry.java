package lanemend.store;

import java.time.LocalDate;

/**
 * An event that somebody must look at after an edit of its road.
 *
 * @param table the event's table, for instance {@code defect}
 * @param row the event's feature id there
 * @param key what people call the event, for instance a defect's id
 * @param reason a plain sentence
 * @param raisedOn the day of the edit
 * @param onRoad false where the event lies on no road until this is settled
 * @param settled {@code accepted}, {@code placed} or {@code withdrawn}; null while open
 * @param settledOn null while open
 */
public record ReviewEntry(
    String table,
    long row,
    String key,
    String reason,
    LocalDate raisedOn,
    boolean onRoad,
    String settled,
    String settledBy,
    LocalDate settledOn,
    String note) {

  public boolean open() {
    return settled == null;
  }

  /** The entry as somebody settled it. */
  ReviewEntry settled(String how, String by, LocalDate on, String words) {
    return new ReviewEntry(table, row, key, reason, raisedOn, onRoad, how, by, on, words);
  }
}
