package lanemend.crewdays;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * One way to run a crew's day: with which plant and how many trucks.
 *
 * @param plant null on a day without mix
 * @param trucks 0 on a day without mix
 */
record CrewKind(Crew crew, Plant plant, int trucks) {

  /** Every way the agency can run a day: for each crew, without mix and by plant and trucks. */
  static List<CrewKind> all(Agency agency) {
    List<CrewKind> kinds = new ArrayList<>();
    for (Crew crew : agency.crews()) {
      kinds.add(new CrewKind(crew, null, 0));
      for (Plant plant : agency.plants()) {
        for (int trucks = 1; trucks <= crew.trucks(); trucks++) {
          kinds.add(new CrewKind(crew, plant, trucks));
        }
      }
    }
    return kinds;
  }

  /** Crew and trucks for an hour. */
  BigDecimal costPerHour(PlanSettings settings) {
    return crew.costPerHour().add(settings.truckCostPerHour().multiply(BigDecimal.valueOf(trucks)));
  }
}
