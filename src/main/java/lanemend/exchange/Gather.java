package lanemend.exchange;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Function;

/**
 * Runs a source through a row parser and keeps the books: every row ends as taken or as refused.
 */
final class Gather<T> {
  private final List<T> rows = new ArrayList<>();
  private final List<RowProblem> problems = new ArrayList<>();
  private final List<RowProblem> warnings = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private final Set<String> used = new LinkedHashSet<>();
  private final Set<String> present = new TreeSet<>();
  private long refusedOrTaken;

  /** Reads rows that give one object each. */
  void run(RowSource source, FieldMap map, Function<Cells, T> parse) {
    runEach(
        source,
        map,
        cells -> {
          T parsed = parse.apply(cells);
          if (cells.ok()) {
            take(parsed);
          } else {
            refuse(cells.problem());
          }
        });
  }

  /** Reads rows; {@code each} calls {@link #take}, {@link #refuse} or {@link #passOver}. */
  void runEach(RowSource source, FieldMap map, Consumer<Cells> each) {
    source.columns().ifPresent(present::addAll);
    source.forEach(
        row -> {
          present.addAll(row.cells().keySet());
          long before = refusedOrTaken;
          each.accept(new Cells(row, map, used));
          if (refusedOrTaken == before) {
            throw new IllegalStateException(row.origin().text() + " was neither taken nor refused");
          }
        },
        this::refuse,
        notes::add);
  }

  void take(T row) {
    rows.add(row);
    refusedOrTaken++;
  }

  void refuse(RowProblem problem) {
    problems.add(problem);
    refusedOrTaken++;
  }

  /** A row left out because the user asked for it; the caller says how many in a note. */
  void passOver() {
    refusedOrTaken++;
  }

  void warn(List<RowProblem> left) {
    warnings.addAll(left);
  }

  void note(String text) {
    notes.add(text);
  }

  /** What came of it; columns nobody asked for are named, since one may be a misspelt field. */
  Read<T> read(String file, Set<String> knownButUnread) {
    present.removeAll(used);
    present.removeAll(knownButUnread);
    present.remove("");
    if (!present.isEmpty()) {
      notes.add(file + ": columns not used: " + String.join(", ", firstOf(present)));
    }
    if (rows.isEmpty() && problems.isEmpty()) {
      notes.add(file + ": no rows");
    }
    return new Read<>(rows, problems, (long) rows.size() + problems.size(), warnings, notes);
  }

  private static List<String> firstOf(Set<String> names) {
    List<String> first = new ArrayList<>(names.stream().limit(30).toList());
    if (names.size() > first.size()) {
      first.add("and " + (names.size() - first.size()) + " more");
    }
    return first.stream().map(n -> n.length() > 60 ? n.substring(0, 60) + "..." : n).toList();
  }
}
