package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.county.PlanKeeping;
import lanemend.crewdays.Agency;
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
  private final CurrentCounty county;
  private final Clock clock;
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

  County county() {
    return county.get();
  }

  LocalDate today(County now) {
    return PlanKeeping.today(now.agency().plan(), LocalDate.now(clock));
  }

  /** Stands for the plan and the rules it was made by. */
  static String state(County now) {
    return Integer.toHexString(31 * now.assignment().hashCode() + now.handRules().all().hashCode());
  }

  /** Refuses a change to a plan that is no longer the one the user sees. */
  static void refuseOther(Context c, County now) {
    String given = c.header("If-Match");
    if (given == null || given.isBlank()) {
      throw new Problem(
          Problem.Kind.VERSION_MISSING,
          "a change of the plan needs the state that was read, as If-Match: \"" + "1a2b" + "\"");
    }
    if (!given.replace("\"", "").equals(state(now))) {
      throw new Problem(
          Problem.Kind.STALE,
          "the plan was changed by somebody else while you had it open: look at it again first");
    }
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
