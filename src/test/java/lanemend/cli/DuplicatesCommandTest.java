package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import lanemend.store.LoggedChange;
import lanemend.store.Store;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Duplicates from the command line: offered at import, listed, settled. */
class DuplicatesCommandTest {
  private static final String COLUMNS =
      "id,route,milepost,lane,kind,severity,length_ft,width_ft,depth_in,found_on,found_by,photo\n";

  @TempDir Path folder;

  private Shell shell;
  private Shell.Outcome second;

  @BeforeEach
  void given() throws IOException {
    shell = new Shell(folder.resolve("work"));
    bring("roads", "route,class,wkt\nSR 1,arterial,\"LINESTRING(-100 40, -99.9 40)\"\n");
    bring(
        "defects",
        COLUMNS
            + "D-1,SR 1,1.000,R1,rutting,medium,60,8,2,2026-04-10,Patrol 1,a.jpg\n"
            + "D-2,SR 1,3.000,R1,rutting,low,60,8,2,2026-04-10,Patrol 1,\n");
    second =
        bring(
            "defects",
            COLUMNS
                + "D-3,SR 1,1.002,R1,rutting,high,66,8,2.5,2026-04-14,Patrol 2,b.jpg\n"
                + "D-4,SR 1,3.004,R1,rutting,low,55,8,2,2026-04-14,Patrol 2,\n"
                + "D-5,SR 1,4.000,R1,rutting,low,55,8,2,2026-04-14,Patrol 2,\n");
  }

  private Shell.Outcome bring(String kind, String text) throws IOException {
    Path file = Files.writeString(folder.resolve(kind + ".csv"), text);
    Shell.Outcome said = shell.run("import", kind, file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
    return said;
  }

  private String exported(String where) throws IOException {
    shell.run("export", "defects", "--where", where);
    return Files.readString(shell.work().resolve("exports").resolve("defects.csv"));
  }

  @Test
  void whatLooksTheSameIsOfferedAtImportAndListed() {
    assertTrue(second.out().contains("may be one defect seen twice: D-1  D-3"), second.out());
    assertTrue(second.out().contains("'duplicates merge D-2 D-4'"), second.out());
    assertFalse(second.out().contains("D-5"), second.out());
    Shell.Outcome said = shell.run("duplicates");
    assertEquals(ExitCode.DONE, said.code());
    assertTrue(said.out().contains("SR 1 1.000, lane R1: overlapping by"), said.out());
    assertTrue(said.out().contains("2 pairs proposed among 5 defects"), said.out());
  }

  @Test
  void mergingKeepsBothInTheLogAndTheWorstOfBoth() throws IOException {
    Shell.Outcome said = shell.run("duplicates", "merge", "D-1", "D-3");
    assertEquals("merged     D-3 into D-1", said.out().strip());
    String kept = exported("id = 'D-1'");
    assertTrue(kept.contains("rutting,high,"), kept);
    assertTrue(kept.contains("a.jpg; b.jpg"), kept);
    assertTrue(exported("id = 'D-3'").contains("duplicate of D-1,withdrawn"), kept);
    // Both rows as they were stand in the change log, in one edit
    try (Store store = Store.open(shell.work().resolve("lanemend.gpkg"))) {
      List<LoggedChange> log =
          store.read(s -> s.changesSince(0)).stream()
              .filter(c -> c.why() != null && c.why().startsWith("merge duplicates"))
              .toList();
      assertEquals(List.of("D-1", "D-3"), log.stream().map(LoggedChange::key).toList());
      assertEquals(1, log.stream().map(LoggedChange::edit).distinct().count());
      assertTrue(log.get(0).before().contains("\"medium\""), log.get(0).before());
    }
    assertEquals(ExitCode.DONE, shell.run("check").code(), shell.run("check").out());
    Shell.Outcome again = shell.run("duplicates", "merge", "D-1", "D-3");
    assertEquals("D-3 was merged into D-1 already", again.err().strip());
    assertEquals(ExitCode.NOTHING_DONE, again.code());
  }

  @Test
  void pairsSaidToBeTwoAreNotProposedAgain() {
    assertEquals(ExitCode.DONE, shell.run("duplicates", "apart", "D-3", "D-1").code());
    String listed = shell.run("duplicates").out();
    assertFalse(listed.contains("D-1"), listed);
    assertTrue(listed.contains("1 pairs proposed"), listed);
    Shell.Outcome said = shell.run("duplicates", "apart", "D-3", "D-9");
    assertEquals("there is no defect 'D-9'", said.err().strip());
  }

  @Test
  void allThatIsWellBelievedIsMergedAtOnce() {
    Shell.Outcome said = shell.run("duplicates", "merge", "--believed", "90");
    assertEquals(2, said.out().lines().filter(l -> l.startsWith("merged")).count(), said.out());
    assertEquals(
        ExitCode.NOTHING_DONE, shell.run("duplicates", "merge", "--believed", "90").code());
  }

  @Test
  void whatCannotBeOneIsRefused() {
    Shell.Outcome said = shell.run("duplicates", "merge", "D-1", "D-5");
    assertTrue(said.err().startsWith("D-1 and D-5 cannot be one"), said.err());
    assertEquals(ExitCode.NOTHING_DONE, shell.run("duplicates", "merge", "D-1").code());
  }
}
