package lanemend.web.load;

import java.util.ArrayList;
import java.util.List;

/** What users were told was done, for the checker; safe for several threads. */
final class Told {
  /** What a write that was answered as done must have left in the change log. */
  enum Kind {
    ADD,
    CHANGE,
    UNDO,
    DONE,
    CHOOSE
  }

  /**
   * One answer.
   *
   * @param defect whose
   * @param mark words this write alone has in a row, or empty
   * @param version the row's version that the answer named, or 0
   * @param edit the write that an undo took back, or 0
   */
  record Write(Kind kind, String defect, String mark, long version, long edit) {}

  private final List<Write> writes = new ArrayList<>();

  synchronized void add(Write write) {
    writes.add(write);
  }

  synchronized List<Write> all() {
    return List.copyOf(writes);
  }
}
