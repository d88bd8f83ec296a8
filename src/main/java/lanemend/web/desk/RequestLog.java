package lanemend.web.desk;

import io.javalin.http.Context;
import io.javalin.router.Endpoint;
import java.util.Locale;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One line for each request answered. It has the route and not the address asked for: ids, filters
 * and places of people at work are nobody's business who reads a log.
 */
final class RequestLog {
  private static final Logger LOG = LoggerFactory.getLogger("lanemend.desk.request");

  private final DeskMetrics metrics;

  RequestLog(DeskMetrics metrics) {
    this.metrics = metrics;
  }

  void answered(Context c, float millis) {
    String method = c.method().name().toLowerCase(Locale.ROOT);
    String route = route(c);
    int status = c.statusCode();
    metrics.answered(method, route, status, millis);
    LOG.atInfo()
        .addKeyValue("method", method)
        .addKeyValue("route", route)
        .addKeyValue("status", status)
        .addKeyValue("ms", Math.round(millis * 10) / 10.0)
        .addKeyValue("who", Caller.known(c).map(Caller::name).orElse("-"))
        .log("request");
  }

  /** As it was registered, for instance {@code /api/defects/{id}}. */
  static String route(Context c) {
    Endpoint matched = c.endpoints().matchedHttpEndpoint();
    if (matched != null && matched.method.isHttpMethod()) {
      return matched.path;
    }
    for (String files : new String[] {"/desk/", "/webjars/"}) {
      if (c.path().startsWith(files) && c.statusCode() < 400) {
        return files + "...";
      }
    }
    return "none";
  }
}
