package lanemend.county;

import java.time.LocalDate;
import java.util.stream.Collectors;
import lanemend.crewdays.PlanChange;
import lanemend.patching.RepairPart;

/** What is different in a plan, as people read it. */
public final class PlanWords {
  private PlanWords() {}

  /** What became of which repairs, without why. */
  public static String of(PlanChange c) {
    String ids = c.defectIds().stream().map(RepairPart::label).collect(Collectors.joining(" "));
    return switch (c.kind()) {
      case MOVED -> ids + ": " + day(c.fromCrewId(), c.fromDate()) + " -> " + to(c);
      case ADDED -> ids + ": new on " + to(c);
      case TAKEN_OFF -> ids + ": taken off " + day(c.fromCrewId(), c.fromDate());
      case GONE -> ids + ": no more on " + day(c.fromCrewId(), c.fromDate());
      case REORDERED -> to(c) + ": order is now " + ids;
      case SUPPLY -> to(c) + ": other trucks";
    };
  }

  private static String to(PlanChange c) {
    return day(c.toCrewId(), c.toDate());
  }

  private static String day(String crew, LocalDate date) {
    return crew + " " + date;
  }
}
