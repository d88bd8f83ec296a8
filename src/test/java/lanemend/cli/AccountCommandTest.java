package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Set;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import lanemend.accounts.AuditEntry;
import lanemend.accounts.Role;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Second factors at the command line: demanded of roles, taken away from who lost the phone. */
class AccountCommandTest {
  @TempDir Path folder;

  @Test
  void rolesAreSaidToNeedASecondFactorAndOneIsTakenAway() {
    try (Accounts accounts = Accounts.open(folder)) {
      Accounts.Actor boss = new Accounts.Actor("boss", "");
      accounts.add("ann", Set.of(Role.ADMIN), "quiet river mango stapler", true, boss);
      accounts.add("ben", Set.of(Role.CREW), "quiet river mango stapler", true, boss);
    }
    Shell shell = new Shell(folder);
    Shell.Outcome demanded =
        shell.run("account", "second-factor", "--demand", "admin,engineer", "--who", "kim");
    assertEquals(ExitCode.DONE, demanded.code(), demanded.err());
    assertEquals(
        """
        A second factor has to be had by the roles engineer, admin.
        ann                      has to set it up at the next sign-in
        ben                      password only
        """,
        demanded.out());
    assertEquals(ExitCode.DONE, shell.run("account", "second-factor", "--reset", "ann").code());
    try (Accounts accounts = Accounts.open(folder)) {
      assertEquals(Account.Second.WANTED, accounts.find("ann").orElseThrow().second());
      assertEquals(AuditEntry.Act.SECOND_FACTOR_OFF, accounts.audit(9_999, 1).get(0).act());
      assertEquals("kim", accounts.audit(9_999, 2).get(1).who());
    }
    Shell.Outcome none = shell.run("account", "second-factor", "--demand", "none");
    assertTrue(none.out().startsWith("A second factor has to be had by no role."), none.out());
    Shell.Outcome wrong = shell.run("account", "second-factor", "--demand", "boss");
    assertEquals(ExitCode.NOTHING_DONE, wrong.code());
    assertTrue(wrong.err().contains("found the role 'boss', expected patrol"), wrong.err());
    Shell.Outcome nobody = shell.run("account", "second-factor", "--reset", "cy");
    assertTrue(nobody.err().contains("there is no account 'cy'"), nobody.err());
  }
}
