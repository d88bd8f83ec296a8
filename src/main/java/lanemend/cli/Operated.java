package lanemend.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.util.Optional;
import lanemend.web.desk.Fault;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** A command as its operator sees it: in the log with its end, and a fault with an id. */
final class Operated {
  private static final String COMMANDS = "commands";
  private static final String DESK = "desk";
  private static final double NANOS_PER_MS = 1e6;

  private Operated() {}

  /** Runs the command that was parsed; returns its exit code. */
  static int run(ParseResult parsed) {
    ParseResult at = innermost(parsed);
    CommandSpec command = at.commandSpec();
    Optional<WorkFolder> work = work(command);
    if (work.isEmpty() || at.isUsageHelpRequested() || at.isVersionHelpRequested()) {
      return new CommandLine.RunLast().execute(parsed);
    }
    return logged(parsed, name(command), work.get());
  }

  private static int logged(ParseResult parsed, String name, WorkFolder work) {
    long begun = System.nanoTime();
    Optional<LogFile> log = open(work, name);
    try {
      int code = new CommandLine.RunLast().execute(parsed);
      if (log.isEmpty()) {
        // The first command makes the folder.
        log = open(work, name);
      }
      log.ifPresent(l -> ended(name, code, work.who(), System.nanoTime() - begun));
      return code;
    } finally {
      log.ifPresent(LogFile::close);
    }
  }

  private static Optional<LogFile> open(WorkFolder work, String name) {
    if (work.logDetail() == LogFile.Detail.OFF || !Files.isDirectory(work.folder())) {
      return Optional.empty();
    }
    String file = name.equals("serve") || name.equals("run") ? DESK : COMMANDS;
    return Optional.of(LogFile.open(work.folder(), file, work.logDetail()));
  }

  private static void ended(String name, int code, String who, long nanos) {
    log()
        .atInfo()
        .addKeyValue("command", name)
        .addKeyValue("code", code)
        .addKeyValue("who", who)
        .addKeyValue("ms", Math.round(nanos / NANOS_PER_MS))
        .log("command");
  }

  /** What a person is told of a failure that is the program's. */
  static int failed(Exception e, ParseResult parsed, PrintWriter err) {
    CommandSpec command = innermost(parsed).commandSpec();
    Optional<LogFile> log = work(command).flatMap(w -> open(w, name(command)));
    String id = Fault.logged(name(command), e);
    err.printf(
        "lanemend failed: %s (fault %s%s)%n", e, id, log.map(l -> " in " + l.file()).orElse(""));
    if (log.isEmpty()) {
      e.printStackTrace(err);
    }
    log.ifPresent(LogFile::close);
    return ExitCode.FAULT;
  }

  private static ParseResult innermost(ParseResult parsed) {
    ParseResult at = parsed;
    while (at.hasSubcommand()) {
      at = at.subcommand();
    }
    return at;
  }

  private static Optional<WorkFolder> work(CommandSpec command) {
    return command.mixins().values().stream()
        .map(CommandSpec::userObject)
        .filter(WorkFolder.class::isInstance)
        .map(WorkFolder.class::cast)
        .findFirst();
  }

  /** Without the program's own name, for instance {@code import defects}. */
  private static String name(CommandSpec command) {
    return command.qualifiedName().replaceFirst("^lanemend ", "");
  }

  private static Logger log() {
    return LoggerFactory.getLogger("lanemend.command");
  }
}
