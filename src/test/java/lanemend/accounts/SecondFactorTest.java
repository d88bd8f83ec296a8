package lanemend.accounts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A code beside the password: good once, guessed slowly, and a way back when the phone is lost. */
class SecondFactorTest {
  private static final String GOOD = "quiet river mango stapler";
  private static final Accounts.Actor BOSS = new Accounts.Actor("boss", "");
  private static final String HERE = "10.0.0.1";

  @TempDir Path folder;
  private Instant now = Instant.parse("2026-04-01T08:00:00Z");
  private Accounts accounts;
  private SignIn signIn;
  private String key;
  private List<String> recovery;

  @BeforeEach
  void annHasASecondFactor() {
    accounts =
        Accounts.open(
            folder,
            new Clock() {
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
            });
    signIn = new SignIn(accounts);
    accounts.add("ann", Set.of(Role.PLANNER), GOOD, true, BOSS);
    key = OneTimeCode.newKey();
    recovery = accounts.turnSecondOn("ann", key, code(), BOSS).recovery();
    pass(Duration.ofSeconds(30));
  }

  @AfterEach
  void close() {
    accounts.close();
  }

  private void pass(Duration time) {
    now = now.plus(time);
  }

  private String code() {
    return OneTimeCode.at(key, now);
  }

  private String wrong() {
    // Differs in the first digit from what is good now; the neighbours are other numbers again.
    String code = code();
    String other = (char) ('0' + (code.charAt(0) - '0' + 5) % 10) + code.substring(1);
    return OneTimeCode.step(key, other, now).isEmpty() ? other : "000000";
  }

  private boolean in(String password, String code) {
    return signIn.attempt("ann", password, code, HERE).account().isPresent();
  }

  @Test
  void passwordAndCodeTogetherSignIn() {
    assertTrue(in(GOOD, code()));
    pass(Duration.ofMinutes(1));
    assertFalse(in(GOOD, wrong()));
    SignIn.Outcome none = signIn.attempt("ann", GOOD, "", HERE);
    assertTrue(none.account().isEmpty() && none.codeWanted());
    assertFalse(
        signIn.attempt("ann", "another password", code(), HERE).codeWanted(),
        "who has not the password is not told that there is a second factor");
  }

  @Test
  void theSameCodeIsNotTakenTwiceNorOneFromBefore() {
    String code = code();
    String before = OneTimeCode.at(key, now.minusSeconds(30));
    assertTrue(in(GOOD, code));
    assertFalse(in(GOOD, code), "the same code again, still of this step");
    assertFalse(in(GOOD, before), "the code of the step before, after a later one was used");
    pass(Duration.ofSeconds(30));
    assertFalse(in(GOOD, code), "the same code, within the tolerance");
    assertTrue(in(GOOD, code()));
  }

  @Test
  void theCodeThatProvedThePhoneIsUsedUp() {
    Instant at = now.minusSeconds(30);
    assertFalse(in(GOOD, OneTimeCode.at(key, at)));
  }

  @Test
  void codesAreGuessedAsSlowlyAsPasswordsAndAKnownPasswordDoesNotPay() {
    for (int i = 0; i < SignIn.FREE_BY_ACCOUNT - 1; i++) {
      assertEquals(Duration.ZERO, signIn.attempt("ann", GOOD, wrong(), "10.0.1." + i).waitFor());
      // The password alone in between does not begin the count anew, nor does confirming it.
      signIn.attempt("ann", GOOD, "", "10.0.1." + i);
      assertTrue(signIn.confirm("ann", GOOD, "10.0.1." + i).account().isPresent());
    }
    Duration wait = signIn.attempt("ann", GOOD, wrong(), "10.0.2.1").waitFor();
    assertEquals(SignIn.FIRST_WAIT, wait);
    assertFalse(in(GOOD, code()), "not looked at during the wait");
    pass(wait);
    assertEquals(
        SignIn.FIRST_WAIT.multipliedBy(2),
        signIn.attempt("ann", GOOD, wrong(), "10.0.2.2").waitFor());
  }

