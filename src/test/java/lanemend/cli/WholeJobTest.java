package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole path of data on a small invented county, through the commands a user types. */
class WholeJobTest {
  @TempDir static Path folder;
  private static Shell shell;
  private static Shell.Outcome ran;

  @BeforeAll
  static void runTheCounty() throws IOException {
    SampleCounty.write(folder.resolve("county"), SampleSize.withDefects(50), 11);
    shell = new Shell(folder.resolve("work"));
    ran = shell.run("run", folder.resolve("county").toString());
  }

  @Test
  void everyRowIsTakenAndThePlanBreaksNoLimit() {
    assertEquals(ExitCode.DONE, ran.code(), ran.err());
    assertTrue(ran.out().contains("defects         50 rows taken"), ran.out());
    assertTrue(ran.out().contains("nothing wrong"), ran.out());
    assertTrue(ran.out().contains("checked: no limit is broken"), ran.out());
  }

  @Test
  void eachCrewDayHasItsPageAndItsPaper() throws IOException {
    List<String> crewDays = Files.readAllLines(shell.work().resolve("exports/crew-days.csv"));
    try (Stream<Path> sheets = Files.list(shell.work().resolve("sheets"))) {
      List<String> names = sheets.map(p -> p.getFileName().toString()).toList();
      assertEquals(
          crewDays.size() - 1, names.stream().filter(n -> n.endsWith(".pdf")).count(), "papers");
      assertTrue(names.contains("index.html"));
    }
  }

  @Test
  void thePastRepairsAreStudiedToo() throws IOException {
    Shell.Outcome studied = shell.run("renew");
    assertEquals(ExitCode.DONE, studied.code(), studied.err());
    // Of this little county, with a flag or without: the index and the tables are there.
    assertTrue(studied.out().contains(" flagged, "), studied.out());
    for (String file : List.of("index.html", "flagged.csv", "flagged.geojson", "records.csv")) {
      assertTrue(Files.size(shell.work().resolve("renewal").resolve(file)) > 0, file);
    }
  }

  @Test
  void planningAgainWithTheSameSeedGivesTheSamePlan() throws IOException {
    // Given the stops of the first plan
    Path stops = shell.work().resolve("exports/stops.csv");
    String first = Files.readString(stops);
    // when the same store is planned again
    assertEquals(ExitCode.DONE, shell.run("plan").code());
    assertEquals(ExitCode.DONE, shell.run("export", "stops").code());
    // then nothing has moved, and the plan still passes the checker
    assertEquals(first, Files.readString(stops));
    assertEquals(ExitCode.DONE, shell.run("check").code());
  }

  @Test
  void whatIsExportedComesInAgainUnchanged() throws IOException {
    // Given every table of the county as the user would hand it on
    Shell again = new Shell(folder.resolve("again"));
    Path exports = shell.work().resolve("exports");
    // when another store is made from those files
    for (String step : List.of("roads", "posts", "attributes", "defects", "findings", "patches")) {
      Shell.Outcome in = again.run("import", step, exports.resolve(step + ".csv").toString());
      assertEquals(ExitCode.DONE, in.code(), in.err());
    }
    // then it exports the same defects, each at its milepost within the last digit written
    assertEquals(ExitCode.DONE, again.run("export", "defects").code());
    List<CSVRecord> before = rows(exports.resolve("defects.csv"));
    List<CSVRecord> after = rows(again.work().resolve("exports/defects.csv"));
    assertEquals(before.size(), after.size());
    for (int i = 0; i < before.size(); i++) {
      CSVRecord b = before.get(i);
      CSVRecord a = after.get(i);
      for (String column : ENTERED) {
        assertEquals(b.get(column), a.get(column), column + " of " + b.get("id"));
      }
      double apart = milepost(b.get("at_milepost")) - milepost(a.get("at_milepost"));
      assertEquals(0, apart, 0.0011, b.get("id"));
    }
  }

  private static final List<String> ENTERED =
      List.of(
          "id",
          "route",
          "direction",
          "milepost",
          "lane",
          "kind",
          "severity",
          "length_ft",
          "width_ft",
          "depth_in",
          "found_on",
          "found_by",
          "note",
          "status",
          "at_route");

  /** The number of a milepost that may be said to lie back or ahead of an equation. */
  private static double milepost(String written) {
    return Double.parseDouble(written.split(" ", 2)[0]);
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    try (CSVParser csv =
        CSVParser.parse(
            file,
            StandardCharsets.UTF_8,
            CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
      return csv.getRecords();
    }
  }

  @Test
  void everyNumberOfARepairIsExplained() throws IOException {
    String row = Files.readAllLines(folder.resolve("county/defects.csv")).get(1);
    String id = row.substring(0, row.indexOf(','));
    Shell.Outcome said = shell.run("explain", id);
    assertEquals(ExitCode.DONE, said.code(), said.err());
    long rules = said.out().lines().filter(l -> l.startsWith("  rule: ")).count();
    long sources = said.out().lines().filter(l -> l.startsWith("  source: ")).count();
    assertTrue(rules > 5, said.out());
    assertEquals(rules, sources);
  }
}
