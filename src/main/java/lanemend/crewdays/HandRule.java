package lanemend.crewdays;

import java.time.LocalDate;

/**
 * One thing people settled about the plan; planning keeps to it until it is taken back.
 *
 * @param defectId the repair it is about, or a part of it; empty for rules about a day
 * @param zone repairs pinned with the same text stay one work zone; empty for other kinds
 * @param crewId empty where it is about no crew, or about every crew
 * @param date null where it is about no date
 * @param reason why, as the person said it
 */
public record HandRule(
    Kind kind, String defectId, String zone, String crewId, LocalDate date, String reason) {

  /** What may be settled by hand. */
  public enum Kind {
    /** The repair is done by this crew on this date. */
    PIN,
    /** The repair stays out of the plan. */
    LEAVE_OUT,
    /** The repair is done on this date at the latest. */
    DONE_BY,
    /** The crew's day stays exactly as it is. */
    LOCK_DAY,
    /** The crew (every crew, where none is named) does not work on this date. */
    CLOSE_DAY
  }

  public HandRule {
    boolean aboutRepair = kind == Kind.PIN || kind == Kind.LEAVE_OUT || kind == Kind.DONE_BY;
    boolean needsCrew = kind == Kind.PIN || kind == Kind.LOCK_DAY;
    boolean mayHaveCrew = needsCrew || kind == Kind.CLOSE_DAY;
    if (aboutRepair == defectId.isEmpty()
        || (kind == Kind.PIN) == zone.isEmpty()
        || (needsCrew && crewId.isEmpty())
        || (!mayHaveCrew && !crewId.isEmpty())
        || (date == null) != (kind == Kind.LEAVE_OUT)
        || reason.isBlank()) {
      throw new IllegalArgumentException("a rule set by hand does not fit together: " + kind);
    }
  }

  /** The repair is done by this crew on this date, in one zone with those of the same text. */
  public static HandRule pin(
      String defectId, String zone, String crewId, LocalDate date, String reason) {
    return new HandRule(Kind.PIN, defectId, zone, crewId, date, reason);
  }

  public static HandRule leaveOut(String defectId, String reason) {
    return new HandRule(Kind.LEAVE_OUT, defectId, "", "", null, reason);
  }

  public static HandRule doneBy(String defectId, LocalDate date, String reason) {
    return new HandRule(Kind.DONE_BY, defectId, "", "", date, reason);
  }

  public static HandRule lockDay(String crewId, LocalDate date, String reason) {
    return new HandRule(Kind.LOCK_DAY, "", "", crewId, date, reason);
  }

  /**
   * A day without work.
   *
   * @param crewId empty for every crew
   */
  public static HandRule closeDay(String crewId, LocalDate date, String reason) {
    return new HandRule(Kind.CLOSE_DAY, "", "", crewId, date, reason);
  }

  /** What is settled, in words. */
  public String words() {
    return switch (kind) {
      case PIN -> defectId + " stays with crew " + crewId + " on " + date;
      case LEAVE_OUT -> defectId + " stays out of the plan";
      case DONE_BY -> defectId + " is done by " + date;
      case LOCK_DAY -> "the day of crew " + crewId + " on " + date + " stays as it is";
      case CLOSE_DAY ->
          (crewId.isEmpty() ? "nobody works" : "crew " + crewId + " does not work") + " on " + date;
    };
  }

  /** True when both settle the same thing, so that the later takes the place of the earlier. */
  public boolean sameMatter(HandRule other) {
    return kind == other.kind
        && defectId.equals(other.defectId)
        && (!defectId.isEmpty() || (crewId.equals(other.crewId) && date.equals(other.date)));
  }
}
