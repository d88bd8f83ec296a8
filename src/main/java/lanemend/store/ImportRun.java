package lanemend.store;

import java.util.List;

/**
 * What one file gave when it was imported.
 *
 * @param kind what was imported, for instance {@code defects}
 * @param source the file, as the user named it
 * @param problems one sentence per row refused; {@code rowsSeen == rowsKept + rows refused}
 */
public record ImportRun(
    String kind, String source, long rowsSeen, long rowsKept, List<String> problems) {
  public ImportRun {
    problems = List.copyOf(problems);
  }
}
