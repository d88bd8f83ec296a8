package lanemend.sample;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;

/**
 * What had been planned of last season's repairs, so that there is something to learn: planned is
 * actual over a ratio that goes by treatment and crew, times chance. It has a stream of chance of
 * its own, so the repairs are the same with it and without.
 */
final class PlannedThen {
  static final int YEAR = 2025;

  /** What a crew's hour was reckoned at; the repairs' costs come to 310. */
  static final double HOUR_COST = 300;

  static final double MIX_PRICE = 92;
  private static final double HOURS_LOG_SD = 0.22;
  private static final double TONS_LOG_SD = 0.12;

  /** Blade, mixed and hand crew of a district. */
  private static final double[] CREW = {1.0, 1.1, 0.93};

  private final Dice dice;
  private final int districts;
  private boolean slipped;

  /**
   * A plan of a repair.
   *
   * @param on the working day it was planned for
   */
  record Plan(String crew, LocalDate on, double tons, double hours) {}

  PlannedThen(long seed, int districts) {
    this.dice = new Dice(seed ^ 0x5EA50L);
    this.districts = districts;
  }

  /** The plan of a repair; null where none is on record. Ask in the order of the file. */
  Plan of(History.Row row) {
    if (row.family() < 0 || row.doneOn().getYear() != YEAR) {
      return null;
    }
    int kind =
        switch (row.work()) {
          case "blade_patch" -> dice.below(2);
          case "dig_out_and_rebuild" -> 0;
          default -> 1 + dice.below(2);
        };
    String crew = "C" + (3 * dice.below(districts) + kind + 1);
    double hours = row.crewHours() / dice.lognormal(minutes(row.work()) * CREW[kind], HOURS_LOG_SD);
    double tons = row.tons() / dice.lognormal(mix(row.work()), TONS_LOG_SD);
    LocalDate on = dice.chance(0.85) ? row.doneOn() : workdayBefore(row.doneOn());
    if (!slipped && row.doneOn().getMonthValue() == 7) {
      // Minutes written where hours belong.
      slipped = true;
      hours *= 60;
    }
    return new Plan(crew, on, tons, hours);
  }

  private static LocalDate workdayBefore(LocalDate day) {
    return switch (day.getDayOfWeek()) {
      case MONDAY -> day.minusDays(3);
      default -> day.minusDays(1);
    };
  }

  /** Median of actual over planned hours, before the crew's own. */
  private static double minutes(String work) {
    return switch (work) {
      case "blade_patch" -> 1.15;
      case "dig_out_and_rebuild" -> 1.2;
      case "edge_repair" -> 1.05;
      default -> 0.95;
    };
  }

  /** Median of actual over planned mix. */
  private static double mix(String work) {
    return switch (work) {
      case "blade_patch" -> 1.08;
      case "hand_patch" -> 1.04;
      default -> 1.0;
    };
  }

  /** The truth behind the plans. */
  static void truth(ObjectNode root) {
    ObjectNode node = root.putObject("planned_against_actual");
    node.put(
        "about",
        "Actual over planned of "
            + YEAR
            + " is lognormal: medians below, hours times the crew's own; one row has minutes where"
            + " hours belong.");
    ObjectNode hours = node.putObject("hours_median");
    ObjectNode mix = node.putObject("mix_median");
    for (String work :
        new String[] {"blade_patch", "dig_out_and_rebuild", "edge_repair", "hand_patch"}) {
      hours.put(work, minutes(work));
      mix.put(work, mix(work));
    }
    node.put("hours_log_sd", HOURS_LOG_SD).put("mix_log_sd", TONS_LOG_SD);
    ObjectNode crews = node.putObject("hours_times_crew");
    String[] kinds = {"blade", "north", "hand_and_crack"};
    for (int k = 0; k < CREW.length; k++) {
      crews.put(kinds[k], CREW[k]);
    }
    node.put("hour_cost", 310 / HOUR_COST);
  }
}
