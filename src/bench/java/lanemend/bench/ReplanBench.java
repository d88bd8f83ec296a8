package lanemend.bench;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import lanemend.county.County;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Crew;
import lanemend.crewdays.OpenPlan;
import lanemend.crewdays.Replanner;
import lanemend.crewdays.Trial;
import lanemend.patching.PatchDesign;
import lanemend.store.Store;

/**
 * Changes by hand to the plan a store keeps: one urgent repair after another, each from the kept
 * plan, and moves of random zones to random crew days.
 */
final class ReplanBench {
  private static final double LIMIT_SECONDS = 1.5;
  private static final int DAYS_LEFT = 4;
  private static final int FROZEN_DAYS = 2;

  private ReplanBench() {}

  static void run(Path storeFile, int count, PrintStream out) {
    County county;
    try (Store store = Store.open(storeFile)) {
      county = County.read(store);
    }
    List<PatchDesign> repairs = county.repairsInParts();
    Assignment kept = county.plans().waiting(county.assignment());
    LocalDate today = county.agency().plan().firstDay();
    List<String> ids = new ArrayList<>(kept.defectIds());
    Random random = new Random(1);
    out.println("what,defect,seconds,possible,other_days,zones_moved,zones_off,frozen_days,proven");
    for (int i = 0; i < count; i++) {
      String id = ids.get(random.nextInt(ids.size()));
      long start = System.nanoTime();
      Replanner.Urgent found =
          county
              .plans()
              .replanner(county.agency(), today)
              .urgent(
                  repairs,
                  kept,
                  id,
                  today.plusDays(DAYS_LEFT),
                  today.plusDays(FROZEN_DAYS),
                  LIMIT_SECONDS);
      double seconds = (System.nanoTime() - start) / 1e9;
      out.printf(
          Locale.ROOT,
          "urgent,%s,%.3f,%s,%s%n",
          id,
          seconds,
          found != null,
          found == null
              ? ",,,,"
              : found.otherDays()
                  + ","
                  + found.zonesMoved()
                  + ","
                  + found.zonesOff()
                  + ","
                  + found.frozenDays()
                  + ","
                  + found.proven());
    }
    long start = System.nanoTime();
    OpenPlan open = county.plans().openPlan(today);
    out.printf(Locale.ROOT, "open,,%.3f,true,,,,,%n", (System.nanoTime() - start) / 1e9);
    List<Crew> crews = county.agency().crews();
    for (int i = 0; i < count; i++) {
      String id = ids.get(random.nextInt(ids.size()));
      Crew crew = crews.get(random.nextInt(crews.size()));
      LocalDate date = today.plusDays(random.nextInt(county.agency().plan().calendarDays()));
      start = System.nanoTime();
      Trial trial = open.move(id, crew.id(), date);
      double seconds = (System.nanoTime() - start) / 1e9;
      out.printf(Locale.ROOT, "move,%s,%.6f,%s,,,,,%n", id, seconds, trial.possible());
    }
  }
}
