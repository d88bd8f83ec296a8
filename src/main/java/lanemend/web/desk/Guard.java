package lanemend.web.desk;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.util.Optional;
import java.util.Set;

/**
 * Keeps the desk to its own pages: a page of another site that happens to be open in the same
 * browser can neither read nor change anything, under this address or under a name of its own that
 * it has pointed here.
 */
final class Guard {
  private static final Set<String> OWN_NAMES = Set.of("127.0.0.1", "localhost", "[::1]");

  private final String policy;

  /**
   * @param tiles address of background tiles, if any
   */
  Guard(Optional<String> tiles) {
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
    String host = c.header("Host");
    if (host == null || !OWN_NAMES.contains(withoutPort(host))) {
      throw new Problem(
          Problem.Kind.FOREIGN,
          "the desk was asked for as '" + host + "'; it answers to 127.0.0.1 and localhost only");
    }
    String origin = c.header("Origin");
    boolean foreign = origin != null && !origin.equals("http://" + host);
    String site = c.header("Sec-Fetch-Site");
    boolean crossSite = site != null && (site.equals("cross-site") || site.equals("same-site"));
    boolean navigates = "navigate".equals(c.header("Sec-Fetch-Mode")) && reads(c);
    if (foreign || (crossSite && !navigates)) {
      throw new Problem(Problem.Kind.FOREIGN, "a page of another site asked the desk");
    }
    if (!reads(c)) {
      String type = c.contentType();
      // A form of another site cannot send these types unasked.
      boolean own =
          type != null && (type.startsWith("application/json") || type.startsWith("image/"));
      if (c.contentLength() > 0 && !own) {
        throw new Problem(
            Problem.Kind.BAD_REQUEST, "changes are sent as application/json, photos as image/jpeg");
      }
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
