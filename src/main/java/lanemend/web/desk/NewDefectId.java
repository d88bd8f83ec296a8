package lanemend.web.desk;

import java.time.LocalDate;
import java.util.function.Predicate;
import lanemend.store.Change;

/** Ids of what is added on the desk: the day and a running number, told apart by a person. */
final class NewDefectId {
  private NewDefectId() {}

  /** One that is free in the write at hand, so that two who add at once get two. */
  static String free(Change change, LocalDate day) {
    return free("D", day, id -> change.soFar().defects().find(id).isPresent());
  }

  /** The same for a finding. */
  static String freeFinding(Change change, LocalDate day) {
    return free("F", day, id -> change.soFar().findings().find(id).isPresent());
  }

  private static String free(String letter, LocalDate day, Predicate<String> isTaken) {
    String stem = letter + day.toString().replace("-", "") + "-";
    // Doubles and halves its way to a free number: days of many thousand entries are imports.
    int taken = 0;
    int step = 1;
    while (isTaken.test(stem + (taken + step))) {
      taken += step;
      step *= 2;
    }
    while (step > 0) {
      if (isTaken.test(stem + (taken + step))) {
        taken += step;
      }
      step /= 2;
    }
    return stem + (taken + 1);
  }
}
