package lanemend.cli;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import lanemend.accounts.Account;
import lanemend.accounts.Accounts;
import lanemend.accounts.Role;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code account}: who may sign in at the desk. */
@Command(
    name = "account",
    description = {
      "Accounts of those who sign in at the desk: add, list, change, remove.",
      "",
      "Roles: patrol records what is found; planner says what is repaired when; crew records what"
          + " is done; engineer decides on resurfacing; admin looks after accounts. An account may"
          + " have several.",
      "",
      "Accounts lie in accounts.db of the work folder, apart from the county's GeoPackage, which can"
          + " be given away without them. Passwords are asked for, or read as a line of standard"
          + " input."
    },
    subcommands = {
      AccountCommand.Add.class,
      AccountCommand.ListThem.class,
      AccountCommand.Change.class,
      AccountCommand.Remove.class,
      AccountCommand.Second.class
    })
final class AccountCommand {
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

  private static final String ROLES = "patrol, planner, crew, engineer or admin; several by commas";

  private static final Map<Account.Second, String> SECOND =
      Map.of(
          Account.Second.NONE, "password only",
          Account.Second.WANTED, "has to set it up at the next sign-in",
          Account.Second.ON, "second factor");

  private AccountCommand() {}

  /** What the acts share. */
  private abstract static class Act implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Override
    public Integer call() {
      work.folderOf("");
      String said;
      prepare();
      try (Accounts accounts = Accounts.open(work.folder())) {
        said = act(accounts, new Accounts.Actor(work.who(), ""));
      }
      spec.commandLine().getOut().println(said);
      return ExitCode.DONE;
    }

    /** Asks for what is still wanted, before the file is opened. */
    void prepare() {}

    abstract String act(Accounts accounts, Accounts.Actor by);
  }

  @Command(name = "add", description = "Add an account; its first password is asked for.")
  static final class Add extends Act {
    @Parameters(paramLabel = "NAME", description = "as it will stand in the change log")
    private String name;

    @Option(
        names = "--role",
        required = true,
        split = ",",
        paramLabel = "ROLE",
        description = ROLES)
    private List<String> roles;

    @Option(
        names = "--own",
        description = "the owner chose this password: no other is asked for at sign-in")
    private boolean own;

    private String password;

    @Override
    void prepare() {
      roles(roles);
      password = Secret.askNew("password for " + name);
    }

    @Override
    String act(Accounts accounts, Accounts.Actor by) {
      Account made = accounts.add(name, roles(roles), password, own, by);
      return made.name()
          + " can sign in as "
          + words(made)
          + (own ? "." : ", and chooses another password at the first sign-in.");
    }
  }

  @Command(name = "list", description = "List the accounts.")
  static final class ListThem extends Act {
    @Override
    String act(Accounts accounts, Accounts.Actor by) {
      List<Account> all = accounts.all();
      return all.isEmpty()
          ? "There is no account yet."
          : all.stream().map(AccountCommand::line).collect(Collectors.joining("\n"));
    }
  }

  @Command(
      name = "change",
      description = "Give an account other roles or another password; signs it out everywhere.")
  static final class Change extends Act {
    @Parameters(paramLabel = "NAME", description = "the account")
    private String name;

    @Option(names = "--role", split = ",", paramLabel = "ROLE", description = ROLES)
    private List<String> roles;

    @Option(names = "--password", description = "ask for another password")
    private boolean newPassword;

    @Option(names = "--own", description = "with --password: the owner chose it")
    private boolean own;

    private String password;

    @Override
    void prepare() {
      if (roles == null && !newPassword) {
        throw new Refusal("nothing to change: name --role or --password");
      }
      if (roles != null) {
        roles(roles);
      }
      password = newPassword ? Secret.askNew("new password for " + name) : null;
    }

    @Override
    String act(Accounts accounts, Accounts.Actor by) {
      if (password != null) {
        accounts.setPassword(name, password, own, by);
      }
      if (roles != null) {
        accounts.setRoles(name, roles(roles), by);
      }
      Account now = accounts.find(name).orElseThrow();
      return now.name() + " is " + words(now) + ", and signs in again.";
    }
  }

  @Command(name = "remove", description = "Remove an account; its name stays in the logs.")
  static final class Remove extends Act {
    @Parameters(paramLabel = "NAME", description = "the account")
    private String name;

    @Override
    String act(Accounts accounts, Accounts.Actor by) {
      accounts.remove(name, by);
      return name + " is removed and can no longer sign in.";
    }
  }

  @Command(
      name = "second-factor",
      description = {
        "Say which roles have to have a second factor, or take that of an account away.",
        "",
        "People set theirs up on the page Account. Who has lost the phone and the recovery codes is"
            + " let in again by --reset, here at the computer only; ask in person who it is.",
        "Without options it says who has one."
      })
  static final class Second extends Act {
    @Option(
        names = "--demand",
        split = ",",
        paramLabel = "ROLE",
        description = "these roles and no others have to have one; none for no role")
    private List<String> demand;

    @Option(names = "--reset", paramLabel = "NAME", description = "take away that of this account")
    private String reset;

    @Override
    String act(Accounts accounts, Accounts.Actor by) {
      if (demand != null) {
        accounts.demandSecond(
            demand.equals(List.of("none")) ? Set.of() : AccountCommand.roles(demand), by);
      }
      if (reset != null) {
        accounts.turnSecondOff(reset, by);
      }
      Set<Role> demanded = accounts.secondDemanded();
      return "A second factor has to be had by "
          + (demanded.isEmpty() ? "no role." : "the roles " + words(demanded) + ".")
          + accounts.all().stream()
              .map(a -> String.format(Locale.ROOT, "%n%-24s %s", a.name(), SECOND.get(a.second())))
              .collect(Collectors.joining());
    }
  }

  private static Set<Role> roles(List<String> words) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    for (String word : words) {
      roles.add(
          Role.of(word)
              .orElseThrow(
                  () -> new Refusal("found the role '" + word + "', expected " + Role.words())));
    }
    return roles;
  }

  private static String line(Account a) {
    return String.format(
        Locale.ROOT,
        "%-24s %-32s password of %s UTC%s",
        a.name(),
        words(a),
        MINUTE.format(a.passwordAt()),
        a.firstPassword() ? ", to be replaced" : "");
  }

  private static String words(Account a) {
    return words(a.roles());
  }

  private static String words(Set<Role> roles) {
    return roles.stream().sorted().map(Role::word).collect(Collectors.joining(", "));
  }
}
