package lanemend.accounts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Accounts in their file, and the waits after wrong passwords. */
class AccountsTest {
  private static final String GOOD = "quiet river mango stapler";
  private static final Accounts.Actor BOSS = new Accounts.Actor("boss", "");

  @TempDir Path folder;
  private final Hand clock = new Hand();
  private Accounts accounts;

  /** A clock that is moved by hand. */
  private static final class Hand extends Clock {
    private Instant now = Instant.parse("2026-04-01T08:00:00Z");

    void move(Duration by) {
      now = now.plus(by);
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      return this;
    }

    @Override
    public Instant instant() {
      return now;
    }
  }

  @BeforeEach
  void open() {
    accounts = Accounts.open(folder, clock);
  }

  @AfterEach
  void close() {
    accounts.close();
  }

  @Test
  void aPasswordIsKeptAsArgon2idAndOnlyTheOwnerCanReadTheFile() throws Exception {
    accounts.add("Ann Lee", Set.of(Role.PLANNER), GOOD, true, BOSS);
    List<Path> files;
    try (Stream<Path> there = Files.list(folder)) {
      files = there.toList();
    }
    for (Path file : files) {
      assertEquals(
          "rw-------",
          PosixFilePermissions.toString(Files.getPosixFilePermissions(file)),
          "" + file);
      String text = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
      assertFalse(text.contains(GOOD), file.toString());
    }
    // The text form of the reference implementation: variant, version, memory, passes, lanes.
    String hash = PasswordHashes.hash(GOOD);
    assertTrue(hash.startsWith("$argon2id$v=19$m=19456,t=2,p=1$"), hash);
  }

  /**
   * By the reference implementation's own test: {@code hashtest(version, 2, 16, 1, "password",
   * "somesalt", ..., Argon2_id)} of phc-winner-argon2's {@code test.c}.
   */
  @Test
  void hashesOfTheReferenceImplementationAreRead() {
    String reference =
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    assertTrue(PasswordHashes.matches("password", reference));
    assertFalse(PasswordHashes.matches("passwore", reference));
  }

