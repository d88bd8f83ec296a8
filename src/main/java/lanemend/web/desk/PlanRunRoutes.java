package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.NotReady;
import lanemend.county.PlanMaking;
import lanemend.crewdays.Agency;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanStop;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.store.Store;
import lanemend.store.StoreException;

/**
 * Planning in the background: one run at a time, watched and ended from a page. What it finds is
 * checked and written in one change; whatever ends it before leaves the plan as it was.
 */
final class PlanRunRoutes implements Area {
  private static final double LONGEST_SECONDS = 3600;
  private static final double USUAL_SECONDS = 20;
  private static final long SEED = 1;

  private final Store store;
  private final String who;
  private Run run = new Run("none", "", 0, null, "", "");
  private PlanStop stop = new PlanStop();

  PlanRunRoutes(CurrentCounty county, String who) {
    this.store = county.store();
    this.who = who;
  }

  /**
   * What to plan.
   *
   * @param from first day, or null for the agency's
   * @param until last day, or null for the agency's
   * @param seconds longest search, or null for {@value #USUAL_SECONDS}
   * @param iterations steps on each core in place of seconds, for the same result each time
   */
  record Wish(LocalDate from, LocalDate until, Double seconds, Long iterations) {}

  /**
   * How it gets on.
   *
   * @param state {@code none}, {@code running}, {@code ending} when it was told to stop, {@code
   *     kept} or {@code failed}
   * @param share of the stage, 0 to 1
   * @param best cost of the best plan so far with what it leaves out priced in, or null
   * @param said in a sentence, once it has ended
   */
  record Run(String state, String stage, double share, Double best, String currency, String said) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/plan/run", c -> c.json(now()));
    api.post("/api/plan/run", this::start);
    api.delete("/api/plan/run", this::end);
  }

  private synchronized Run now() {
    return run;
  }

  private synchronized void start(Context c) {
    Wish wish = Api.body(c, Wish.class);
    if (isRunning()) {
      throw new Problem(Problem.Kind.NOT_READY, "planning is under way already");
    }
    County county = County.read(store);
    Agency agency = over(county.agency(), wish);
    SearchBudget budget = budget(wish);
    PlanStop ends = new PlanStop();
    stop = ends;
    String currency = agency.plan().currency();
    run = new Run("running", "work zones", 0, null, currency, "");
    Thread thread =
        new Thread(() -> work(county, agency, budget, ends, currency), "plan crew days");
    thread.setDaemon(true);
    thread.start();
    c.status(202).json(run);
  }

  private boolean isRunning() {
    return run.state().equals("running") || run.state().equals("ending");
  }

  private synchronized void end(Context c) {
    if (isRunning()) {
      stop.stop();
      run = new Run("ending", run.stage(), run.share(), run.best(), run.currency(), "");
    }
    c.json(run);
  }

  private static Agency over(Agency agency, Wish wish) {
    if (wish.from() == null && wish.until() == null) {
      return agency;
    }
    LocalDate first = wish.from() == null ? agency.plan().firstDay() : wish.from();
    if (wish.until() == null) {
      return agency.withHorizon(first, null);
    }
    long days = ChronoUnit.DAYS.between(first, wish.until()) + 1;
    if (days < 1 || days > 400) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              "the plan would run from "
                  + first
                  + " to "
                  + wish.until()
                  + ", expected 1 to 400 days")
          .with("field", "until");
    }
    return agency.withHorizon(first, (int) days);
  }

  private static SearchBudget budget(Wish wish) {
    if (wish.iterations() != null) {
      if (wish.iterations() < 1 || wish.iterations() > 10_000_000) {
        throw new Problem(Problem.Kind.BAD_VALUE, "iterations must be from 1 to 10,000,000");
      }
      return SearchBudget.iterations(wish.iterations(), SEED);
    }
    double seconds = wish.seconds() == null ? USUAL_SECONDS : wish.seconds();
    if (!(seconds >= 1 && seconds <= LONGEST_SECONDS)) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              "search time is " + seconds + " seconds, expected 1 to " + LONGEST_SECONDS)
          .with("field", "seconds");
    }
    return SearchBudget.seconds(seconds, SEED);
  }

  private void work(
      County county, Agency agency, SearchBudget budget, PlanStop ends, String currency) {
    String state = "failed";
    String said;
    try {
      PlanMaking making = new PlanMaking(county, agency);
      PlanMaking.Made made =
          making.onLatest(store, making.make(budget, ends.hearing(told(currency))));
      PlanMaking.keep(store, who, made);
      state = "kept";
      said =
          String.format(
              Locale.US,
              "%d crew days, %,.0f %s; %d left out. Checked: no limit is broken.",
              made.whole().days().size(),
              made.whole().cost(),
              currency,
              made.whole().leftOut().size());
    } catch (BrokenPlan | NotReady | StoreException e) {
      said = e.getMessage();
    } catch (RuntimeException e) {
      said = "planning failed: " + e;
    }
    over(new Run(state, "", 1, null, currency, said));
  }

  private synchronized void over(Run ended) {
    run = ended;
  }

  private PlanProgress told(String currency) {
    return (stage, share, best) -> {
      tell(stage, share, best, currency);
      return true;
    };
  }

  private synchronized void tell(String stage, double share, double best, String currency) {
    run = new Run(run.state(), stage, share, Double.isFinite(best) ? best : null, currency, "");
  }
}
