package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lanemend.county.BrokenPlan;
import lanemend.county.County;
import lanemend.county.LearnedEffect;
import lanemend.county.LearnedWork;
import lanemend.county.NotReady;
import lanemend.crewdays.Crew;
import lanemend.crewdays.learning.Learning;
import lanemend.crewdays.learning.Proposal;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.measure.Unit;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.Treatment;
import lanemend.store.StoreException;

/** What done work teaches, what it would do to the plan, and what of it is in force. */
final class LearnedRoutes implements Area {
  private static final long ITERATIONS = 10_000;
  private static final long SEED = 1;
  private static final int NAMED = 20;

  private final CurrentCounty county;
  private final Clock clock;
  private long learnedAt = -1;
  private Learning learning;
  private Effect effect = new Effect("none", 0, List.of(), "", List.of(), List.of());

  LearnedRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /**
   * What is proposed and in force.
   *
   * @param state stands for the proposals that were read
   * @param farOff repairs far from the others, with how they count
   * @param notUsed what could not be compared, with the reason
   */
  record Learned(
      String state,
      List<Proposed> proposals,
      List<InForce> inForce,
      List<String> farOff,
      List<String> notUsed) {}

  /**
   * A proposed factor.
   *
   * @param clear records speak for it: what is in force lies outside the interval
   * @param usable false for what is only shown
   */
  record Proposed(
      String key,
      String about,
      String now,
      String proposed,
      String interval,
      int records,
      String own,
      boolean clear,
      boolean usable,
      String reason) {}

  /** A factor in force. */
  record InForce(String key, String about, String factor, String source) {}

  /** Which factors. */
  record Keys(List<String> keys) {}

  /** What became of it. */
  record Said(String said) {}

  /**
   * What factors would do to the plan.
   *
   * @param state {@code none}, {@code running}, {@code known} or {@code failed}
   * @param share done, 0 to 1
   * @param keys of the factors it is about
   * @param said what went wrong, or empty
   * @param broken limits the kept plan would break
   */
  record Effect(
      String state,
      double share,
      List<String> keys,
      String said,
      List<Row> rows,
      List<String> broken) {}

