package lanemend.cli;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ConfiguratorRank;
import ch.qos.logback.core.spi.ContextAwareBase;

/**
 * Logging until a {@link LogFile} is open: none. Found by the library's service loader; without it
 * the library would write everything to the screen.
 */
@ConfiguratorRank(ConfiguratorRank.CUSTOM_HIGH_PRIORITY)
public final class QuietLogging extends ContextAwareBase implements Configurator {

  @Override
  public ExecutionStatus configure(LoggerContext context) {
    context.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME).setLevel(Level.OFF);
    return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
  }
}
