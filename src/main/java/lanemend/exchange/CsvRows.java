package lanemend.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * CSV as rows: UTF-8, header, commas, RFC 4180 quotes. A row with a quote that never closes costs
 * that row only: records are put together here line by line and each is parsed on its own, so
 * reading goes on at the next line.
 */
final class CsvRows implements RowSource {
  /** A quoted cell may run over this many lines. */
  private static final int MAX_RECORD_LINES = 100;

  private static final int MAX_COLUMNS = 1_000;
  private static final CSVFormat FORMAT = CSVFormat.RFC4180;

  private final Path file;
  private final String name;

  CsvRows(Path file) {
    this.file = file;
    this.name = RowSource.nameOf(file);
  }

  @Override
  public Optional<List<String>> columns() {
    try (BoundedLines lines = new BoundedLines(file)) {
      return Optional.of(header(lines));
    } catch (IOException e) {
      throw unreadable(name, e);
    }
  }

  @Override
  public void read(Sink sink) {
    try (BoundedLines lines = new BoundedLines(file)) {
      List<String> header = header(lines);
      long empty = 0;
      BoundedLines.Line line;
      while ((line = lines.next()) != null) {
        if (isEmpty(line)) {
          empty += line.text().isBlank() ? 0 : 1;
        } else {
          record(line, lines, header, sink);
        }
      }
      if (empty > 0) {
        sink.note(name + ": " + empty + " rows hold nothing but commas and were passed over");
      }
    } catch (IOException e) {
      throw unreadable(name, e);
    }
  }

  static ExchangeException unreadable(String name, IOException e) {
    String why =
        e instanceof java.nio.file.NoSuchFileException
            ? "no such file"
            : e instanceof java.nio.file.AccessDeniedException
                ? "no permission to read it"
                : String.valueOf(e.getMessage());
    return new ExchangeException(new RowProblem(name, 0, "", why, "a file that can be read"));
  }

  private List<String> header(BoundedLines lines) throws IOException {
    BoundedLines.Line line = lines.next();
    while (line != null && !line.tooLong() && line.text().isBlank()) {
      line = lines.next();
    }
    if (line == null) {
      throw whole(1, "an empty file", "a header row with the column names");
    }
    String fault = line.tooLong() ? "a line too long" : Cells.textFault(line.text());
    List<String> cells = fault.isEmpty() ? parse(line.text()) : null;
    if (cells == null || cells.size() > MAX_COLUMNS) {
      throw whole(
          line.number(),
          line.text(),
          "a header row of at most " + MAX_COLUMNS + " column names in UTF-8, with commas between");
    }
    List<String> names = cells.stream().map(c -> c.strip().toLowerCase(Locale.ROOT)).toList();
    if (names.size() == 1 && (names.get(0).contains(";") || names.get(0).contains("\t"))) {
      throw whole(line.number(), line.text(), "commas between the columns");
    }
    Set<String> seen = new HashSet<>();
    for (String column : names) {
      if (!column.isEmpty() && !seen.add(column)) {
        throw whole(line.number(), column, "each column name once");
      }
    }
    return names;
  }

  private void record(BoundedLines.Line first, BoundedLines lines, List<String> header, Sink sink)
      throws IOException {
    RowOrigin origin = new RowOrigin(name, first.number(), 0);
    if (first.tooLong()) {
      sink.refuse(
          origin.problem(
              "", first.text(), "a line of at most " + BoundedLines.MAX_CHARS + " characters"));
      return;
    }
    StringBuilder text = new StringBuilder(first.text());
    Deque<BoundedLines.Line> joined = new ArrayDeque<>();
    Quotes quotes = new Quotes();
    quotes.scan(first.text());
    while (quotes.open
        && joined.size() < MAX_RECORD_LINES
        && text.length() < BoundedLines.MAX_CHARS) {
      BoundedLines.Line next = lines.next();
      if (next == null) {
        break;
      }
      joined.push(next);
      if (next.tooLong()) {
        break;
      }
      text.append('\n').append(next.text());
      quotes.scan(next.text());
    }
    List<String> cells = quotes.open ? null : parse(text.toString());
    if (cells != null && cells.size() == header.size()) {
      take(origin, header, cells, sink);
      return;
    }
    while (!joined.isEmpty()) {
      lines.pushBack(joined.pop());
    }
    sink.refuse(
        cells == null
            ? origin.problem("", first.text(), "quotes that open and close around a whole cell")
            : origin.problem(
                "", cells.size() + " columns", header.size() + " columns, as in the header"));
  }

  private static void take(RowOrigin origin, List<String> header, List<String> cells, Sink sink) {
    Map<String, String> byName = new HashMap<>();
    for (int i = 0; i < header.size(); i++) {
      String cell = cells.get(i);
      if (!header.get(i).isEmpty()) {
        byName.put(header.get(i), TextGuard.restore(cell));
      } else if (!cell.isBlank()) {
        sink.refuse(origin.problem("", cell, "no value in a column without a name"));
        return;
      }
    }
    sink.row(new Row(origin, byName, null, "", ""));
  }

  private static boolean isEmpty(BoundedLines.Line line) {
    return !line.tooLong() && line.text().chars().allMatch(c -> c == ',' || c == ' ');
  }

  /** The cells of one record, or null when its quotes are wrong. */
  private static List<String> parse(String text) {
    try (CSVParser parser = CSVParser.parse(text, FORMAT)) {
      List<String> cells = new ArrayList<>();
      int records = 0;
      for (CSVRecord r : parser) {
        records++;
        cells.addAll(Arrays.asList(r.values()));
      }
      return records == 1 ? cells : null;
    } catch (IOException | java.io.UncheckedIOException | IllegalStateException e) {
      return null;
    }
  }

  private ExchangeException whole(long line, String found, String expected) {
    return new ExchangeException(new RowProblem(name, line, "", found, expected));
  }

  /**
   * Tells whether a record goes on in the next line, by the rule that a cell's first sign opens.
   */
  private static final class Quotes {
    private boolean open;

    void scan(String line) {
      boolean cellStart = !open;
      for (int i = 0; i < line.length(); i++) {
        char c = line.charAt(i);
        if (open) {
          open = c != '"';
          // A doubled quote stands for one and leaves the cell open.
          if (!open && i + 1 < line.length() && line.charAt(i + 1) == '"') {
            open = true;
            i++;
          }
        } else if (c == '"' && cellStart) {
          open = true;
        }
        cellStart = c == ',' && !open;
      }
    }
  }
}
