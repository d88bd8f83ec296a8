package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import lanemend.accounts.Recent;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Crew;
import lanemend.crewdays.CrewDay;
import lanemend.crewdays.OpenPlan;
import lanemend.crewdays.Trial;
import lanemend.crewdays.WorkWeather;

/**
 * The kept plan, opened once for as long as nothing is written. One request at a time works on it,
 * since an open plan is not for several threads.
 */
final class PlanAtHand {
  /** Plans that pages may still show, to tell what was changed since. */
  private static final int KEPT = 100;

  private final CurrentCounty county;
  private final Clock clock;
  private final Map<String, Seen> seen = new Recent<>(KEPT);

  private County opened;
  private LocalDate openedOn;
  private OpenPlan open;

  PlanAtHand(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /**
   * What a zone would do on a crew day.
   *
   * @param home true for the day it is on now
   * @param difference of the plan's cost, signed; null where the zone has no cost there
   */
  record Place(
      LocalDate date,
      String crew,
      boolean home,
      boolean possible,
      String difference,
      List<String> broken) {}

  /** A plan as it was shown, with the change log's last line then. */
  private record Seen(Assignment plan, long lastChange) {}

  /** Where a repair is done. */
  record At(LocalDate date, String crew) {
    static At of(Assignment plan, String repair) {
      return plan.dayOf(repair).map(d -> new At(d.date(), d.crewId())).orElse(null);
    }
  }

  /**
   * What somebody else made of the plan.
   *
   * @param state to be given back by who changes it all the same
   * @param changes writes since the plan was read
   * @param repair the one that was to be changed, or null
   * @param before where it was when the plan was read, null for on no day
   * @param now where it is now, null for on no day
   */
  record Theirs(String state, List<Since> changes, String repair, At before, At now) {}

  /** A write since. */
  record Since(Instant at, String who, String why) {}

  County county() {
    return county.get();
  }

  LocalDate today(County now) {
    return PlanKeeping.today(now.agency().plan(), LocalDate.now(clock));
  }

  /** Stands for the plan and the rules it was made by. */
  String state(County now) {
    String state = stateOf(now);
    synchronized (seen) {
      seen.putIfAbsent(state, new Seen(now.assignment(), now.lastChange()));
    }
    return state;
  }

  private static String stateOf(County now) {
    return Integer.toHexString(31 * now.assignment().hashCode() + now.handRules().all().hashCode());
  }

  /** Refuses a change to a plan that is no longer the one the user sees. */
  void refuseOther(Context c, County now, String repair, String yours) {
    String given = c.header("If-Match");
    if (given == null || given.isBlank()) {
      throw new Problem(
          Problem.Kind.VERSION_MISSING,
          "a change of the plan needs the state that was read, as If-Match: \"" + "1a2b" + "\"");
    }
    if (!given.replace("\"", "").equals(stateOf(now))) {
      throw stale(c, now, repair, yours);
    }
  }

  /**
   * The refusal with both: what is wanted, and what somebody else made of the plan.
   *
   * @param repair of the zone that was to be changed, or null
   * @param yours what was wanted, in words
   */
  Problem stale(Context c, County now, String repair, String yours) {
    String given = c.header("If-Match");
    Seen was;
    synchronized (seen) {
      was = given == null ? null : seen.get(given.replace("\"", ""));
    }
    List<Since> changes =
        was == null
            ? List.of()
            : county.read(s -> s.writesSince(was.lastChange())).stream()
                .map(w -> new Since(w.at(), w.who(), w.why()))
                .toList();
    String named = repair == null || repair.isBlank() ? null : repair;
    return new Problem(
            Problem.Kind.STALE,
            "the plan was changed by "
                + (changes.isEmpty() ? "somebody" : changes.get(changes.size() - 1).who())
                + " while you had it open")
        .with("yours", yours)
        .with(
            "theirs",
            new Theirs(
                state(now),
                changes,
                named,
                was == null || named == null ? null : At.of(was.plan(), named),
                named == null ? null : At.of(now.assignment(), named)));
  }

  synchronized PlanView view() {
    County now = county();
    String ready =
        now.assignment().days().isEmpty() ? "Nothing is planned yet. Press Plan to begin." : null;
    return PlanView.of(now, today(now), ready, state(now), KeptProof.of(county.store()));
  }

  synchronized CrewDay day(County now, String date, String crew) {
    return now.plan().days().stream()
        .filter(d -> d.date().toString().equals(date) && d.crew().id().equals(crew))
        .findFirst()
        .orElseThrow(
            () ->
                new Problem(
                    Problem.Kind.NOT_FOUND,
                    "the plan has no work for crew '" + crew + "' on " + date));
  }

  synchronized Trial trial(County now, String repair, String crew, LocalDate date) {
    try {
      return open(now).move(repair, crew, date);
    } catch (IllegalArgumentException e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage());
    }
  }

  private OpenPlan open(County now) {
    LocalDate today = today(now);
    if (open == null || opened.lastChange() != now.lastChange() || !openedOn.equals(today)) {
      open = now.plans().openPlan(today);
      opened = now;
      openedOn = today;
    }
    return open;
  }

  /** What the zone of a repair would do on each day still to come on which somebody works. */
  synchronized List<Place> places(String repair) {
    County now = county();
    Agency agency = now.agency();
    LocalDate today = today(now);
    List<Place> places = new ArrayList<>();
    for (WorkWeather.Outlook sky : WorkWeather.of(agency).dates()) {
      boolean comes = !sky.date().isBefore(today);
      if (comes && agency.plan().workdays().contains(sky.date().getDayOfWeek())) {
        for (Crew crew : agency.crews()) {
          places.add(place(now, repair, crew.id(), sky.date()));
        }
      }
    }
    return places;
  }

  /** Judges one day. */
  synchronized Place place(County now, String repair, String crew, LocalDate date) {
    Trial trial = trial(now, repair, crew, date);
    String difference =
        trial.costAfter() == null
            ? null
            : ComparisonView.signed(
                trial.costAfter().subtract(trial.costBefore()).doubleValue(),
                now.agency().plan().currency());
    boolean home =
        now.assignment()
            .dayOf(repair)
            .filter(d -> d.crewId().equals(crew) && d.date().equals(date))
            .isPresent();
    return new Place(date, crew, home, trial.possible(), difference, trial.broken());
  }
}
