package lanemend.crewdays.learning;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lanemend.patching.Treatment;

/** Invented done work whose true ratios are known. */
final class Seasons {
  static final LocalDate MAY = LocalDate.of(2026, 5, 4);

  private Seasons() {}

  /** A hand patch of a crew that took {@code ratio} times its 60 planned minutes. */
  static DoneRepair minutes(String id, String crew, double ratio) {
    return repair(id, crew, Treatment.HAND_PATCH, ratio, 1, 1);
  }

  /** A repair planned at 60 minutes, 2 t, a crew at 500 and trucks at 100 an hour, mix at 90. */
  static DoneRepair repair(
      String id, String crew, Treatment treatment, double minutes, double mix, double hourCost) {
    double hours = minutes;
    double tonnes = 2 * mix;
    double cost = hours * (500 * hourCost + 100) + tonnes * 90;
    return new DoneRepair(
        id,
        crew,
        treatment,
        "SR 1",
        MAY,
        new DoneRepair.Planned(DoneRepair.Basis.SHEET, MAY, 2.0, 60.0, 1, 1, 500.0, 1, 100.0, 90.0),
        tonnes,
        hours,
        BigDecimal.valueOf(cost));
  }

  /**
   * Repairs of one crew of which only hours are recorded: log ratios normal around {@code logMean}.
   */
  static List<DoneRepair> ofCrew(
      String crew, Treatment t, int n, double logMean, double sd, Random random) {
    List<DoneRepair> done = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double ratio = Math.exp(logMean + sd * random.nextGaussian());
      DoneRepair r = repair(crew + "-" + t + "-" + i, crew, t, ratio, 1, 1);
      done.add(
          new DoneRepair(
              r.id(), crew, t, r.routeId(), r.doneOn(), r.planned(), null, r.crewHours(), null));
    }
    return done;
  }
}
