package lanemend.crewdays;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import lanemend.inventory.DefectStatus;
import lanemend.measure.Unit;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;

/** Says in words why a repair is in no crew day. */
final class LeftOutReasons {
  /** It could be done, but the plan at hand has it on no day. */
  static final String NOT_PLACED = "not put on any crew day";

  private final Agency agency;
  private final Zones zoning;
  private final HandRules rules;

  LeftOutReasons(Agency agency, Zones zoning, HandRules rules) {
    this.agency = agency;
    this.zoning = zoning;
    this.rules = rules;
  }

  /**
   * A reason that needs no road and no crew: not open, deferred, left out by hand, or too long for
   * any zone.
   */
  Optional<String> before(PatchDesign repair) {
    DefectStatus status = repair.defect().status();
    if (status == DefectStatus.DONE) {
      return Optional.of("already done");
    }
    if (status == DefectStatus.WITHDRAWN) {
      return Optional.of("withdrawn");
    }
    if (status == DefectStatus.DEFERRED_TO_OVERLAY
        || repair.choice().treatment() == Treatment.DEFER_TO_OVERLAY) {
      return Optional.of("deferred to overlay");
    }
    Optional<HandRule> byHand = rules.leftOut(repair.defect().id());
    if (byHand.isPresent()) {
      return Optional.of("left out by hand: " + byHand.get().reason());
    }
    double length = Zones.endAlongM(List.of(repair)) - repair.defect().place().fromAlongM();
    double most = zoning.maxLengthM(List.of(repair));
    if (length > most) {
      return Optional.of(
          "runs "
              + shown(length, Unit.METER)
              + ", longest work zone on its road class "
              + shown(most, Unit.METER));
    }
    return Optional.empty();
  }

  /** True for an open repair longer than its road class lets a work zone be. */
  boolean tooLong(PatchDesign repair) {
    DefectStatus status = repair.defect().status();
    double length = Zones.endAlongM(List.of(repair)) - repair.defect().place().fromAlongM();
    return (status == DefectStatus.OPEN || status == DefectStatus.PLANNED)
        && repair.choice().treatment() != Treatment.DEFER_TO_OVERLAY
        && length > zoning.maxLengthM(List.of(repair));
  }

  /** Why no crew can do this repair, as the fit found it for the repair alone. */
  String of(WorkZone alone, CrewFit.Verdict verdict) {
    CrewKind kind = verdict.kind();
    return switch (verdict.obstacle()) {
      case TREATMENT -> "no crew does " + treatments(alone);
      case NO_DAY -> "no crew that does " + treatments(alone) + " works in the plan's days";
      case MACHINE -> "needs " + machines(alone) + ", not in service on any day of the plan";
      case SEASON -> season(alone);
      case NO_TRUCKS -> noTrucks(alone);
      case OTHER_MIX -> "no plant or stockpile has mix for " + treatments(alone);
      case NO_ROAD_FROM_YARD -> "no road from the yard of any crew that does " + treatments(alone);
      case NO_ROAD_FROM_PLANT -> "no road from any plant";
      case TONNES ->
          "needs "
              + shown(alone.tonnes(), Unit.TONNE)
              + ", most a plant gives in a day "
              + shown(mostTonnes(), Unit.TONNE);
      case MIX_WINDOW ->
          "too far from "
              + kind.plant().name()
              + ": no size of load is laid inside its mix window of "
              + shown(kind.plant().mixWindowMinutes(), Unit.MINUTE);
      case PLANT_HOURS ->
          kind.plant().name() + " closes at " + kind.plant().closes() + ", before its last load";
      case SHIFT ->
          "needs "
              + shown(verdict.dayMinutes(), Unit.MINUTE)
              + " with set-up and the drive, longest shift "
              + shown(longestShift(alone), Unit.MINUTE);
      case CHANCE ->
          "needs "
              + shown(verdict.dayMinutes(), Unit.MINUTE)
              + " with set-up and the drive, and ends inside the shift of "
              + shown(kind.crew().shiftMinutes(), Unit.MINUTE)
              + " with a chance of "
              + shown(100 * verdict.chance(), Unit.PERCENT)
              + ", asked are "
              + shown(100 * agency.plan().finish().probability(), Unit.PERCENT);
      case NONE -> NOT_PLACED;
    };
  }

  /** The horizon had no room for it. */
  String horizonFull() {
    String full =
        "horizon full before " + agency.plan().firstDay().plusDays(agency.plan().calendarDays());
    long taken =
        WorkWeather.of(agency).dates().stream()
            .filter(d -> !d.worked())
            .filter(d -> agency.plan().workdays().contains(d.date().getDayOfWeek()))
            .count();
    return taken == 0
        ? full
        : full + "; weather takes " + taken + (taken == 1 ? " workday" : " workdays") + " of it";
  }

  private String season(WorkZone zone) {
    return "needs hot mix, which can be laid on no day of the plan on which a crew that does "
        + treatments(zone)
        + " works";
  }

  private String noTrucks(WorkZone alone) {
    return agency.plants().isEmpty()
        ? "needs mix and the agency has no plant"
        : "no crew that does " + treatments(alone) + " has a haul truck";
  }

  private double mostTonnes() {
    return agency.plants().stream().mapToDouble(Plant::dailyTonnes).max().orElse(0);
  }

  private double longestShift(WorkZone zone) {
    return agency.crews().stream()
        .filter(c -> c.does().containsAll(zone.treatments()))
        .mapToDouble(Crew::shiftMinutes)
        .max()
        .orElse(0);
  }

  private String shown(double value, Unit unit) {
    return agency.units().show(value, unit).text();
  }

  private static String treatments(WorkZone zone) {
    return zone.treatments().stream()
        .map(LeftOutReasons::words)
        .sorted()
        .collect(Collectors.joining(" and "));
  }

  private static String machines(WorkZone zone) {
    return zone.equipment().stream()
        .map(LeftOutReasons::words)
        .sorted()
        .collect(Collectors.joining(", "));
  }

  private static String words(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
