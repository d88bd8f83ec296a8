package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.function.Supplier;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.NotReady;
import lanemend.county.PlanKeeping;
import lanemend.county.PlanMaking;
import lanemend.crewdays.Agency;
import lanemend.crewdays.HandRule;
import lanemend.crewdays.HandRules;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProgress;
import lanemend.crewdays.PlanStop;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.store.Store;
import lanemend.store.StoreException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Planning in the background: one run at a time, watched and ended from a page. What it finds is
 * checked and written in one change; whatever ends it before leaves the plan as it was.
 */
final class PlanRunRoutes implements Area {
  private static final double LONGEST_SECONDS = 3600;
  private static final double USUAL_SECONDS = 20;
  private static final long SEED = 1;
  private static final long GIVE_UP_MILLIS = 10_000;
  private static final Logger LOG = LoggerFactory.getLogger("lanemend.desk.plan");

  private final CurrentCounty current;
  private final Store store;
  private Run run = new Run("none", "", 0, null, "", "");
  private PlanStop stop = new PlanStop();
  private Thread at;
  private volatile boolean givenUp;
  private DeskMetrics metrics;

  PlanRunRoutes(CurrentCounty county) {
    this.current = county;
    this.store = county.store();
  }

  /**
   * What to plan.
   *
   * @param from first day, or null for the agency's
   * @param until last day, or null for the agency's
   * @param seconds longest search, or null for {@value #USUAL_SECONDS}
   * @param iterations steps on each core in place of seconds, for the same result each time
   * @param keepOtherDays true to plan those dates only: crew days on others stay as they are
   * @param adjust true to change the kept plan as little as can be, over its own dates, in place of
   *     planning anew
   * @param close a day on which nobody works, or one crew does not; only with {@code adjust}
   */
  record Wish(
      LocalDate from,
      LocalDate until,
      Double seconds,
      Long iterations,
      boolean keepOtherDays,
      boolean adjust,
      Close close) {}

  /** A day without work; crew null or empty for every crew. */
  record Close(LocalDate date, String crew, String reason) {}

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
    metrics = api.metrics();
    api.atStop(this::giveUp);
  }

  private synchronized Run now() {
    return run;
  }

  private synchronized void start(Context c) {
    Wish wish = Api.body(c, Wish.class);
    if (isRunning()) {
      throw new Problem(Problem.Kind.NOT_READY, "planning is under way already");
    }
    County county = current.get();
    refuseMixed(wish, county);
    Agency agency = over(county.agency(), wish);
    SearchBudget budget = budget(wish);
    PlanStop ends = new PlanStop();
    stop = ends;
    String who = Caller.name(c);
    String currency = agency.plan().currency();
    run = new Run("running", "work zones", 0, null, currency, "");
    PlanProgress progress = ends.hearing(told(currency));
    Supplier<String> work =
        wish.adjust()
            ? () -> adjusted(who, county, rules(county, wish.close()), budget, progress)
            : () ->
                anew(
                    who,
                    PlanMaking.over(
                        county,
                        agency,
                        wish.keepOtherDays(),
                        LocalDate.now(ZoneId.systemDefault())),
                    budget,
                    progress);
    Thread thread = new Thread(() -> work(work, currency), "plan crew days");
    thread.setDaemon(true);
    at = thread;
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

  private void work(Supplier<String> work, String currency) {
    String state = "failed";
    String said;
    try {
      said = work.get();
      // The page asks for the plan as soon as it hears that it is kept.
      current.planReady();
      state = "kept";
    } catch (BrokenPlan | NotReady | StoreException e) {
      said = e.getMessage();
    } catch (RuntimeException e) {
      said = "planning failed: " + e + " (fault " + Fault.logged("plan run", e) + " in the log)";
    }
    metrics.planRun(state);
    LOG.atInfo().addKeyValue("ended", state).addKeyValue("said", said).log("plan run");
    over(new Run(state, "", 1, null, currency, said));
  }

  /**
   * Ends a run at hand without its plan, and waits until it has: the store is about to be closed.
   */
  private void giveUp() {
    Thread running;
    synchronized (this) {
      givenUp = true;
      stop.stop();
      running = at;
    }
    try {
      if (running != null) {
        running.join(GIVE_UP_MILLIS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void refuseGivenUp() {
    if (givenUp) {
      throw new NotReady("the desk was stopped while it planned; the plan before stands");
    }
  }

  private String anew(String who, PlanMaking making, SearchBudget budget, PlanProgress progress) {
    PlanMaking.Made made = making.onLatest(store, making.make(budget, progress));
    refuseGivenUp();
    PlanMaking.keep(store, who, made);
    return said(made.whole());
  }

  private String adjusted(
      String who, County county, HandRules rules, SearchBudget budget, PlanProgress progress) {
    LocalDate today =
        PlanKeeping.today(county.agency().plan(), LocalDate.now(ZoneId.systemDefault()));
    PlanKeeping keeping = new PlanKeeping(county, today);
    PlanKeeping.Changed changed =
        keeping.judge(
            rules,
            keeping.adjusted(rules, PlanRoutes.FREEZE_DAYS, keeping.movePrice(), budget, progress));
    refuseGivenUp();
    keeping.keep(store, who, "desk: plan adjust", changed);
    return said(changed.plan());
  }

  private static String said(Plan plan) {
    return String.format(
        Locale.US,
        "%d crew days, %,.0f %s; %d left out. Checked: no limit is broken.",
        plan.days().size(),
        plan.cost(),
        plan.currency(),
        plan.leftOut().size());
  }

  private static HandRules rules(County county, Close close) {
    return close == null
        ? county.handRules()
        : county
            .handRules()
            .with(
                HandRule.closeDay(
                    close.crew() == null ? "" : close.crew(), close.date(), close.reason()));
  }

  private static void refuseMixed(Wish wish, County county) {
    Close close = wish.close();
    if (wish.adjust() && county.assignment().days().isEmpty()) {
      throw new Problem(Problem.Kind.NOT_READY, "nothing is planned yet that could be adjusted");
    }
    boolean dated = wish.from() != null || wish.until() != null || wish.keepOtherDays();
    if (wish.adjust() && dated) {
      throw new Problem(Problem.Kind.BAD_VALUE, "a plan is adjusted over its own dates");
    }
    if (close == null) {
      return;
    }
    String crew = close.crew() == null ? "" : close.crew();
    boolean known =
        crew.isEmpty() || county.agency().crews().stream().anyMatch(c -> c.id().equals(crew));
    if (!wish.adjust() || !known || close.date() == null || isBlank(close.reason())) {
      throw new Problem(
          Problem.Kind.BAD_VALUE,
          "a day is closed with a date, a reason, a crew there is or none, and by adjusting");
    }
  }

  private static boolean isBlank(String text) {
    return text == null || text.isBlank();
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
