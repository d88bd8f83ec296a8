package lanemend.crewdays;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.patching.RepairPart;

/** Everything people settled about the plan, to look up. */
public final class HandRules {
  /** Nothing is settled by hand. */
  public static final HandRules NONE = new HandRules(List.of());

  private record CrewDate(String crewId, LocalDate date) {}

  private final List<HandRule> all;
  private final Map<HandRule.Kind, Map<String, HandRule>> byDefect = new LinkedHashMap<>();
  private final Map<HandRule.Kind, Map<CrewDate, HandRule>> byDay = new LinkedHashMap<>();

  public HandRules(List<HandRule> all) {
    this.all = List.copyOf(all);
    for (HandRule.Kind kind : HandRule.Kind.values()) {
      byDefect.put(kind, new LinkedHashMap<>());
      byDay.put(kind, new LinkedHashMap<>());
    }
    for (HandRule rule : all) {
      if (rule.defectId().isEmpty()) {
        byDay.get(rule.kind()).put(new CrewDate(rule.crewId(), rule.date()), rule);
      } else {
        byDefect.get(rule.kind()).put(rule.defectId(), rule);
      }
    }
  }

  public List<HandRule> all() {
    return all;
  }

  /** These rules with one more, in place of the one on the same matter. */
  public HandRules with(HandRule rule) {
    List<HandRule> now = new ArrayList<>(all);
    now.removeIf(rule::sameMatter);
    now.add(rule);
    return new HandRules(now);
  }

  public Optional<HandRule> pin(String defectId) {
    return of(HandRule.Kind.PIN, defectId);
  }

  public Optional<HandRule> leftOut(String defectId) {
    return of(HandRule.Kind.LEAVE_OUT, defectId);
  }

  public Optional<HandRule> doneBy(String defectId) {
    return of(HandRule.Kind.DONE_BY, defectId);
  }

  /** A rule about a whole repair is about each of its parts; a pin is about one of them. */
  private Optional<HandRule> of(HandRule.Kind kind, String id) {
    HandRule own = byDefect.get(kind).get(id);
    boolean whole = own == null && kind != HandRule.Kind.PIN;
    return Optional.ofNullable(whole ? byDefect.get(kind).get(RepairPart.defectOf(id)) : own);
  }

  public Optional<HandRule> locked(String crewId, LocalDate date) {
    return Optional.ofNullable(byDay.get(HandRule.Kind.LOCK_DAY).get(new CrewDate(crewId, date)));
  }

  /** Why this crew does not work on a date, where that is settled by hand. */
  public Optional<HandRule> closed(String crewId, LocalDate date) {
    Map<CrewDate, HandRule> days = byDay.get(HandRule.Kind.CLOSE_DAY);
    HandRule every = days.get(new CrewDate("", date));
    return Optional.ofNullable(every == null ? days.get(new CrewDate(crewId, date)) : every);
  }

  /** The agency with the days closed by hand among its crews' days off. */
  public Agency applyTo(Agency agency) {
    if (byDay.get(HandRule.Kind.CLOSE_DAY).isEmpty()) {
      return agency;
    }
    return agency.withDaysOff(
        crew -> {
          Set<LocalDate> off = new HashSet<>(crew.daysOff());
          for (HandRule rule : byDay.get(HandRule.Kind.CLOSE_DAY).values()) {
            if (rule.crewId().isEmpty() || rule.crewId().equals(crew.id())) {
              off.add(rule.date());
            }
          }
          return off;
        });
  }
}
