package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Set;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.NotReady;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Crew;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Replanner;
import lanemend.crewdays.Trial;

/** The plan: its calendar, one day, and changes by hand. */
final class PlanRoutes implements Area {
  /** Calendar days from today that an urgent repair changes only if it must; as the command. */
  static final int FREEZE_DAYS = 2;

  private static final double URGENT_SECONDS = 1.5;

  private final PlanAtHand plan;
  private final CurrentCounty current;

  PlanRoutes(CurrentCounty county) {
    this.current = county;
    this.plan = new PlanAtHand(county, Clock.system(ZoneId.systemDefault()));
  }

  /** Puts a zone on a crew day; {@code repair} is any repair of it. */
  record Move(String repair, String crew, LocalDate date, String reason) {}

  /** Settles something by hand: {@code pin}, {@code lock_day} or {@code leave_out}. */
  record Settle(String kind, String repair, String crew, LocalDate date, String reason) {}

  /** Takes back what is settled of a repair's zone, or of a crew's day. */
  record Release(String repair, String crew, LocalDate date) {}

  /** Brings in a repair by a date. */
  record Urgent(String repair, LocalDate by, String reason) {}

  /**
   * What became of a change.
   *
   * @param said in a sentence
   * @param changes null where the plan is as it was
   */
  record Kept(String state, String said, ComparisonView changes) {}

