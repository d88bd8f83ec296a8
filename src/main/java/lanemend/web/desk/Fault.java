package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.Locale;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A failure that is the program's or the disk's: told with an id under which the log has more. */
public final class Fault {
  private static final Logger LOG = LoggerFactory.getLogger("lanemend.fault");

  private Fault() {}

  /**
   * Writes a failure to the log.
   *
   * @param where for instance {@code put /api/defects/{id}} or {@code import defects}
   * @return the id the user is told
   */
  public static String logged(String where, Throwable cause) {
    String id = UUID.randomUUID().toString().substring(0, 8);
    LOG.atError()
        .addKeyValue("fault", id)
        .addKeyValue("where", where)
        .setCause(cause)
        .log(String.valueOf(cause.getMessage()));
    return id;
  }

  static Problem told(Context c, String sentence, Exception cause) {
    String where = c.method().name().toLowerCase(Locale.ROOT) + " " + RequestLog.route(c);
    String id = logged(where, cause);
    return new Problem(Problem.Kind.FAULT, sentence + " (fault " + id + " in the log)")
        .with("fault", id);
  }
}
