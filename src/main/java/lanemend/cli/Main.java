package lanemend.cli;

import com.openhtmltopdf.util.XRLog;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.util.logging.Level;
import java.util.logging.Logger;
import lanemend.accounts.AccountException;
import lanemend.accounts.NoRoomForAccountsException;
import lanemend.county.NotReady;
import lanemend.crewdays.TooManyZonesException;
import lanemend.exchange.ExchangeException;
import lanemend.store.StoreException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;

/** The {@code lanemend} command. */
@Command(
    name = "lanemend",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Plan asphalt patching by route and milepost: from a patrol's defects to",
      "crew sheets.",
      "",
      "A first try:  lanemend run sample-network",
      "Your roads:   lanemend import roads FILE, then posts, attributes, agency,",
      "              defects; then check, plan, sheets.",
      "",
      "Traffic control, hot mix and moving machinery hurt people: what this",
      "prints is a plan for review. The MUTCD, the agency, the permit and",
      "licensed practice rule.",
      ""
    },
    footer = {
      "",
      "Ends with 0: done; 1: trouble was found; 2: some rows were refused (the",
      "rest are in); 3: nothing was done; 64: the command line is wrong; 70: the",
      "program failed, and its log in the work folder has more."
    },
    subcommands = {
      RunCommand.class,
      ImportCommand.class,
      CheckCommand.class,
      BackupCommand.class,
      RestoreCommand.class,
      SalvageCommand.class,
      LocateCommand.class,
      PatrolCommand.class,
      DuplicatesCommand.class,
      SegmentsCommand.class,
      PlanCommand.class,
      SheetsCommand.class,
      ReportCommand.class,
      LearnCommand.class,
      ServeCommand.class,
      AccountCommand.class,
      RenewCommand.class,
      ExplainCommand.class,
      ExportCommand.class,
      RoadCommand.class,
      ReviewCommand.class,
      UndoCommand.class,
      HistoryCommand.class,
      SampleCommand.class,
      HelpCommand.class
    })
public final class Main {
  /** Held, or the setting would be lost with the logger. */
  private static final Logger PDFBOX = Logger.getLogger("org.apache.pdfbox");

  /** Warns of old spellings in filters, which are taken all the same. */
  private static final Logger FILTERS = Logger.getLogger("org.geotools.filter");

  Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    // Sheets are drawn without a screen; said here so that no window system is looked for.
    System.setProperty("java.awt.headless", "true");
    quietLibraries();
    int code =
        run(
            new PrintWriter(System.out, true, Charset.defaultCharset()),
            new PrintWriter(System.err, true, Charset.defaultCharset()),
            args);
    if (code != ExitCode.DONE) {
      System.exit(code);
    }
  }

  /** The libraries tell of every font and style sheet; what goes wrong is thrown anyway. */
  private static void quietLibraries() {
    XRLog.setLoggingEnabled(false);
    PDFBOX.setLevel(Level.SEVERE);
    FILTERS.setLevel(Level.SEVERE);
  }

  /** Runs one command; returns its exit code. */
  static int run(PrintWriter out, PrintWriter err, String... args) {
    CommandLine line = new CommandLine(new Main());
    line.setOut(out);
    line.setErr(err);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setExecutionExceptionHandler(
        (e, command, parsed) -> {
          if (e instanceof Refusal
              || e instanceof NotReady
              || e instanceof TooManyZonesException
              || e instanceof StoreException
              || e instanceof AccountException
              || e instanceof NoRoomForAccountsException
              || e instanceof ExchangeException) {
            err.println(e.getMessage());
            return ExitCode.NOTHING_DONE;
          }
          return Operated.failed(e, parsed, err);
        });
    line.setExecutionStrategy(Operated::run);
    line.setParameterExceptionHandler(
        (e, args1) -> {
          err.println(e.getMessage());
          err.println("Try: " + e.getCommandLine().getCommandSpec().qualifiedName() + " --help");
          return ExitCode.USAGE;
        });
    addHelp(line);
    if (args.length == 0) {
      line.usage(err);
      return ExitCode.USAGE;
    }
    return line.execute(args);
  }

  /** Every command explains itself. */
  private static void addHelp(CommandLine line) {
    for (CommandLine sub : line.getSubcommands().values()) {
      if (sub.getCommandSpec().findOption("--help") == null) {
        sub.getCommandSpec().mixinStandardHelpOptions(true);
      }
      addHelp(sub);
    }
  }
}
