package lanemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A command in a process of its own: to be stopped, killed, or to work beside another. */
public final class Program implements AutoCloseable {
  private final Process process;
  private final Path said;

  private Program(Process process, Path said) {
    this.process = process;
    this.said = said;
  }

  /** Starts {@code lanemend WORDS} with this test's class path. */
  public static Program start(String... words) {
    return start(List.of(), words);
  }

  /**
   * Starts it with options of the Java machine.
   *
   * @param options for instance {@code -Xmx2g}
   */
  public static Program start(List<String> options, String... words) {
    List<String> quick = new ArrayList<>(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
    quick.addAll(options);
    return startFull(quick, words);
  }

  /** As a user's program runs, for measuring: the others are set to be up soon. */
  public static Program startFull(List<String> options, String... words) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), Main.class.getName()));
    command.addAll(List.of(words));
    return of(command);
  }

  static Program of(List<String> command) {
    try {
      // Into a file, which keeps what was said up to a kill; a pipe is closed with the process.
      Path said = Files.createTempFile("lanemend-said", ".txt");
      return new Program(
          new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(said.toFile())
              .start(),
          said);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  public String said() {
    try {
      return Files.readString(said);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Waits for the line that names the desk's address; returns it, as {@code http://.../}. */
  public String address() {
    for (int waited = 0; waited < 120_000; waited += 20) {
      for (String line : said().lines().toList()) {
        if (line.startsWith("desk       http")) {
          return line.substring("desk       ".length()).replaceFirst(" .*", "");
        }
      }
      if (!process.isAlive()) {
        throw new AssertionError("it ended with " + process.exitValue() + ": " + said());
      }
      pause(20);
    }
    throw new AssertionError("no desk after two minutes: " + said());
  }

  /** Asks it to end (SIGTERM). */
  public void term() {
    process.destroy();
  }

  /** Ends it without asking (SIGKILL). */
  public void kill() {
    process.destroyForcibly();
    end();
  }

  public boolean isAlive() {
    return process.isAlive();
  }

  long pid() {
    return process.pid();
  }

  /** Its exit code. */
  public int end() {
    try {
      if (!process.waitFor(120, TimeUnit.SECONDS)) {
        throw new AssertionError("still running after two minutes: " + said());
      }
      return process.exitValue();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** For the randomness of kills. */
  public static void pause(long millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      Files.deleteIfExists(said);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
