package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import lanemend.store.Store;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a user meets who brings in files with mistakes. */
class RefusedImportTest {
  private static final String ROADS =
      """
      {"type":"FeatureCollection","features":[
      {"type":"Feature","properties":{"route":"SR 9","class":"arterial"},
       "geometry":{"type":"LineString","coordinates":[[-100.0,40.0],[-99.95,40.01],[-99.9,40.0]]}},
      {"type":"Feature","properties":{"route":"CR 2","class":"local"},
       "geometry":{"type":"LineString","coordinates":[[-99.95,40.01],[-99.95,40.06]]}}
      ]}
      """;
  private static final String HEADER =
      "id,route,milepost,lane,kind,severity,length_ft,width_ft,depth_in,found_on,found_by\n";
  private static final String GOOD =
      HEADER
          + "D-1,SR 9,1.25,R1,rutting,high,120,9,1.5,2026-03-02,North patrol\n"
          + "D-2,CR 2,0.5,L1,pothole,medium,3,2,3,2026-03-02,North patrol\n";

  @TempDir Path folder;
  private Shell shell;

  @BeforeEach
  void bringRoadsIn() throws IOException {
    shell = new Shell(folder.resolve("work"));
    assertEquals(ExitCode.DONE, shell.run("import", "roads", file("roads.geojson", ROADS)).code());
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  @Test
  void goodRowsComeInAndBadOnesAreNamed() throws IOException {
    // Given a file whose second row names a road that is not there and whose third has no number
    String text =
        GOOD
            + "D-3,SR 8,1.0,R1,rutting,high,120,9,1.5,2026-03-02,North patrol\n"
            + "D-4,SR 9,2.0,R1,rutting,high,wide,9,1.5,2026-03-02,North patrol\n";
    // when it is brought in
    Shell.Outcome in = shell.run("import", "defects", file("found.csv", text));
    // then the exit code says so, each bad row is told by line and field, and the good ones are in
    assertEquals(ExitCode.ROWS_REFUSED, in.code());
    assertTrue(in.err().contains("found.csv:4 route: found 'SR 8'"), in.err());
    assertTrue(in.err().contains("found.csv:5 length_ft: found 'wide'"), in.err());
    assertEquals(2, defects());
    List<String> listed = Files.readAllLines(shell.work().resolve("refused-rows.csv"));
    assertEquals("file,line,field,found,expected", listed.get(0));
    assertEquals(3, listed.size());
  }

  @Test
  void aFileThatCannotBeReadChangesNothing() throws IOException {
    shell.run("import", "defects", file("found.csv", GOOD));
    long before = edits();
    Shell.Outcome in =
        shell.run("import", "defects", file("other.csv", "colour,shape\nred,round\n"));
    assertEquals(ExitCode.NOTHING_DONE, in.code());
    assertTrue(in.err().contains("other.csv"), in.err());
    assertEquals(before, edits());
  }

  @Test
  void theSameFileTwiceDoesNotDoubleItsRows() throws IOException {
    shell.run("import", "defects", file("found.csv", GOOD));
    Shell.Outcome again = shell.run("import", "defects", folder.resolve("found.csv").toString());
    assertEquals(ExitCode.ROWS_REFUSED, again.code());
    assertEquals(2, defects());
  }

  @Test
  void mutatedFilesNeverShowAStackTraceOrLoseARow() throws IOException {
    // Given 400 files made from a good one by a seeded mutator (the readers' own test makes 10,000)
    SplittableRandom random = new SplittableRandom(20260302);
    for (int i = 0; i < 400; i++) {
      byte[] bytes = GOOD.replace("D-", "M" + i + "-").getBytes(StandardCharsets.UTF_8);
      int hits = 1 + random.nextInt(4);
      for (int k = 0; k < hits; k++) {
        bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
      }
      Path mutated = Files.write(folder.resolve("mutated.csv"), bytes);
      long rowsBefore = defects();
      long editsBefore = edits();
      // when each is brought in
      Shell.Outcome in = shell.run("import", "defects", mutated.toString());
      // then there is no stack trace, and the store grew by exactly the rows said, or not at all
      String said = in.out() + in.err();
      assertFalse(said.contains("\tat ") || said.contains("Exception"), said);
      if (in.code() == ExitCode.NOTHING_DONE) {
        assertEquals(editsBefore, edits(), said);
      } else {
        long taken = Long.parseLong(in.out().replaceAll("(?s)^defects\\s+(\\d+) rows.*", "$1"));
        assertEquals(rowsBefore + taken, defects(), said);
        assertEquals(in.code() == ExitCode.ROWS_REFUSED, said.contains("refused"), said);
      }
    }
  }

  private long defects() {
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      return store.read(s -> s.defects().count());
    }
  }

  private long edits() {
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      return store.read(s -> (long) s.changesSince(0).size() + s.imports().size());
    }
  }
}
