package lanemend.cli;

import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.Callable;
import lanemend.accounts.Accounts;
import lanemend.store.Store;
import lanemend.web.desk.Desk;
import lanemend.web.desk.DeskSettings;
import lanemend.web.desk.Door;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code serve}: the web desk over the work folder, until stopped. */
@Command(
    name = "serve",
    description = {
      "Open the county in a browser: map, strip, defects, crew days, sheets, renewal.",
      "",
      "As it comes it answers one user on this computer, and asks no other computer for anything."
          + " Other computers are answered with sign-in and TLS only: add accounts with 'account"
          + " add', then name --address and --keystore, or --behind-proxy. Stops at Ctrl+C;"
          + " requests at hand are answered first."
    })
final class ServeCommand implements Callable<Integer> {
  static final int PORT = 8460;

  @Spec private CommandSpec spec;
  @Mixin private WorkFolder work;

  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "" + PORT,
      description = "port to listen on, 0 for any that is free (default: ${DEFAULT-VALUE})")
  private int port;

  @Mixin private DoorOptions door;

  @Option(
      names = "--tiles",
      paramLabel = "URL",
      description =
          "background map tiles, such as https://tiles.example/{z}/{x}/{y}.png (default: none)")
  private String tiles;

  @Override
  public Integer call() {
    checkPort(port);
    return serve(
        work,
        port,
        Optional.ofNullable(tiles),
        door.door(work),
        spec.commandLine().getOut(),
        () -> {});
  }

  static void checkPort(int port) {
    Refusal.unless(port >= 0 && port <= 65_535, "--port", port, "a number from 0 to 65535");
  }

  /**
   * Serves until the process is asked to stop; closes the door's accounts at the end.
   *
   * @param beside what else is to be done once pages can be opened
   */
  static int serve(
      WorkFolder work,
      int port,
      Optional<String> tiles,
      Door door,
      PrintWriter out,
      Runnable beside) {
    StopSignal stop = new StopSignal();
    try (Store store = work.open();
        Desk desk =
            Desk.open(store, new DeskSettings(port, work.folder(), work.who(), tiles), door)) {
      out.println("desk       " + desk.address() + " (stop with Ctrl+C)");
      out.flush();
      Logger log = LoggerFactory.getLogger("lanemend.desk");
      log.atInfo()
          .addKeyValue("address", desk.address())
          .addKeyValue("version", Version.text())
          .log("desk started");
      beside.run();
      stop.await();
      log.info("desk stopping");
    } catch (IllegalArgumentException | IllegalStateException e) {
      throw new Refusal(e.getMessage());
    } finally {
      door.accounts().ifPresent(Accounts::close);
      stop.done();
    }
    return ExitCode.DONE;
  }
}
