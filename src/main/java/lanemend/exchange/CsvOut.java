package lanemend.exchange;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * Writes CSV as RFC 4180 has it: UTF-8, CRLF, a header. Text cells are guarded against running as
 * formulas ({@link TextGuard}); numbers and dates are written as they are.
 */
final class CsvOut {
  private CsvOut() {}

  /** A writer's work, done on a file beside the target that takes its place at the end. */
  interface Body {
    void write(Writer out) throws IOException;
  }

  static void write(Path target, List<String> columns, List<? extends List<?>> rows) {
    replace(
        target,
        out -> {
          CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180);
          printer.printRecord(columns);
          for (List<?> row : rows) {
            List<Object> cells = new ArrayList<>(row.size());
            for (Object cell : row) {
              cells.add(cell instanceof String s ? TextGuard.guard(s) : text(cell));
            }
            printer.printRecord(cells);
          }
          printer.flush();
        });
  }

  /** Numbers in plain decimals, null as an empty cell. */
  static String text(Object cell) {
    if (cell instanceof Double d) {
      return Numbers.plain(d);
    }
    return cell == null ? "" : cell instanceof BigDecimal b ? b.toPlainString() : cell.toString();
  }

  /**
   * Replaces a file only once the new one is whole.
   *
   * @throws ExchangeException when it cannot be written
   */
  static void replace(Path target, Body body) {
    Path absolute = target.toAbsolutePath();
    Path beside = absolute.resolveSibling(RowSource.nameOf(absolute) + ".part");
    try {
      Path folder = absolute.getParent();
      if (folder != null) {
        Files.createDirectories(folder);
      }
      try (Writer out = Files.newBufferedWriter(beside, StandardCharsets.UTF_8)) {
        body.write(out);
      }
      Files.move(beside, absolute, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      throw new ExchangeException(
          new RowProblem(
              RowSource.nameOf(target),
              0,
              "",
              String.valueOf(e.getMessage()),
              "a file to write to"));
    }
  }
}