  /** One plan in few numbers, as the agency reads them; null where it cannot be worked. */
  record Row(
      String plan,
      int crewDays,
      int repairs,
      int leftOut,
      String mix,
      String crewHours,
      String cost,
      String meanChance,
      String leastChance) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/learned", c -> c.json(learned()));
    api.get("/api/learned/effect", c -> c.json(effect()));
    api.post("/api/learned/effect", this::startEffect);
    api.post("/api/learned/accept", this::accept);
    api.post("/api/learned/release", this::release);
  }

  private synchronized Learning learning(County now) {
    if (learnedAt != now.lastChange()) {
      learning = new LearnedWork(now).learn(null, null);
      learnedAt = now.lastChange();
    }
    return learning;
  }

  private static String state(Learning learning) {
    return Integer.toHexString(learning.proposals().hashCode());
  }

  private Learned learned() {
    County now = county.get();
    Learning all = learning(now);
    List<String> notUsed = new ArrayList<>();
    for (Map.Entry<Measure, Map<String, Integer>> of : all.without().entrySet()) {
      of.getValue()
          .forEach(
              (why, n) ->
                  notUsed.add(
                      String.format(
                          Locale.ROOT, "%s of %,d repairs: %s", name(of.getKey()), n, why)));
    }
    return new Learned(
        state(all),
        all.proposals().stream().map(p -> proposed(now, p)).toList(),
        now.learned().all().stream()
            .map(
                f ->
                    new InForce(
                        f.key(),
                        about(now, f.measure(), f.treatment(), f.crewId()),
                        ratio(f.factor()),
                        f.source()))
            .toList(),
        all.pulled().stream().map(LearnedRoutes::farOff).toList(),
        notUsed);
  }

  private static String farOff(Learning.Pulled p) {
    return String.format(
        Locale.ROOT,
        "%s on %s: %s is %.2f times its plan; it counts as %.2f",
        p.id(),
        p.on(),
        name(p.measure()).toLowerCase(Locale.ROOT),
        p.ratio(),
        p.countedAs());
  }

  private static Proposed proposed(County now, Proposal p) {
    return new Proposed(
        p.key(),
        about(now, p.measure(), p.treatment(), p.crewId()),
        ratio(p.now()),
        ratio(p.proposed()),
        ratio(p.low()) + " to " + ratio(p.high()),
        p.records(),
        ratio(p.own()),
        p.clear(),
        p.usable(),
        p.reason());
  }

  private static String ratio(double v) {
    return String.format(Locale.ROOT, "%.2f", v);
  }

  private static String name(Measure m) {
    return switch (m) {
      case MINUTES -> "Minutes";
      case MIX -> "Mix";
      case HOUR_COST -> "Cost of a crew's hour";
    };
  }

  private static String about(County now, Measure m, Treatment t, String crewId) {
    String crew =
        now.agency().crews().stream()
            .filter(c -> c.id().equals(crewId))
            .map(Crew::name)
            .findFirst()
            .orElse(crewId.isEmpty() ? "the agency" : crewId);
    return name(m) + ", " + (t == null ? "" : DeskWords.plain(t) + ", ") + crew;
  }

  private List<Proposal> named(List<String> keys, Learning all) {
    if (keys == null || keys.isEmpty()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "no factor was named").with("field", "keys");
    }
    List<Proposal> named = new ArrayList<>();
    for (String key : keys) {
      Proposal p =
          all.proposal(String.valueOf(key))
              .orElseThrow(
                  () -> new Problem(Problem.Kind.NOT_FOUND, "no factor '" + key + "' is proposed"));
      if (!p.usable()) {
        throw new Problem(Problem.Kind.BAD_VALUE, "'" + key + "' is shown only: " + p.reason());
      }
      named.add(p);
    }
    return named;
  }

  private void accept(Context c) {
    Keys form = Api.body(c, Keys.class);
    County now = county.get();
    Learning all = learning(now);
    List<Proposal> chosen = named(form.keys(), all);
    String given = c.header("If-Match");
    if (given == null || given.isBlank()) {
      throw new Problem(
          Problem.Kind.VERSION_MISSING, "the proposals that were read must be named, as If-Match");
    }
    if (!given.replace("\"", "").equals(state(all))) {
      throw new Problem(
          Problem.Kind.STALE, "work was recorded meanwhile and other factors are proposed now");
    }
    new LearnedWork(now).accept(county.store(), Caller.name(c), LocalDate.now(clock), chosen);
    c.json(
        new Said(chosen.size() + " in force now. Plan crew days again: the kept plan is older."));
  }

  private void release(Context c) {
    Keys form = Api.body(c, Keys.class);
    if (form.keys() == null || form.keys().isEmpty()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "no factor was named").with("field", "keys");
    }
    LearnedWork.release(county.store(), Caller.name(c), form.keys());
    c.json(new Said("No longer in force. Plan crew days again: the kept plan is older."));
  }

  private synchronized Effect effect() {
    return effect;
  }

  private synchronized void put(Effect now) {
    effect = now;
  }

  private void startEffect(Context c) {
    Keys form = Api.body(c, Keys.class);
    County now = county.get();
    List<LearnedFactor> more =
        named(form.keys(), learning(now)).stream()
            .map(p -> p.accepted(Caller.name(c), LocalDate.now(clock)))
            .toList();
    List<String> keys = List.copyOf(form.keys());
    synchronized (this) {
      if (effect.state().equals("running")) {
        throw new Problem(Problem.Kind.NOT_READY, "an effect is being worked out already");
      }
      effect = new Effect("running", 0, keys, "", List.of(), List.of());
    }
    Thread thread = new Thread(() -> work(now, more, keys), "effect of learned factors");
    thread.setDaemon(true);
    thread.start();
    c.status(202).json(effect());
  }

  private void work(County now, List<LearnedFactor> more, List<String> keys) {
    String said;
    try {
      LearnedEffect found =
          LearnedEffect.of(
              now,
              more,
              SearchBudget.iterations(ITERATIONS, SEED),
              (stage, share, best) -> {
                put(new Effect("running", share, keys, "", List.of(), List.of()));
                return true;
              });
      put(
          new Effect(
              "known",
              1,
              keys,
              "",
              rows(found, now),
              found.broken().stream().limit(NAMED).toList()));
      return;
    } catch (BrokenPlan | NotReady | StoreException e) {
      said = e.getMessage();
    } catch (RuntimeException e) {
      said = "the effect cannot be worked out: " + e;
    }
    put(new Effect("failed", 1, keys, said, List.of(), List.of()));
  }

  private static List<Row> rows(LearnedEffect e, County now) {
    List<Row> rows = new ArrayList<>();
    if (e.keptWithout() != null) {
      rows.add(row("Plan as kept", e.keptWithout(), now));
    }
    if (e.keptWith() != null) {
      rows.add(row("The same days with these factors", e.keptWith(), now));
    }
    rows.add(row("Planned anew without", e.anewWithout(), now));
    rows.add(row("Planned anew with these factors", e.anewWith(), now));
    return rows;
  }

  private static Row row(String plan, LearnedEffect.Totals t, County now) {
    return new Row(
        plan,
        t.plan().crewDays(),
        t.plan().repairs(),
        t.plan().leftOut(),
        now.units().show(t.plan().tonnes(), Unit.TONNE).text(),
        now.units().show(t.crewHours(), Unit.HOUR).text(),
        String.format(Locale.ROOT, "%,.0f %s", t.plan().cost(), now.agency().plan().currency()),
        chance(t.meanChance()),
        chance(t.leastChance()));
  }

  private static String chance(double v) {
    return Double.isNaN(v) ? "" : String.format(Locale.ROOT, "%.0f %%", 100 * v);
  }
}
