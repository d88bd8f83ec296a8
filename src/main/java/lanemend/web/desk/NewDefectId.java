package lanemend.web.desk;

import java.time.LocalDate;
import lanemend.store.Change;

/** Ids of defects added on the desk: the day and a running number, told apart by a person. */
final class NewDefectId {
  private NewDefectId() {}

  /** One that is free in the write at hand, so that two who add at once get two. */
  static String free(Change change, LocalDate day) {
    String stem = "D" + day.toString().replace("-", "") + "-";
    // Doubles and halves its way to a free number: days of many thousand entries are imports.
    int taken = 0;
    int step = 1;
    while (isTaken(change, stem + (taken + step))) {
      taken += step;
      step *= 2;
    }
    while (step > 0) {
      if (isTaken(change, stem + (taken + step))) {
        taken += step;
      }
      step /= 2;
    }
    return stem + (taken + 1);
  }

  private static boolean isTaken(Change change, String id) {
    return change.soFar().defects().find(id).isPresent();
  }
}
