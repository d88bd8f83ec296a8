package lanemend.web.desk;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.io.IOException;
import java.net.InetAddress;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;

/**
 * Keeps the desk to its own pages: a page of another site that happens to be open in the same
 * browser can neither read nor change anything, under this address or under a name of its own that
 * it has pointed here.
 */
final class Guard {
  /** As browsers keep it: a year of TLS only. */
  private static final String TLS_ONLY = "max-age=31536000; includeSubDomains";

  /** What is read of a body that nobody asked for, so that the connection can go on. */
  private static final int MOST_UNREAD = 64 * 1024;

  private final String policy;
  private final Door door;

  /**
   * @param tiles address of background tiles, if any
   */
  Guard(Optional<String> tiles, Door door) {
    this.door = door;
    String pictures = tiles.map(t -> " " + DeskSettings.tileHost(t)).orElse("");
    policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; manifest-src"
            + " 'self'; worker-src 'self'; font-src 'none'; object-src 'none'; frame-ancestors"
            + " 'none'; base-uri 'none'; form-action 'self'; img-src 'self' data: blob:"
            + pictures;
  }

  void check(Context c) {
    c.header("Content-Security-Policy", policy);
    c.header("X-Content-Type-Options", "nosniff");
    c.header("Referrer-Policy", "no-referrer");
    c.header("Cross-Origin-Opener-Policy", "same-origin");
    c.header("Cross-Origin-Resource-Policy", "same-origin");
    if (door.encrypted()) {
      c.header("Strict-Transport-Security", TLS_ONLY);
    }
    if (c.path().startsWith("/api/")) {
      // Unless a route knows better: what it answers is the agency's.
      c.header("Cache-Control", "no-store");
    }
    door.proxy().ifPresent(proxy -> lookThrough(c, proxy));
    checkHost(c);
    checkOrigin(c);
    if (!reads(c)) {
      String type = c.contentType();
      boolean hasBody = hasBody(c);
      // A form of another site cannot send these types unasked.
      boolean own =
          type != null && (type.startsWith("application/json") || type.startsWith("image/"));
      if (hasBody && !own) {
        throw new Problem(
            Problem.Kind.BAD_REQUEST, "changes are sent as application/json, photos as image/jpeg");
      }
    }
  }

  /**
   * Leaves nothing of the request on the connection, or says that the connection ends. A body that
   * the answer did not need, and that comes in after it, would else make the server hang up without
   * a word on the next request.
   */
  static void end(Context c) {
    if (!hasBody(c)) {
      return;
    }
    // Whoever asks before sending a body has not sent it.
    if (c.header("Expect") != null || !readsToItsEnd(c)) {
      c.header("Connection", "close");
    }
  }

  private static boolean readsToItsEnd(Context c) {
    try {
      return c.req().getInputStream().readNBytes(MOST_UNREAD).length < MOST_UNREAD;
    } catch (IOException e) {
      // Too large, or the other side is gone.
      return false;
    }
  }

  private static boolean hasBody(Context c) {
    return c.contentLength() > 0 || c.header("Transfer-Encoding") != null;
  }

  /** Only the proxy may connect, and what it says of the other side is then believed. */
  private static void lookThrough(Context c, InetAddress proxy) {
    if (!Door.resolved(c.req().getRemoteAddr().replaceAll("[\\[\\]]", "")).equals(proxy)) {
      throw new Problem(
          Problem.Kind.FOREIGN,
          "the desk answers its proxy only, and '" + c.req().getRemoteAddr() + "' is not it");
    }
    if (!"https".equals(c.header("X-Forwarded-Proto"))) {
      throw new Problem(
          Problem.Kind.FOREIGN,
          "the proxy has to say 'X-Forwarded-Proto: https': found '"
              + c.header("X-Forwarded-Proto")
              + "'");
    }
    String forwarded = c.header("X-Forwarded-For");
    // The last was written by the proxy itself, those before it by anybody.
    Sessions.noteFrom(
        c,
        forwarded == null
            ? c.req().getRemoteAddr()
            : forwarded.substring(forwarded.lastIndexOf(',') + 1).strip());
  }

  private String host(Context c) {
    String forwarded = door.proxy().isPresent() ? c.header("X-Forwarded-Host") : null;
    String host = forwarded == null ? c.header("Host") : forwarded;
    return host == null ? null : host.toLowerCase(Locale.ROOT);
  }

  private void checkHost(Context c) {
    String host = host(c);
    if (host == null || !door.names().contains(withoutPort(host))) {
      throw new Problem(
          Problem.Kind.FOREIGN,
          "the desk was asked for as '"
              + host
              + "'; it answers to "
              + String.join(" and ", new TreeSet<>(door.names()))
              + " only");
    }
  }

  private void checkOrigin(Context c) {
    String origin = c.header("Origin");
    boolean foreign =
        origin != null && !origin.toLowerCase(Locale.ROOT).equals(door.scheme() + "://" + host(c));
    String site = c.header("Sec-Fetch-Site");
    boolean crossSite = site != null && (site.equals("cross-site") || site.equals("same-site"));
    boolean navigates = "navigate".equals(c.header("Sec-Fetch-Mode")) && reads(c);
    if (foreign || (crossSite && !navigates)) {
      throw new Problem(Problem.Kind.FOREIGN, "a page of another site asked the desk");
    }
    // Every browser names the page a change comes from; where a cookie signs in, it has to.
    boolean named = origin != null || "same-origin".equals(site);
    if (door.accounts().isPresent() && !reads(c) && !named) {
      throw new Problem(
          Problem.Kind.FOREIGN,
          "a change has to say which page it comes from, as Origin: "
              + door.scheme()
              + "://"
              + host(c));
    }
  }

  private static boolean reads(Context c) {
    return c.method().equals(HandlerType.GET) || c.method().equals(HandlerType.HEAD);
  }

  private static String withoutPort(String host) {
    int colon = host.lastIndexOf(':');
    return colon > host.lastIndexOf(']') ? host.substring(0, colon) : host;
  }
}
