package lanemend.cli;

import java.net.InetAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Accounts;
import lanemend.accounts.Role;
import lanemend.web.desk.Door;
import picocli.CommandLine.Option;

/** Who may come in at {@code serve}: as it comes, one user on this computer. */
final class DoorOptions {
  @Option(
      names = "--address",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description =
          "address to listen on (default: ${DEFAULT-VALUE}); any other than this computer's own"
              + " demands accounts and TLS")
  private String address;

  @Option(
      names = "--sign-in",
      description = "demand sign-in on this computer, too, where several people use it")
  private boolean signIn;

  @Option(
      names = "--keystore",
      paramLabel = "FILE",
      description = "PKCS #12 file with the certificate and key for TLS; its password is asked for")
  private Path keystore;

  @Option(
      names = "--keystore-password-file",
      paramLabel = "FILE",
      description = "file whose first line is the keystore's password, in place of asking")
  private Path keystorePassword;

  @Option(
      names = "--behind-proxy",
      paramLabel = "ADDRESS",
      description =
          "the one computer that may connect: a proxy that speaks TLS, passes Host on, and sets"
              + " X-Forwarded-For and X-Forwarded-Proto itself")
  private String proxy;

  @Option(
      names = "--host",
      paramLabel = "NAME",
      description = "host name browsers reach the desk by, such as desk.example; may be repeated")
  private List<String> hosts = List.of();

  /** Whether more is asked for than one user on this computer. */
  private boolean withAccounts() {
    return signIn
        || keystore != null
        || proxy != null
        || !Door.resolved(address).isLoopbackAddress();
  }

  /** What the options say; opens the accounts where they are needed, which the caller closes. */
  Door door(WorkFolder work) {
    try {
      if (!withAccounts()) {
        return new Door(
            address, Optional.empty(), Optional.empty(), Set.copyOf(hosts), Optional.empty());
      }
      Optional<InetAddress> behind = Optional.ofNullable(proxy).map(Door::resolved);
      // The password is asked for before anything is opened.
      Optional<Door.Tls> tls =
          keystore == null ? Optional.empty() : Optional.of(new Door.Tls(keystore, password()));
      Accounts accounts = accounts(work);
      try {
        return new Door(address, tls, behind, Set.copyOf(hosts), Optional.of(accounts));
      } catch (IllegalArgumentException e) {
        accounts.close();
        throw e;
      }
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
  }

  private String password() {
    return keystorePassword == null
        ? Secret.ask("password of " + keystore)
        : Secret.firstLine(keystorePassword);
  }

  private static Accounts accounts(WorkFolder work) {
    if (!Accounts.areIn(work.folder())) {
      throw new Refusal(noAdmin(work));
    }
    Accounts accounts = Accounts.open(work.folder());
    if (accounts.all().stream().noneMatch(a -> a.roles().contains(Role.ADMIN))) {
      accounts.close();
      throw new Refusal(noAdmin(work));
    }
    return accounts;
  }

  private static String noAdmin(WorkFolder work) {
    return "there is no account with the role admin in "
        + work.folder()
        + " yet: add one with 'account add NAME --role admin'";
  }
}
