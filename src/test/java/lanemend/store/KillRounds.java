package lanemend.store;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * Kills a program that writes to a store, again and again (SIGKILL), and looks at what it left: the
 * store opens, is clean, and holds what the last commit said, row for row.
 */
final class KillRounds {
  /** Kills one store has to live through before a fresh one takes its place. */
  private static final int LIFE = 15;

  private final Path folder;
  private final Random random;
  private int opening;
  private int midEdit;
  private int atCommit;
  private int landedUntold;
  private int between;
  private long edits;

  /** What the store held after the last kill. */
  private String last;

  KillRounds(Path folder, long seed) {
    this.folder = folder;
    this.random = new Random(seed);
  }

  /**
   * What the kills hit.
   *
   * @param opening before the program had opened the store: while it made good the last kill
   * @param midEdit inside an edit, before its last row
   * @param atCommit between an edit's last row and the word that it was done
   * @param landedUntold of these, edits that were found whole in the store
   * @param between between two edits, or while a copy or a new store was made
   * @param edits edits that were said to be done, all of which were there
   */
  record Figures(
      int kills,
      int opening,
      int midEdit,
      int atCommit,
      int landedUntold,
      int between,
      long edits) {
    String csv() {
      return kills
          + ","
          + opening
          + ","
          + midEdit
          + ","
          + atCommit
          + ","
          + landedUntold
          + ","
          + between
          + ","
          + edits;
    }

    static String header() {
      return "kills,opening,mid_edit,at_commit,of_these_landed,between,edits_done";
    }
  }

  /**
   * Runs so many rounds; throws {@link AssertionError} at the first thing that is wrong.
   *
   * @param progress gets a line every 50 rounds; may be null
   */
  Figures run(int rounds, PrintStream progress) throws Exception {
    Path file = null;
    for (int round = 1; round <= rounds; round++) {
      if (file == null || round % LIFE == 0) {
        clear();
        file = folder.resolve("county" + round + ".gpkg");
        Filled.store(file).close();
        last = state(file);
      }
      killOnce(file, round);
      if (progress != null && round % 50 == 0) {
        progress.println(figures(round).csv());
        progress.flush();
      }
    }
    return figures(rounds);
  }

  private Figures figures(int kills) {
    return new Figures(kills, opening, midEdit, atCommit, landedUntold, between, edits);
  }

  private void clear() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path f : files.toList()) {
        Files.delete(f);
      }
    }
  }

  private void killOnce(Path file, int round) throws Exception {
    Said said = writeUntilKilled(file, round);
    if (said.opened) {
      between += said.begun == said.done ? 1 : 0;
      atCommit += said.begun > said.done && said.states.containsKey(said.begun) ? 1 : 0;
      midEdit += said.begun > said.done && !said.states.containsKey(said.begun) ? 1 : 0;
    } else {
      opening++;
    }
    edits += said.doneCount;

    String expected = said.done > 0 ? said.states.get(said.done) : last;
    String untold = said.begun > said.done ? said.states.get(said.begun) : null;
    try (Store store = Store.open(file)) {
      List<String> troubles = StoreCheck.check(store);
      check(troubles.isEmpty(), "round " + round + ": " + troubles);
    }
    String found = state(file);
    if (found.equals(untold)) {
      landedUntold++;
    } else {
      check(found.equals(expected), "round " + round + ": a committed edit is not there as told");
    }
    last = found;
    others(file, round);
  }

  /** Copies and new stores that have their names must be whole, whenever the kill fell. */
  private void others(Path file, int round) throws IOException {
    List<Path> made;
    try (Stream<Path> files = Files.list(folder)) {
      made =
          files
              .filter(f -> f.toString().endsWith(".gpkg") && !f.equals(file))
              .filter(f -> f.getFileName().toString().matches("(copy|new)-.*"))
              .toList();
    }
    for (Path f : made) {
      List<String> troubles = StoreCheck.check(f);
      check(troubles.isEmpty(), "round " + round + ": " + f + " " + troubles);
      Files.delete(f);
    }
  }

  private static void check(boolean right, String otherwise) {
    if (!right) {
      throw new AssertionError(otherwise);
    }
  }

  private static String state(Path file) throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file)) {
      return WritingChild.state(c);
    }
  }

  /** What a child said up to the kill. */
  private static final class Said {
    private boolean opened;
    private int begun;
    private int done;
    private int doneCount;
    private final Map<Integer, String> states = new HashMap<>();
  }

  private Said writeUntilKilled(Path file, int round) throws IOException, InterruptedException {
    // Into a file, which keeps what was said up to the kill; a pipe is closed with the process.
    Path heard = folder.resolve("said" + round + ".txt");
    Path errors = folder.resolve("errors" + round + ".txt");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-cp"));
    command.add(System.getProperty("java.class.path"));
    command.add(WritingChild.class.getName());
    command.addAll(List.of(file.toString(), folder.toString(), String.valueOf(round)));
    Process child =
        new ProcessBuilder(command)
            .redirectOutput(heard.toFile())
            .redirectError(errors.toFile())
            .start();
    try {
      if (random.nextInt(8) != 0) {
        for (int waited = 0; Files.size(heard) == 0 && waited < 120_000; waited += 5) {
          check(child.isAlive(), "the child ended by itself: " + Files.readString(errors));
          Thread.sleep(5);
        }
      }
      Thread.sleep(random.nextInt(900));
      check(child.isAlive(), "the child ended by itself: " + Files.readString(errors));
    } finally {
      child.destroyForcibly();
      child.waitFor(30, TimeUnit.SECONDS);
    }
    Said said = read(Files.readString(heard));
    Files.delete(heard);
    Files.delete(errors);
    return said;
  }

  private static Said read(String text) {
    Said said = new Said();
    // What follows the last line end may be half a line.
    for (String line : text.substring(0, text.lastIndexOf('\n') + 1).lines().toList()) {
      String[] words = line.split(" ", -1);
      int n = Integer.parseInt(words[1]);
      switch (words[0]) {
        case "opened" -> said.opened = true;
        case "begun" -> said.begun = n;
        case "state" -> said.states.put(n, words[2]);
        case "done" -> {
          said.done = n;
          said.doneCount++;
        }
        default -> throw new AssertionError("the child said " + line);
      }
    }
    return said;
  }
}
