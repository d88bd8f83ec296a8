package lanemend.web.desk;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import lanemend.accounts.Accounts;

/**
 * Where the desk listens, and who is let in. Without accounts it is for one user, on this computer
 * only; any other way in asks for sign-in and for TLS, the desk's own or a proxy's.
 *
 * @param address to listen on, such as {@code 127.0.0.1}
 * @param tls keys of the desk's own TLS
 * @param proxy address of the one computer that may connect, which speaks TLS to everybody else
 * @param names host names browsers reach the desk by, without port
 * @param accounts who may sign in; empty for one user without sign-in
 */
public record Door(
    String address,
    Optional<Tls> tls,
    Optional<InetAddress> proxy,
    Set<String> names,
    Optional<Accounts> accounts) {

  private static final String LOOPBACK = "127.0.0.1";

  /** A PKCS #12 file with the desk's certificate and key, and its password. */
  public record Tls(Path keystore, String password) {
    /** Not to be printed by accident. */
    @Override
    public String toString() {
      return keystore.toString();
    }
  }

  /**
   * Checks that the data cannot be come by without sign-in, nor a password be overheard.
   *
   * @throws IllegalArgumentException with one sentence
   */
  public Door {
    names = lowered(names);
    InetAddress here = resolved(address);
    boolean others = !here.isLoopbackAddress() || proxy.isPresent();
    if (others && accounts.isEmpty()) {
      throw new IllegalArgumentException(
          "the desk answers other computers only with sign-in: add accounts with 'account add', or"
              + " leave --address and --behind-proxy away");
    }
    if (others && tls.isEmpty() && proxy.isEmpty()) {
      throw new IllegalArgumentException(
          "the desk answers other computers only over TLS: name a PKCS #12 file with --keystore, or"
              + " the proxy that speaks TLS for it with --behind-proxy");
    }
    if (others && names.isEmpty() && (here.isAnyLocalAddress() || proxy.isPresent())) {
      throw new IllegalArgumentException(
          "the desk does not know by which name browsers reach it: give it with --host");
    }
    if (!here.isAnyLocalAddress() && proxy.isEmpty()) {
      names.add(bracketed(here));
    }
    if (here.isLoopbackAddress() && proxy.isEmpty()) {
      names.addAll(Set.of(LOOPBACK, "localhost", "[::1]"));
    }
    names = Set.copyOf(names);
  }

  /** This computer only, one user, no sign-in. */
  public static Door ofThisComputer() {
    return new Door(LOOPBACK, Optional.empty(), Optional.empty(), Set.of(), Optional.empty());
  }

  /** This computer only, several users who sign in. */
  public static Door ofThisComputer(Accounts accounts) {
    return new Door(LOOPBACK, Optional.empty(), Optional.empty(), Set.of(), Optional.of(accounts));
  }

  /** Reads an address as it is written; names of hosts other than localhost are not looked up. */
  public static InetAddress resolved(String address) {
    String plain = address.strip();
    boolean literal = plain.matches("[0-9.]+") || plain.contains(":");
    try {
      if (literal || plain.equals("localhost")) {
        return InetAddress.getByName(plain.equals("localhost") ? LOOPBACK : plain);
      }
    } catch (UnknownHostException e) {
      // Falls through to the same sentence.
    }
    throw new IllegalArgumentException(
        "found the address '" + address + "', expected one such as 127.0.0.1, 0.0.0.0 or ::");
  }

  private static Set<String> lowered(Set<String> names) {
    Set<String> lowered = new LinkedHashSet<>();
    for (String name : names) {
      String plain = name.strip().toLowerCase(Locale.ROOT);
      if (!plain.matches("[a-z0-9]([a-z0-9.-]{0,252}[a-z0-9])?|\\[[0-9a-f:.]+]")) {
        throw new IllegalArgumentException(
            "found the host name '" + name + "', expected one such as desk.example, without port");
      }
      lowered.add(plain);
    }
    return lowered;
  }

  private static String bracketed(InetAddress address) {
    String text = address.getHostAddress().replaceFirst("%.*", "");
    return text.contains(":") ? "[" + text + "]" : text;
  }

  /** Whether what browsers speak is encrypted, by the desk or by its proxy. */
  boolean encrypted() {
    return tls.isPresent() || proxy.isPresent();
  }

  /** {@code https} or {@code http}, as browsers see it. */
  String scheme() {
    return encrypted() ? "https" : "http";
  }
}
