package lanemend.county;

import java.util.Optional;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Crew;
import lanemend.crewdays.Plant;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactors;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/** What is planned of a repair now, to be kept with the record of its being done. */
final class PlanThen {
  private final Assignment assignment;
  private final Agency agency;
  private final LearnedFactors learned;

  PlanThen(County county) {
    assignment = county.assignment();
    agency = county.agency();
    learned = county.learned();
  }

  /**
   * The plan of one repair.
   *
   * @param crewId that did it; empty for the one it was planned for
   */
  PlannedWork of(String patchId, PatchDesign repair, String crewId) {
    Optional<Assignment.Day> day = assignment.dayOf(repair.defect().id());
    String who = crewId.isEmpty() ? day.map(Assignment.Day::crewId).orElse("") : crewId;
    Optional<Crew> crew = agency.crews().stream().filter(c -> c.id().equals(who)).findFirst();
    Optional<Plant> plant =
        day.flatMap(
            d -> agency.plants().stream().filter(p -> p.id().equals(d.plantId())).findFirst());
    PatchDesign own = crew.map(c -> c.pace().paced(repair)).orElse(repair);
    Treatment treatment = repair.choice().treatment();
    double trucks = agency.plan().truckCostPerHour().doubleValue();
    return new PlannedWork(
        patchId,
        who,
        new DoneRepair.Planned(
            DoneRepair.Basis.SHEET,
            day.map(Assignment.Day::date).orElse(null),
            own.tonnes(),
            own.minutes(),
            learned.inForce(LearnedFactor.Measure.MIX, treatment, ""),
            learned.inForce(
                LearnedFactor.Measure.MINUTES, treatment, crew.map(Crew::id).orElse("")),
            crew.map(c -> c.costPerHour().doubleValue()).orElse(null),
            crew.map(c -> c.pace().hourCost()).map(LearnedFactor::factor).orElse(1.0),
            day.map(d -> d.trucks() * trucks).orElse(null),
            plant.map(p -> p.pricePerTonne().doubleValue()).orElse(null)));
  }
}
