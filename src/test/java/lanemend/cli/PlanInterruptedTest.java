package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import lanemend.county.County;
import lanemend.county.NotReady;
import lanemend.county.PlanMaking;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.sample.SampleCounty;
import lanemend.sample.SampleSize;
import lanemend.store.Store;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Planning that is told to end: by a signal to a program of its own, and before there is a plan.
 */
class PlanInterruptedTest {
  private static final int PATIENCE_SECONDS = 180;

  @TempDir Path folder;
  private Path work;

  @BeforeEach
  void importASmallCounty() throws IOException {
    Path county = folder.resolve("county");
    SampleCounty.write(county, SampleSize.withDefects(30), 11);
    work = folder.resolve("work");
    Shell shell = new Shell(work);
    done(
        shell,
        "import",
        "roads",
        county.resolve("roads.geojson").toString(),
        "--speed-unit",
        "mph",
        "--field",
        "class=road_class",
        "--field",
        "speed=posted_mph");
    for (String kind : List.of("posts", "attributes", "defects")) {
      done(shell, "import", kind, county.resolve(kind + ".csv").toString());
    }
    done(shell, "import", "agency", county.resolve("agency.json").toString());
  }

  private static void done(Shell shell, String... words) {
    Shell.Outcome outcome = shell.run(words);
    assertEquals(ExitCode.DONE, outcome.code(), outcome.out() + outcome.err());
  }

  private boolean isPlanned() {
    try (Store store = Store.open(work.resolve("lanemend.gpkg"))) {
      return store.read(s -> !s.assignment().days().isEmpty());
    }
  }

  @Test
  void aSignalInTheMidstOfTheSearchKeepsTheBestPlanSoFar() throws Exception {
    // Given a search of ten minutes, in a program of its own
    Path out = folder.resolve("out.txt");
    Path bar = folder.resolve("bar.txt");
    Process planning =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName(),
                "plan",
                "--seconds",
                "600",
                "--work",
                work.toString())
            .redirectOutput(out.toFile())
            .redirectError(bar.toFile())
            .start();
    try {
      // when its progress bar moves, and so the search is on, and it gets the signal to end
      for (int i = 0; i < 10 * PATIENCE_SECONDS && planning.isAlive() && noBar(bar); i++) {
        TimeUnit.MILLISECONDS.sleep(100);
      }
      assertTrue(planning.isAlive(), () -> read(out) + read(bar));
      assertFalse(noBar(bar), "no progress was shown");
      planning.destroy();
      // then it ends soon, with a plan that is checked, kept and called the best so far
      assertTrue(planning.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS), "it goes on");
    } finally {
      planning.destroyForcibly();
    }
    assertTrue(read(out).contains("checked: no limit is broken"), read(out) + read(bar));
    assertTrue(read(out).contains("ended early: this is the best plan found so far"), read(out));
    assertTrue(isPlanned());
  }

  private static boolean noBar(Path bar) {
    return !read(bar).matches("(?s).*crew days +[1-9].*");
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void planningEndedBeforeThereIsAPlanSaysThatNothingWasKept() {
    // Whatever long stage comes before the search, it ends there.
    for (String stage : List.of("work zones", "drives", "trucks")) {
      try (Store store = Store.open(work.resolve("lanemend.gpkg"))) {
        County county = County.read(store);
        PlanMaking making = new PlanMaking(county, county.agency());
        NotReady ended =
            Assertions.assertThrows(
                NotReady.class,
                () ->
                    making.make(
                        SearchBudget.iterations(300, 1), (at, share, cost) -> !at.equals(stage)));
        assertTrue(ended.getMessage().contains("nothing was kept"), ended.getMessage());
      }
      assertFalse(isPlanned());
    }
  }
}
