package lanemend.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** What the tests run in a program of its own: to kill it, or to take its powers away. */
final class Child {

  private Child() {}

  /**
   * {@code open FILE} opens a store, {@code restore FILE BACKUP} puts a backup in its place: exit
   * code 0, or 3 with the refusal printed.
   */
  public static void main(String[] args) {
    Path file = Path.of(args[1]);
    try {
      if (args[0].equals("restore")) {
        System.out.println(StoreBackup.restore(Path.of(args[2]), file).store());
      } else {
        Store.open(file).close();
      }
    } catch (StoreException e) {
      System.out.println(e.getMessage());
      System.exit(3);
    }
  }

  static List<String> command(List<String> before, String... args) {
    List<String> command = new ArrayList<>(before);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(
        List.of(
            "-Xshare:auto", "-cp", System.getProperty("java.class.path"), Child.class.getName()));
    command.addAll(List.of(args));
    return command;
  }

  /** The administrator may write read-only files; this takes that power from the child. */
  static List<String> withoutRootsPowers() throws IOException, InterruptedException {
    if (!System.getProperty("user.name").equals("root")) {
      return List.of();
    }
    List<String> drop = List.of("setpriv", "--bounding-set=-dac_override,-dac_read_search");
    List<String> trial = new ArrayList<>(drop);
    trial.add("true");
    try {
      Process p = new ProcessBuilder(trial).start();
      Assumptions.assumeTrue(
          p.waitFor(10, TimeUnit.SECONDS) && p.exitValue() == 0,
          "running as root, and setpriv cannot take its powers away");
    } catch (IOException e) {
      Assumptions.abort("running as root, and there is no setpriv to take its powers away");
    }
    return drop;
  }
}
