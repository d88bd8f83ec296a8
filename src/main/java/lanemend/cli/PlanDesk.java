package lanemend.cli;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.PlanKeeping;
import lanemend.county.PlanWords;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Crew;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.PlanComparison;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.store.Store;

/** What the commands that change a plan by hand have in common: check it, keep it, say it. */
final class PlanDesk {
  /** How many changes are printed before the rest is only counted. */
  private static final int SHOWN = 60;

  private final Store store;
  private final String who;
  private final PrintWriter out;

  PlanDesk(Store store, String who, PrintWriter out) {
    this.store = store;
    this.who = who;
    this.out = out;
  }

  County county() {
    return County.read(store);
  }

  /** A county with a plan, or a refusal. */
  County planned() {
    County county = county();
    if (county.assignment().days().isEmpty()) {
      throw new Refusal("nothing is planned yet: 'plan' first");
    }
    return county;
  }

  /**
   * Checks a changed plan together with the rules that come with it, keeps both, and says what is
   * different.
   *
   * @param rules all that are to be in force
   */
  void keep(
      County before,
      HandRules rules,
      Assignment now,
      LocalDate today,
      String why,
      boolean onlyTry) {
    PlanKeeping keeping = new PlanKeeping(before, today);
    PlanKeeping.Changed changed;
    try {
      changed = keeping.judge(rules, now);
    } catch (BrokenPlan e) {
      throw Planning.refusal(e);
    }
    if (!onlyTry) {
      keeping.keep(store, who, why, changed);
    }
    say(changed.comparison(), before);
    if (onlyTry) {
      out.println("           only tried, nothing was kept");
    }
  }

  /** Writes rules alone, the plan staying as it is. */
  void keepRules(County before, HandRules rules, String why) {
    LocalDate first = before.agency().plan().firstDay();
    new PlanKeeping(before, first).keepRules(store, who, why, rules);
  }

  /** Lists what is settled by hand. */
  void list(HandRules rules) {
    out.printf("by hand    %d rules%n", rules.all().size());
    rules.all().forEach(r -> out.println("  " + r.words() + " (" + r.reason() + ")"));
  }

  /** Refuses a crew that is not there. */
  static void crew(Agency agency, String id) {
    if (agency.crews().stream().noneMatch(c -> c.id().equals(id))) {
      throw new Refusal(
          "there is no crew '"
              + id
              + "': the crews are "
              + agency.crews().stream().map(Crew::id).collect(Collectors.joining(", ")));
    }
  }

  /** Prints a comparison. */
  void say(PlanComparison c, County county) {
    UnitSystem units = county.units();
    String currency = county.agency().plan().currency();
    totals("before", c.before(), units, currency);
    totals("now", c.after(), units, currency);
    BigDecimal more = c.after().cost().subtract(c.before().cost());
    PlanComparison.Disturbance d = c.disturbance();
    out.printf(
        Locale.ROOT,
        "changed    %d crew days; %d zones on another crew day, %d taken off, %d days in another"
            + " order; cost %+,.0f %s%n",
        d.crewDays(),
        d.zonesMoved(),
        d.zonesTakenOff(),
        d.daysReordered(),
        more,
        currency);
    c.changes().stream()
        .limit(SHOWN)
        .forEach(one -> out.println("  " + PlanWords.of(one) + " (" + one.why() + ")"));
    if (c.changes().size() > SHOWN) {
      Map<String, Long> rest =
          c.changes().stream()
              .skip(SHOWN)
              .collect(
                  Collectors.groupingBy(
                      one -> one.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '),
                      TreeMap::new,
                      Collectors.counting()));
      out.println("  and more: " + rest);
    }
  }

  private void totals(String label, PlanComparison.Totals t, UnitSystem units, String currency) {
    out.printf(
        Locale.ROOT,
        "%-10s %d repairs in %d work zones on %d crew days, %s of mix, %s driven, %,.0f %s; %d"
            + " left out%n",
        label,
        t.repairs(),
        t.zones(),
        t.crewDays(),
        units.show(t.tonnes(), Unit.TONNE).text(),
        units.show(1000 * t.driveKm(), Unit.ROAD_METER).text(),
        t.cost(),
        currency,
        t.leftOut());
  }
}
