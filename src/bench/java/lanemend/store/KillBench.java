package lanemend.store;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;

/** Kills a writing program many times; ends with an error at the first row lost. */
public final class KillBench {
  private static final long SEED = 7;

  private KillBench() {}

  /** Prints how many kills fell where, a CSV line every 50. */
  public static void run(int kills, PrintStream out) throws IOException {
    Path folder = Files.createTempDirectory("lanemend-kill");
    out.println(KillRounds.Figures.header());
    try {
      out.println(new KillRounds(folder, SEED).run(kills, out).csv());
      out.println("no committed row lost, every store opened and was clean");
    } catch (Exception e) {
      throw new IllegalStateException("the rounds could not be run, see " + folder, e);
    }
  }
}
