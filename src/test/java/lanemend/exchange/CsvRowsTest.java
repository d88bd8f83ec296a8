package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CsvRowsTest {
  @TempDir Path folder;

  /** Rows as {@code line:a|b}, problems as {@code line!expected}. */
  private List<String> read(byte[] file) {
    Path path = SmallCounty.write(folder, "t.csv", file);
    List<String> seen = new ArrayList<>();
    new CsvRows(path)
        .forEach(
            row ->
                seen.add(
                    row.origin().line() + ":" + row.cells().get("a") + "|" + row.cells().get("b")),
            p -> seen.add(p.line() + "!" + p.expected()),
            note -> seen.add(note));
    return seen;
  }

  private List<String> read(String text) {
    return read(text.getBytes(StandardCharsets.UTF_8));
  }

  private RowProblem refused(byte[] file) {
    return assertThrows(ExchangeException.class, () -> read(file)).problem();
  }

  private RowProblem refused(String text) {
    return refused(text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void takesAnyLineEndingAByteOrderMarkAndAnyCaseOfTheHeader() {
    assertEquals(List.of("2:1|2", "3:3|4", "4:5|6"), read("\uFEFFA, b \r\n1,2\n3,4\r5,6"));
  }

  @Test
  void takesQuotedCommasDoubledQuotesAndLineBreaks() {
    assertEquals(
        List.of("2:x, \"y\"|z", "3:two\nlines|w", "5:5\" pipe|v"),
        read("a,b\n\"x, \"\"y\"\"\",z\n\"two\nlines\",w\n5\" pipe,v\n"));
  }

  @Test
  void aQuoteThatNeverClosesCostsItsOwnRowOnly() {
    assertEquals(
        List.of("2!quotes that open and close around a whole cell", "3:3|4", "4:5|6"),
        read("a,b\n\"1,2\n3,4\n5,6\n"));
  }

  @Test
  void aQuoteThatClosesInALaterRowCostsItsOwnRowOnly() {
    assertEquals(
        List.of("2!quotes that open and close around a whole cell", "3:3|4", "4:x|y, z"),
        read("a,b\n\"1,2\n3,4\nx,\"y, z\"\n"));
  }

  @Test
  void textAfterAClosingQuoteIsRefused() {
    assertEquals(
        List.of("2!quotes that open and close around a whole cell", "3:1|2"),
        read("a,b\n\"1\"x,2\n1,2\n"));
  }

  @Test
  void rowsWithMoreOrFewerColumnsThanTheHeaderAreRefused() {
    assertEquals(
        List.of("2!2 columns, as in the header", "3!2 columns, as in the header", "4:1|2"),
        read("a,b\n1,2,3\n1\n1,2\n"));
  }

  @Test
  void emptyRowsOfASpreadsheetArePassedOverAndSaid() {
    assertEquals(
        List.of("4:1|2", "t.csv: 2 rows hold nothing but commas and were passed over"),
        read("a,b\n,\n\n1,2\n , \n"));
  }

  @Test
  void aHeaderAloneGivesNoRows() {
    assertEquals(List.of(), read("a,b\n"));
  }

  @Test
  void anEmptyFileIsRefusedWhole() {
    assertEquals(
        "t.csv:1: found 'an empty file', expected a header row with the column names",
        refused("").text());
    assertEquals(1, refused("\n \n").line());
  }

  @Test
  void aHeaderThatIsNotOneIsRefusedWhole() {
    assertEquals("each column name once", refused("a,b,A\n1,2,3\n").expected());
    assertEquals("commas between the columns", refused("a;b\n1;2\n").expected());
    assertEquals(
        "text in UTF-8", refused(new byte[] {(byte) 0xFF, (byte) 0xFE, 'a', 0}).expected());
    assertTrue(refused("a,\"b\n1,2\n").expected().startsWith("a header row"));
    assertTrue(refused("a,b\u0000\n1,2\n").expected().startsWith("a header row"));
  }

  @Test
  void aFileThatIsNotThereIsSaidPlainly() {
    ExchangeException e =
        assertThrows(
            ExchangeException.class, () -> new CsvRows(folder.resolve("no.csv")).columns());
    assertEquals(
        "no.csv: found 'no such file', expected a file that can be read", e.problem().text());
  }

  @Test
  void aLineOfAHundredMegabytesIsRefusedWithoutHoldingIt() throws IOException {
    Path path = folder.resolve("long.csv");
    try (Writer out = Files.newBufferedWriter(path)) {
      out.write("a,b\n");
      char[] block = new char[1 << 20];
      java.util.Arrays.fill(block, 'x');
      for (int i = 0; i < 100; i++) {
        out.write(block);
      }
      out.write(",1\n3,4\n");
    }
    List<String> seen = new ArrayList<>();
    new CsvRows(path)
        .forEach(
            row -> seen.add(row.origin().line() + ":" + row.cells().get("a")),
            p -> seen.add(p.line() + "!" + p.expected() + p.found().length()),
            seen::add);
    assertEquals(List.of("2!a line of at most 8388608 characters123", "3:3"), seen);
  }

  @Test
  void whatASpreadsheetWouldRunIsGuardedAndGivenBack() {
    for (String text :
        List.of("=1+1", "+1", "-x", "@a", "'=1", "''x", "'plain", "plain", "'", "=", "")) {
      String guarded = TextGuard.guard(text);
      assertTrue(guarded.isEmpty() || "=+-@".indexOf(guarded.charAt(0)) < 0, guarded);
      assertEquals(text, TextGuard.restore(guarded));
    }
  }
}
