package lanemend.web.desk;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;

/** Sends many fuzzed requests to a desk with sign-in over a small county; the test sends a few. */
public final class FuzzBench {
  private FuzzBench() {}

  /**
   * Prints CSV {@code requests,forbidden,status,answers} and what was found wrong.
   *
   * @param count requests at random; every forbidden call comes on top
   * @param seed of the requests
   */
  public static void run(int count, long seed, PrintStream out) throws IOException {
    try (People people = People.at(Files.createTempDirectory("lanemend-fuzz"))) {
      Fuzz fuzz = new Fuzz(people, seed);
      fuzz.everyForbiddenCall();
      fuzz.run(count);
      int all = fuzz.statuses().values().stream().mapToInt(n -> n).sum();
      out.println("requests,forbidden,status,answers");
      fuzz.statuses()
          .forEach(
              (status, n) -> out.println(all + "," + fuzz.forbidden() + "," + status + "," + n));
      out.println("wrong," + fuzz.wrong().size());
      fuzz.wrong().forEach(out::println);
    }
  }
}
