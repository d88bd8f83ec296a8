package lanemend.store;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells the operator's log of each write; what it changed is in the store's own change log, under
 * the same number. A class of its own, so that commands that only read never set a log up.
 */
final class WriteLog {
  private static final Logger LOG = LoggerFactory.getLogger("lanemend.store.change");
  private static final double NANOS_PER_MS = 1e6;

  private WriteLog() {}

  static void done(long edit, String who, String why, long nanos) {
    LOG.atInfo()
        .addKeyValue("edit", edit)
        .addKeyValue("who", who)
        .addKeyValue("why", why)
        .addKeyValue("ms", Math.round(nanos / NANOS_PER_MS * 10) / 10.0)
        .log("change");
  }
}
