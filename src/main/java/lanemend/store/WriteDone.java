package lanemend.store;

import java.time.Instant;
import java.util.Map;

/**
 * One write to the store.
 *
 * @param edit its number in the change log
 * @param why what it was, for instance {@code import defects.csv}
 * @param rows rows added, changed or removed, by table
 * @param undoneBy the write that took it back, or 0
 * @param undoes the write it took back, or 0
 */
public record WriteDone(
    long edit,
    Instant at,
    String who,
    String why,
    Map<String, Integer> rows,
    long undoneBy,
    long undoes) {

  public WriteDone {
    rows = Map.copyOf(rows);
  }
}