  /** What a request wants of the plan it has read: for who comes second. */
  private record Wanted(County now, String repair, String wish) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/plan", c -> c.json(plan.view()));
    api.get("/api/plan/days/{date}/{crew}", this::day);
    api.get("/api/plan/left-out", c -> c.json(PlanLists.leftOutRows(plan.county(), c)));
    api.get("/api/plan/places", c -> c.json(plan.places(Api.wanted(c, "repair"))));
    api.get("/api/plan/changes", this::changes);
    api.post("/api/plan/trials", this::trial);
    api.post("/api/plan/moves", this::move);
    api.post("/api/plan/rules", this::settle);
    api.post("/api/plan/releases", this::release);
    api.post("/api/plan/urgent", this::urgent);
    new PlanRunRoutes(current).addTo(api);
  }

  private void day(Context c) {
    County now = plan.county();
    c.json(
        CrewDayView.of(
            plan.day(now, c.pathParam("date"), c.pathParam("crew")), now, plan.state(now)));
  }

  private void changes(Context c) {
    County now = plan.county();
    if (now.assignmentBefore().days().isEmpty()) {
      throw new Problem(Problem.Kind.NOT_READY, "there is no plan before this one yet");
    }
    synchronized (plan) {
      c.json(
          ComparisonView.of(
              now.plans()
                  .compare(
                      now.handRules(),
                      now.assignmentBefore(),
                      now.assignment(),
                      now.plan(),
                      plan.today(now)),
              now));
    }
  }

  private void trial(Context c) {
    Move move = Api.body(c, Move.class);
    County now = plan.county();
    wanted("repair", move.repair());
    c.json(plan.place(now, move.repair(), wanted("crew", move.crew()), day(move.date())));
  }

  private void move(Context c) {
    Move move = Api.body(c, Move.class);
    County now = plan.county();
    String wish = "crew " + move.crew() + " on " + move.date();
    plan.refuseOther(c, now, move.repair(), wish);
    wanted("repair", move.repair());
    Trial trial = plan.trial(now, move.repair(), wanted("crew", move.crew()), day(move.date()));
    if (!trial.possible()) {
      throw broken(new BrokenPlan(trial.broken()));
    }
    String reason = orElse(move.reason(), "moved by hand");
    HandRules rules =
        PlanKeeping.pinned(now.handRules(), trial.assignment(), move.repair(), reason);
    String to = move.crew() + " " + move.date();
    keep(
        c,
        new Wanted(now, move.repair(), wish),
        rules,
        trial.assignment(),
        "plan move " + move.repair() + " to " + to + ": " + reason,
        "Moved to crew " + move.crew() + " on " + move.date() + " and held there.");
  }

  private void settle(Context c) {
    Settle rule = Api.body(c, Settle.class);
    County now = plan.county();
    String wish =
        orElse(rule.kind(), "").replace('_', ' ')
            + (rule.date() == null ? "" : ": crew " + rule.crew() + " on " + rule.date());
    Wanted yours = new Wanted(now, rule.repair(), wish);
    plan.refuseOther(c, now, rule.repair(), wish);
    switch (orElse(rule.kind(), "")) {
      case "pin" -> {
        if (now.assignment().dayOf(wanted("repair", rule.repair())).isEmpty()) {
          throw new Problem(Problem.Kind.BAD_VALUE, "'" + rule.repair() + "' is on no crew day");
        }
        String reason = orElse(rule.reason(), "held by hand");
        HandRules rules =
            PlanKeeping.pinned(now.handRules(), now.assignment(), rule.repair(), reason);
        keepRules(
            c,
            yours,
            rules,
            "plan lock " + rule.repair() + ": " + reason,
            "The zone stays with its crew on its date.");
      }
      case "lock_day" -> {
        crew(now, rule.crew());
        String reason = orElse(rule.reason(), "locked by hand");
        HandRules rules =
            now.handRules().with(HandRule.lockDay(rule.crew(), day(rule.date()), reason));
        keepRules(
            c,
            yours,
            rules,
            "plan lock " + rule.crew() + " " + rule.date() + ": " + reason,
            "The day stays as it is.");
      }
      case "leave_out" -> leaveOut(c, yours, wanted("repair", rule.repair()), rule.reason());
      default ->
          throw new Problem(
              Problem.Kind.BAD_VALUE,
              "kind is '" + rule.kind() + "', expected pin, lock_day or leave_out");
    }
  }

  private void leaveOut(Context c, Wanted yours, String repair, String given) {
    County now = yours.now();
    String reason = wanted("reason", given);
    boolean waits = now.repairsInParts().stream().anyMatch(r -> r.defect().id().equals(repair));
    if (!waits) {
      throw new Problem(Problem.Kind.BAD_VALUE, "'" + repair + "' does not wait for repair");
    }
    keep(
        c,
        yours,
        now.handRules().with(HandRule.leaveOut(repair, reason)),
        now.plans().waiting(now.assignment()).without(Set.of(repair)),
        "plan leave-out " + repair + ": " + reason,
        "Left out; it goes on waiting.");
  }

  private void release(Context c) {
    Release release = Api.body(c, Release.class);
    County now = plan.county();
    Wanted yours = new Wanted(now, release.repair(), "taken back: what is settled by hand of it");
    plan.refuseOther(c, now, yours.repair(), yours.wish());
    HandRules rest =
        release.date() == null
            ? PlanKeeping.released(now.handRules(), wanted("repair", release.repair()))
            : PlanKeeping.released(now.handRules(), orElse(release.crew(), ""), release.date());
    if (rest.all().size() == now.handRules().all().size()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "nothing is settled by hand of that");
    }
    keepRules(c, yours, rest, "plan release", "Taken back; the plan stays until it is made again.");
  }

  private void urgent(Context c) {
    Urgent wish = Api.body(c, Urgent.class);
    County now = plan.county();
    Wanted yours = new Wanted(now, wish.repair(), "done by " + wish.by());
    plan.refuseOther(c, now, yours.repair(), yours.wish());
    String repair = wanted("repair", wish.repair());
    LocalDate by = day(wish.by());
    LocalDate today = plan.today(now);
    String reason = orElse(wish.reason(), "urgent");
    HandRules rules = now.handRules().with(HandRule.doneBy(repair, by, reason));
    boolean inTime =
        now.assignment()
            .dayOf(repair)
            .filter(d -> !d.date().isAfter(by) && !d.date().isBefore(today))
            .isPresent();
    if (inTime) {
      keepRules(
          c,
          yours,
          rules,
          "plan urgent " + repair,
          repair + " is planned in time already; the date is kept, nothing else changed.");
      return;
    }
    Replanner.Urgent found = found(now, repair, by, today);
    keep(
        c,
        yours,
        rules,
        found.assignment(),
        "plan urgent " + repair + " by " + by + ": " + reason,
        repair
            + " is done by crew "
            + found.crewId()
            + " on "
            + found.date()
            + (found.joined() ? ", in a zone planned already" : "")
            + (found.proven()
                ? ". Nothing less would do."
                : ". The least change found in the time."));
  }

  private static Replanner.Urgent found(County now, String repair, LocalDate by, LocalDate today) {
    Replanner.Urgent found;
    try {
      found =
          now.plans()
              .replanner(now.agency(), today)
              .urgent(
                  now.repairsInParts(),
                  now.assignment(),
                  repair,
                  by,
                  today.plusDays(FREEZE_DAYS),
                  URGENT_SECONDS);
    } catch (IllegalArgumentException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage());
    }
    if (found == null) {
      throw new Problem(
          Problem.Kind.BAD_VALUE, "no way was found to repair " + repair + " by " + by);
    }
    return found;
  }

  private void keep(
      Context c, Wanted yours, HandRules rules, Assignment made, String why, String said) {
    County now = yours.now();
    PlanKeeping keeping = new PlanKeeping(now, plan.today(now));
    PlanKeeping.Changed changed;
    try {
      changed = keeping.judge(rules, made);
    } catch (BrokenPlan e) {
      throw broken(e);
    }
    try {
      keeping.keep(current.store(), Caller.name(c), "desk: " + why, changed);
    } catch (NotReady e) {
      throw plan.stale(c, plan.county(), yours.repair(), yours.wish());
    }
    c.json(new Kept(plan.state(plan.county()), said, ComparisonView.of(changed.comparison(), now)));
  }

  private void keepRules(Context c, Wanted yours, HandRules rules, String why, String said) {
    County now = yours.now();
    try {
      new PlanKeeping(now, plan.today(now))
          .keepRules(current.store(), Caller.name(c), "desk: " + why, rules);
    } catch (NotReady e) {
      throw plan.stale(c, plan.county(), yours.repair(), yours.wish());
    }
    c.json(new Kept(plan.state(plan.county()), said, null));
  }

  static Problem broken(BrokenPlan e) {
    return new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("broken", e.broken());
  }

  private static void crew(County now, String id) {
    if (now.agency().crews().stream().map(Crew::id).noneMatch(wanted("crew", id)::equals)) {
      throw new Problem(Problem.Kind.BAD_VALUE, "there is no crew '" + id + "'");
    }
  }

  private static LocalDate day(LocalDate given) {
    if (given == null) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the date is missing").with("field", "date");
    }
    return given;
  }

  private static String wanted(String field, String value) {
    if (value == null || value.isBlank()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "the " + field + " is missing")
          .with("field", field);
    }
    return value;
  }

  private static String orElse(String value, String otherwise) {
    return value == null || value.isBlank() ? otherwise : value.strip();
  }
}
