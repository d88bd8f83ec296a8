package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;
import lanemend.accounts.SignIn;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Accounts go with the store into a backup, and come back by it. */
class BackupAccountsTest {
  private static final String PASSWORD = "quiet river mango stapler";
  private static final Accounts.Actor BOSS = new Accounts.Actor("boss", "");

  @TempDir Path folder;
  private Shell shell;
  private Path copy;

  @BeforeEach
  void aCountyWithAnAccount() throws Exception {
    Path roads = folder.resolve("roads.geojson");
    Files.writeString(
        roads,
        """
        {"type": "FeatureCollection", "features": [{"type": "Feature",
          "properties": {"route": "SR 1", "class": "collector"},
          "geometry": {"type": "LineString",
            "coordinates": [[-93.20, 41.50], [-93.15, 41.51]]}}]}
        """);
    shell = new Shell(folder.resolve("work"));
    assertEquals(ExitCode.DONE, shell.run("import", "roads", roads.toString()).code());
    try (Accounts accounts = Accounts.open(shell.work())) {
      accounts.add("ann", Set.of(Role.PLANNER), PASSWORD, true, BOSS);
    }
    copy = folder.resolve("elsewhere/copy.gpkg");
  }

  private Path accountsCopy() {
    return copy.resolveSibling("copy.accounts.db");
  }

  private List<String> names() {
    try (Accounts accounts = Accounts.open(shell.work())) {
      return accounts.all().stream().map(Account::name).toList();
    }
  }

  private void remove(String name) {
    try (Accounts accounts = Accounts.open(shell.work())) {
      accounts.remove(name, BOSS);
    }
  }