  @Test
  void aRightPasswordIsTakenWhateverTheNamesCaseAndNothingElseIs() {
    accounts.add("Ann Lee", Set.of(Role.PLANNER), GOOD, true, BOSS);
    assertEquals("Ann Lee", accounts.check("ann lee", GOOD).orElseThrow().name());
    assertTrue(accounts.check("Ann Lee", GOOD + " ").isEmpty());
    assertTrue(accounts.check("Ann", GOOD).isEmpty());
    assertTrue(accounts.check("' OR 1=1 --", GOOD).isEmpty());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "short one",
        "password1234",
        "passwordpassword",
        "123456789012",
        "aaaaaaaaaaaaaaaa",
        "lanemend county",
        "qwertyuiopas",
        "ann lee ann lee"
      })
  void aPasswordThatIsSoonGuessedIsNotTaken(String password) {
    assertThrows(
        AccountException.class,
        () -> accounts.add("Ann Lee", Set.of(Role.CREW), password, true, BOSS));
    assertTrue(accounts.all().isEmpty());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {GOOD, "Grüße vom Bauhof 7", "zq7!mR2x#Lw9", "  blanks are kept as well  "})
  void anyOtherPasswordIsTakenAsItIsTyped(String password) {
    accounts.add("Ann Lee", Set.of(Role.CREW), password, true, BOSS);
    assertTrue(accounts.check("Ann Lee", password).isPresent());
    assertTrue(accounts.check("Ann Lee", password.strip() + "x").isEmpty());
  }

  @ParameterizedTest
  @ValueSource(strings = {"=cmd|' /C calc'!A0", "+1", "@sum", "a", " ", "<b>Ann</b>", "Ann\nLee"})
  void aNameThatWouldDoHarmInATableIsNotTaken(String name) {
    assertThrows(
        AccountException.class, () -> accounts.add(name, Set.of(Role.CREW), GOOD, true, BOSS));
  }

  @Test
  void aNameIsNeverGivenToAnotherOnce() {
    accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS);
    accounts.remove("Ann Lee", BOSS);
    assertTrue(accounts.check("Ann Lee", GOOD).isEmpty());
    AccountException e =
        assertThrows(
            AccountException.class,
            () -> accounts.add("ann lee", Set.of(Role.ADMIN), GOOD, true, BOSS));
    assertTrue(e.getMessage().contains("logs"), e.getMessage());
  }

  @Test
  void aFirstPasswordSetBySomebodyElseLastsTwoWeeks() {
    accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, false, BOSS);
    clock.move(Accounts.FIRST_PASSWORD_LASTS);
    assertTrue(accounts.check("Ann Lee", GOOD).orElseThrow().firstPassword());
    clock.move(Duration.ofSeconds(1));
    assertThrows(AccountException.class, () -> accounts.check("Ann Lee", GOOD));
    assertTrue(accounts.check("Ann Lee", "wrong").isEmpty());
  }

  @Test
  void whatEndsSessionsMovesTheEpochOn() {
    long first = accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS).epoch();
    long roles = accounts.setRoles("Ann Lee", Set.of(Role.PATROL), BOSS).epoch();
    long password = accounts.changeOwn("Ann Lee", GOOD, GOOD + " two", "127.0.0.1").epoch();
    accounts.endSessions("Ann Lee", BOSS);
    long everywhere = accounts.find("Ann Lee").orElseThrow().epoch();
    assertTrue(first < roles && roles < password && password < everywhere);
  }

  @Test
  void theAuditListIsOnlyAddedTo() throws Exception {
    accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS);
    accounts.note("x\r\nforged line", "10.0.0.1", AuditEntry.Act.SIGN_IN_REFUSED, "y".repeat(999));
    var lines = accounts.audit(Long.MAX_VALUE, 10);
    assertEquals(2, lines.size());
    assertEquals("x  forged line", lines.get(0).who());
    assertEquals(300, lines.get(0).about().length());
    assertEquals("Ann Lee: crew", lines.get(1).about());
    try (var connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("accounts.db"));
        Statement s = connection.createStatement()) {
      assertThrows(SQLException.class, () -> s.execute("DELETE FROM audit"));
      assertThrows(SQLException.class, () -> s.execute("UPDATE audit SET who = 'nobody'"));
    }
  }

  @Test
  void twoProgramsSeeOneAnothersAccounts() {
    try (Accounts other = Accounts.open(folder, clock)) {
      other.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS);
      assertTrue(accounts.find("Ann Lee").isPresent());
      accounts.remove("Ann Lee", BOSS);
      assertTrue(other.find("Ann Lee").isEmpty());
    }
  }

  @Test
  void afterFiveWrongPasswordsForAnAccountEachNextHasToWaitTwiceAsLong() {
    accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS);
    SignIn signIn = new SignIn(accounts);
    // Attempts come from as many addresses as there are
    for (int i = 0; i < SignIn.FREE_BY_ACCOUNT - 1; i++) {
      assertEquals(Duration.ZERO, signIn.attempt("Ann Lee", "guess", "", "10.0.0." + i).waitFor());
    }
    Duration wait = signIn.attempt("ANN LEE", "guess", "", "10.0.1.1").waitFor();
    assertEquals(SignIn.FIRST_WAIT, wait);
    // during the wait not even the right one is looked at
    assertTrue(signIn.attempt("Ann Lee", GOOD, "", "10.0.1.2").account().isEmpty());
    for (int i = 0; i < 12; i++) {
      clock.move(wait);
      Duration next = signIn.attempt("Ann Lee", "guess", "", "10.0.2." + i).waitFor();
      assertTrue(
          next.equals(wait.multipliedBy(2)) || next.equals(SignIn.LONGEST_WAIT), next.toString());
      wait = next;
    }
    assertEquals(SignIn.LONGEST_WAIT, wait);
    clock.move(wait);
    assertTrue(signIn.attempt("Ann Lee", GOOD, "", "10.0.3.1").account().isPresent());
    // and the count begins anew
    assertEquals(Duration.ZERO, signIn.attempt("Ann Lee", "guess", "", "10.0.3.1").waitFor());
  }

  @Test
  void anAddressThatTriesManyNamesHasToWaitAndAPasswordOfItsOwnDoesNotHelp() {
    accounts.add("Ann Lee", Set.of(Role.CREW), GOOD, true, BOSS);
    SignIn signIn = new SignIn(accounts);
    Duration wait = Duration.ZERO;
    for (int i = 0; i < SignIn.FREE_BY_ADDRESS && wait.isZero(); i++) {
      wait = signIn.attempt("name " + i, "guess", "", "10.0.0.1").waitFor();
      assertTrue(i == SignIn.FREE_BY_ADDRESS - 1 || wait.isZero());
      if (wait.isZero()) {
        assertTrue(signIn.attempt("Ann Lee", GOOD, "", "10.0.0.1").account().isPresent());
      }
    }
    assertEquals(SignIn.FIRST_WAIT, wait);
    assertTrue(signIn.attempt("Ann Lee", GOOD, "", "10.0.0.2").account().isPresent());
  }
}