  @Test
  void aRecoveryCodeIsGoodOnceAndIsKeptHashedOnly() throws Exception {
    assertEquals(10, recovery.size());
    String one = recovery.get(3);
    assertTrue(in(GOOD, one.toLowerCase(java.util.Locale.ROOT).replace("-", " ")));
    assertFalse(in(GOOD, one));
    assertEquals(9, accounts.recoveryLeft("ann"));
    assertTrue(in(GOOD, recovery.get(4)));
    assertTrue(
        accounts.audit(Long.MAX_VALUE, 9).stream()
            .anyMatch(e -> e.act() == AuditEntry.Act.RECOVERY_CODE_USED));
    StringBuilder bytes = new StringBuilder();
    for (String part : List.of("", "-wal")) {
      Path file = folder.resolve(Accounts.FILE + part);
      bytes.append(new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1));
    }
    for (String code : recovery) {
      assertFalse(
          bytes.toString().contains(code) || bytes.toString().contains(code.replace("-", "")));
    }
  }

  @Test
  void aKeyThatThePhoneDoesNotHaveIsNotPutInForce() {
    accounts.add("ben", Set.of(Role.CREW), GOOD, true, BOSS);
    AccountException refused =
        assertThrows(
            AccountException.class,
            () -> accounts.turnSecondOn("ben", OneTimeCode.newKey(), code(), BOSS));
    assertTrue(refused.getMessage().contains("phone's clock"), refused.getMessage());
    assertEquals(Account.Second.NONE, accounts.find("ben").orElseThrow().second());
  }

  @Test
  void anotherPhoneMakesTheOldOneAndTheOldRecoveryCodesWorthless() {
    String old = key;
    key = OneTimeCode.newKey();
    accounts.turnSecondOn("ann", key, code(), BOSS);
    pass(Duration.ofSeconds(30));
    assertFalse(in(GOOD, OneTimeCode.at(old, now)));
    assertFalse(in(GOOD, recovery.get(0)));
    assertTrue(in(GOOD, code()));
  }

  @Test
  void aRoleMayDemandItAndTheAdminAtTheComputerTakesItAway() {
    accounts.demandSecond(Set.of(Role.PLANNER, Role.ADMIN), BOSS);
    accounts.add("cy", Set.of(Role.CREW, Role.PLANNER), GOOD, true, BOSS);
    accounts.add("dee", Set.of(Role.CREW), GOOD, true, BOSS);
    assertEquals(Account.Second.WANTED, accounts.find("cy").orElseThrow().second());
    assertEquals(Account.Second.NONE, accounts.find("dee").orElseThrow().second());
    assertEquals(Account.Second.ON, accounts.find("ann").orElseThrow().second());
    long epoch = accounts.find("ann").orElseThrow().epoch();
    Account reset = accounts.turnSecondOff("ann", BOSS);
    assertEquals(Account.Second.WANTED, reset.second());
    assertEquals(epoch + 1, reset.epoch(), "its sessions end");
    assertEquals(0, accounts.recoveryLeft("ann"));
  }

  @Test
  void aFileOfBeforeSecondFactorsIsOpenedAndItsPasswordsHold() throws Exception {
    // Given a file as layout 1 had it
    Path older = Files.createDirectories(folder.resolve("older"));
    try (Accounts made = Accounts.open(older)) {
      made.add("old hand", Set.of(Role.CREW), GOOD, true, BOSS);
    }
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + older.resolve(Accounts.FILE));
        Statement s = c.createStatement()) {
      for (String sql :
          List.of(
              "ALTER TABLE account DROP COLUMN second_key",
              "ALTER TABLE account DROP COLUMN second_step",
              "DROP TABLE recovery",
              "DROP TABLE second_demanded",
              "PRAGMA user_version = 1")) {
        s.execute(sql);
      }
    }
    try (Accounts opened = Accounts.open(older)) {
      assertTrue(new SignIn(opened).attempt("old hand", GOOD, "", HERE).account().isPresent());
      assertEquals(Account.Second.NONE, opened.find("old hand").orElseThrow().second());
    }
  }
}