  private static String mode(Path file) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(file));
  }

  @Test
  void theCopyIsMadeWhileTheDeskHasThemOpenAndIsForItsOwnerOnly() throws Exception {
    // Given an account added by a desk that goes on: it is in the log beside the file only
    try (Accounts desk = Accounts.open(shell.work())) {
      desk.add("ben", Set.of(Role.CREW), PASSWORD, true, BOSS);
      Shell.Outcome made = shell.run("backup", "--to", copy.toString());
      assertEquals(ExitCode.DONE, made.code(), made.err());
      assertTrue(
          made.out().contains("accounts   " + accountsCopy() + ": 2 accounts, 2 audit lines"),
          made.out());
    }
    assertEquals("rw-------", mode(accountsCopy()));
    try (Stream<Path> files = Files.list(copy.getParent())) {
      assertEquals(2, files.count(), "each copy is one file that needs nothing beside it");
    }
  }

  @Test
  void anEmptyFolderGetsThemBackAndThePasswordIsTaken() throws Exception {
    shell.run("backup", "--to", copy.toString());
    Shell elsewhere = new Shell(folder.resolve("new machine"));
    Shell.Outcome back = elsewhere.run("restore", copy.toString());
    assertEquals(ExitCode.DONE, back.code(), back.err());
    assertTrue(back.out().contains("accounts   1 put back from " + accountsCopy()), back.out());
    assertEquals("rw-------", mode(elsewhere.work().resolve(Accounts.FILE)));
    try (Accounts accounts = Accounts.open(elsewhere.work())) {
      assertTrue(
          new SignIn(accounts).attempt("ann", PASSWORD, "", "10.0.0.9").account().isPresent(),
          "the password is the one of before");
      AuditEntry restored = accounts.audit(Long.MAX_VALUE, 2).get(1);
      assertEquals(AuditEntry.Act.ACCOUNTS_RESTORED, restored.act());
    }
  }

  @Test
  void whoWasRemovedSinceComesBackOnlyWhenThatIsAskedFor() throws Exception {
    shell.run("backup", "--to", copy.toString());
    remove("ann");
    Shell.Outcome store = shell.run("restore", "--replace", copy.toString());
    assertEquals(ExitCode.DONE, store.code(), store.err());
    assertTrue(store.out().contains("the accounts of this folder stay as they are"), store.out());
    assertEquals(List.of(), names());
    Shell.Outcome both = shell.run("restore", "--replace", "--accounts", copy.toString());
    assertEquals(ExitCode.DONE, both.code(), both.err());
    assertEquals(List.of("ann"), names());
    // The file that was there, with the removal in its audit list, is kept.
    try (Stream<Path> files = Files.list(shell.work())) {
      List<Path> aside =
          files.filter(f -> f.getFileName().toString().startsWith("accounts-replaced-")).toList();
      assertEquals(1, aside.size());
      assertEquals("rw-------", mode(aside.get(0)));
    }
  }

  @Test
  void aDeskThatRunsKeepsItsAccountsAndItsStore() {
    shell.run("backup", "--to", copy.toString());
    byte[] before = bytes(shell.work().resolve("lanemend.gpkg"));
    try (Accounts desk = Accounts.open(shell.work())) {
      desk.note("ann", "", AuditEntry.Act.SIGNED_OUT, "");
      Shell.Outcome refused = shell.run("restore", "--replace", "--accounts", copy.toString());
      assertEquals(ExitCode.NOTHING_DONE, refused.code(), refused.out());
      assertTrue(refused.err().contains("accounts.db is open in another program"), refused.err());
    }
    org.junit.jupiter.api.Assertions.assertArrayEquals(
        before, bytes(shell.work().resolve("lanemend.gpkg")));
  }

  private static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Test
  void aBackupOfBeforeWithoutAccountsStillRestoresAndSaysSo() throws Exception {
    shell.run("backup", "--to", copy.toString());
    Files.delete(accountsCopy());
    Shell elsewhere = new Shell(folder.resolve("new machine"));
    Shell.Outcome back = elsewhere.run("restore", copy.toString());
    assertEquals(ExitCode.DONE, back.code(), back.err());
    assertTrue(back.out().contains("note: the copy has no accounts"), back.out());
    Shell.Outcome tried = shell.run("restore", "--try", copy.toString());
    assertTrue(tried.out().contains("note: the copy has no accounts"), tried.out());
    Shell.Outcome asked = shell.run("restore", "--replace", "--accounts", copy.toString());
    assertEquals(ExitCode.NOTHING_DONE, asked.code());
    assertTrue(asked.err().contains("the copy has no accounts: there is no"), asked.err());
  }

  @Test
  void theDrillFindsADamagedCopyOfTheAccounts() throws Exception {
    shell.run("backup", "--to", copy.toString());
    Shell.Outcome good = shell.run("restore", "--try", copy.toString());
    assertEquals(ExitCode.DONE, good.code(), good.err());
    assertTrue(good.out().contains("accounts   1 could be put back"), good.out());
    byte[] bytes = bytes(accountsCopy());
    java.util.Arrays.fill(bytes, 4096, bytes.length, (byte) 0x5a);
    Files.write(accountsCopy(), bytes);
    Shell.Outcome bad = shell.run("restore", "--try", copy.toString());
    assertEquals(ExitCode.NOTHING_DONE, bad.code(), bad.out());
    // And where it would be put back, the store is not touched either.
    Shell elsewhere = new Shell(folder.resolve("new machine"));
    Shell.Outcome refused = elsewhere.run("restore", copy.toString());
    assertEquals(ExitCode.NOTHING_DONE, refused.code(), refused.out());
    assertTrue(refused.err().contains("move it elsewhere to go on without it"), refused.err());
    assertFalse(Files.exists(elsewhere.work().resolve("lanemend.gpkg")));
  }

  @Test
  void oldCopiesGoWithTheirAccounts() throws Exception {
    Path copies = Files.createDirectories(shell.work().resolve("backups"));
    for (String day : List.of("20260101", "20260102")) {
      Files.writeString(copies.resolve("lanemend-" + day + "T020000Z.gpkg"), "old");
      Files.writeString(copies.resolve("lanemend-" + day + "T020000Z.accounts.db"), "old");
    }
    Shell.Outcome made = shell.run("backup", "--keep", "2");
    assertEquals(ExitCode.DONE, made.code(), made.err());
    try (Stream<Path> files = Files.list(copies)) {
      List<String> left = files.map(f -> f.getFileName().toString()).sorted().toList();
      assertEquals(4, left.size(), left.toString());
      assertTrue(left.contains("lanemend-20260102T020000Z.accounts.db"), left.toString());
      assertFalse(left.contains("lanemend-20260101T020000Z.accounts.db"), left.toString());
    }
  }
}
