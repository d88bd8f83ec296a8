package lanemend.cli;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.rolling.FixedWindowRollingPolicy;
import ch.qos.logback.core.rolling.RollingFileAppender;
import ch.qos.logback.core.rolling.SizeBasedTriggeringPolicy;
import ch.qos.logback.core.util.FileSize;
import java.nio.file.Path;
import net.logstash.logback.encoder.LogstashEncoder;
import net.logstash.logback.fieldnames.LogstashFieldNames;
import org.slf4j.LoggerFactory;

/**
 * The operator's log: a file in the work folder's {@code logs}, one JSON object a line. A file that
 * has grown to {@value #MOST_MB} MB is packed and numbered, and so many are kept.
 */
final class LogFile implements AutoCloseable {
  static final String FOLDER = "logs";
  private static final int MOST_MB = 10;
  private static final int KEPT = 9;
  private static final String NOT_WRITTEN = "[ignore]";

  /** What may be written, from nothing to most. */
  enum Detail {
    OFF,
    ERROR,
    WARN,
    INFO,
    DEBUG
  }

  private final RollingFileAppender<ILoggingEvent> appender;
  private final Path file;

  private LogFile(RollingFileAppender<ILoggingEvent> appender, Path file) {
    this.appender = appender;
    this.file = file;
  }

  /**
   * Opens the log of a work folder. A disk that takes no log stops no work: what cannot be written
   * is dropped.
   *
   * @param name of the file, without its ending: programs that run side by side have their own
   */
  static LogFile open(Path work, String name, Detail detail) {
    LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();
    Path file = work.resolve(FOLDER).resolve(name + ".log");
    RollingFileAppender<ILoggingEvent> appender = new RollingFileAppender<>();
    appender.setContext(context);
    appender.setFile(file.toString());
    appender.setEncoder(encoder(context));
    FixedWindowRollingPolicy window = new FixedWindowRollingPolicy();
    window.setContext(context);
    window.setParent(appender);
    window.setFileNamePattern(work.resolve(FOLDER).resolve(name + ".%i.log.gz").toString());
    window.setMinIndex(1);
    window.setMaxIndex(KEPT);
    window.start();
    SizeBasedTriggeringPolicy<ILoggingEvent> size = new SizeBasedTriggeringPolicy<>();
    size.setContext(context);
    size.setMaxFileSize(new FileSize(MOST_MB * FileSize.MB_COEFFICIENT));
    size.start();
    appender.setRollingPolicy(window);
    appender.setTriggeringPolicy(size);
    appender.start();
    Logger root = context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
    Level own = Level.toLevel(detail.name());
    // What the libraries say is of use only when something is wrong.
    root.setLevel(own.isGreaterOrEqual(Level.WARN) ? own : Level.WARN);
    context.getLogger("lanemend").setLevel(own);
    root.addAppender(appender);
    return new LogFile(appender, file);
  }

  private static LogstashEncoder encoder(LoggerContext context) {
    LogstashFieldNames names = new LogstashFieldNames();
    names.setTimestamp("at");
    names.setVersion(NOT_WRITTEN);
    names.setLevelValue(NOT_WRITTEN);
    names.setLogger("logger");
    names.setThread("thread");
    LogstashEncoder encoder = new LogstashEncoder();
    encoder.setContext(context);
    encoder.setTimeZone("UTC");
    encoder.setFieldNames(names);
    encoder.start();
    return encoder;
  }

  Path file() {
    return file;
  }

  @Override
  public void close() {
    LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();
    context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME).detachAppender(appender);
    appender.stop();
  }
}
