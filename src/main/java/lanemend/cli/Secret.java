package lanemend.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * Passwords are asked for at the terminal without being shown, or read from standard input where
 * there is none; never taken as an option, which other users of the computer could see.
 */
@SuppressWarnings(
    "SystemConsoleNull") // Java 17 and later: a console that is no terminal reads input as well
final class Secret {
  private Secret() {}

  /** Asks once. */
  static String ask(String what) {
    Console console = System.console();
    if (console == null) {
      return lineOfInput(what);
    }
    char[] typed = console.readPassword("%s: ", what);
    return typed == null ? "" : new String(typed);
  }

  /** Asks for a new one, at a terminal twice. */
  static String askNew(String what) {
    String first = ask(what);
    if (System.console() != null && !first.equals(ask(what + ", again"))) {
      throw new Refusal("the two passwords differ: nothing was changed");
    }
    return first;
  }

  private static String lineOfInput(String what) {
    try {
      // Not closed: it is the process's own.
      String line =
          new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset())).readLine();
      if (line == null) {
        throw new Refusal("the " + what + " is wanted as a line of standard input: found nothing");
      }
      return line;
    } catch (IOException e) {
      throw new Refusal("standard input cannot be read: " + e.getMessage());
    }
  }

  static String firstLine(Path file) {
    try {
      List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
      return lines.isEmpty() ? "" : lines.get(0);
    } catch (IOException e) {
      throw new Refusal(file + " cannot be read: " + e.getMessage());
    }
  }
}
