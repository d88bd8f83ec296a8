package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import lanemend.county.County;
import lanemend.county.NotReady;
import lanemend.county.SectionDecisions;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.RenewalProposal;

/** An engineer's decisions: kept with name and reason, replaced, taken back. */
final class RenewalDecideRoutes implements Area {
  private final CurrentCounty county;

  /** Looking and keeping are one step, so that of two at once the second sees the first. */
  private final Object deciding = new Object();

  RenewalDecideRoutes(CurrentCounty county) {
    this.county = county;
  }

  /**
   * A decision.
   *
   * @param kind {@code added}, {@code accepted}, {@code limits_changed}, {@code deferred} or {@code
   *     rejected}
   * @param from milepost where the stretch begins, such as {@code 12.4} or {@code 12.4 back}
   * @param newFrom limits decided on; only where they are changed
   * @param year overlay in it where accepted, not before it where put off; null for none
   * @param by the engineer who decides
   */
  record Verdict(
      String kind,
      String route,
      String from,
      String to,
      String newFrom,
      String newTo,
      Integer year,
      String reason,
      String by) {}

  /** Takes back what is decided of a stretch. */
  record Withdrawal(String route, String from, String to, String reason) {}

  /**
   * One of two decisions on the same stretch, side by side.
   *
   * @param from milepost, as are the other limits
   * @param version to decide over it; null for the one that was asked for
   */
  record Side(
      String section,
      String decision,
      String from,
      String to,
      String reason,
      String by,
      LocalDate on,
      String version) {
    static final Side NONE =
        new Side("", SectionState.words(Optional.empty()), "", "", "", "", null, "0");

    static Side of(County now, DecidedSection d, String version) {
      EngineerDecision e = d.decision();
      return new Side(
          e.sectionId(),
          SectionState.words(Optional.of(d)),
          PlanView.milepost(now, d.routeId(), e.fromAlongM()),
          PlanView.milepost(now, d.routeId(), e.toAlongM()),
          e.reason(),
          e.by(),
          e.on(),
          version);
    }
  }

  /**
   * What became of it.
   *
   * @param section its name, or empty where the study knows it no longer
   */
  record Kept(String section, String said) {}

  @Override
  public void addTo(Api api) {
    api.post("/api/renewal/decisions", this::decide);
    api.post("/api/renewal/withdrawals", this::withdraw);
  }

  private static Route route(County now, String id) {
    return now.network()
        .route(wanted("route", id))
        .orElseThrow(
            () ->
                new Problem(Problem.Kind.BAD_VALUE, "there is no route '" + id + "'")
                    .with("field", "route"));
  }

  private static SectionDecisions.Stretch stretch(
      Route on, String fromField, String from, String toField, String to) {
    try {
      return SectionDecisions.Stretch.of(on, wanted(fromField, from), wanted(toField, to));
    } catch (NotReady e) {
      throw new Problem(Problem.Kind.BAD_PLACE, e.getMessage()).with("field", fromField);
    }
  }

  private void decide(Context c) {
    Verdict v = Api.body(c, Verdict.class);
    County now = county.get();
    Route on = route(now, v.route());
    EngineerDecision.Kind kind =
        DeskWords.read(EngineerDecision.Kind.class, "kind", wanted("kind", v.kind()));
    SectionDecisions.Stretch named = stretch(on, "from", v.from(), "to", v.to());
    boolean moved = kind == EngineerDecision.Kind.LIMITS_CHANGED;
    SectionDecisions.Stretch limits =
        moved ? stretch(on, "newFrom", v.newFrom(), "newTo", v.newTo()) : named;
    DecidedSection decided;
    try {
      decided =
          new SectionDecisions.Verdict(
                  kind,
                  named,
                  limits,
                  year(kind, v.year()),
                  wanted("reason", v.reason()),
                  wanted("by", v.by()))
              .on(on, LocalDate.now(ZoneId.systemDefault()));
    } catch (NotReady e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("field", "newFrom");
    }
    int opened;
    synchronized (deciding) {
      refuseUnseen(c, on, named, limits, Side.of(now, decided, null));
      opened =
          SectionDecisions.keep(
              county.store(),
              Caller.name(c),
              "desk: "
                  + SectionState.words(Optional.of(decided))
                  + ", "
                  + decided.decision().sectionId()
                  + ": "
                  + decided.decision().reason(),
              decided);
    }
    c.json(new Kept(decided.decision().sectionId(), said(decided, opened)));
  }

  private String said(DecidedSection decided, int opened) {
    String id = decided.decision().sectionId();
    String said = id + ": " + SectionState.words(Optional.of(decided)) + ".";
    if (opened > 0) {
      said += " " + opened + (opened == 1 ? " defect is" : " defects are") + " open again.";
    }
    County now = county.get();
    long held =
        now.underOverlay(now.agency().plan().firstDay().getYear()).stream()
            .filter(h -> h.sectionId().equals(id))
            .count();
    return held == 0
        ? said
        : said
            + " From the next plan on "
            + held
            + (held == 1 ? " defect waits" : " defects wait")
            + " for it and "
            + (held == 1 ? "is" : "are")
            + " only held together.";
  }

  private void withdraw(Context c) {
    Withdrawal w = Api.body(c, Withdrawal.class);
    County now = county.get();
    Route on = route(now, w.route());
    SectionDecisions.Stretch stretch = stretch(on, "from", w.from(), "to", w.to());
    String reason = wanted("reason", w.reason());
    Side yours = new Side("", "taken back", w.from(), w.to(), reason, Caller.name(c), null, null);
    SectionDecisions.Withdrawn gone;
    synchronized (deciding) {
      refuseUnseen(c, on, stretch, stretch, yours);
      gone =
          SectionDecisions.withdraw(
              county.store(), Caller.name(c), "desk: decision taken back: " + reason, on, stretch);
    }
    String ids = String.join(", ", gone.sections());
    c.json(
        new Kept(
            "",
            ids
                + ": taken back"
                + (gone.opened() == 0
                    ? "."
                    : "; " + gone.opened() + " defects are open again, for the next plan.")));
  }

  /** Refuses to replace a decision that whoever asks has not seen, and shows both. */
  private void refuseUnseen(
      Context c,
      Route on,
      SectionDecisions.Stretch named,
      SectionDecisions.Stretch limits,
      Side yours) {
    String given = c.header("If-Match");
    if (given == null || given.isBlank()) {
      throw new Problem(
          Problem.Kind.VERSION_MISSING,
          "a decision needs the version of the one that was read, as If-Match: \"0\" for none");
    }
    County now = county.get();
    String id = RenewalProposal.idOf(on, named.fromAlongM(), named.toAlongM());
    Optional<DecidedSection> there =
        now.decisions().stream()
            .filter(
                d ->
                    d.overlaps(on.id(), limits.fromAlongM(), limits.toAlongM())
                        || d.decision().sectionId().equals(id))
            .findFirst();
    String version = SectionView.version(there);
    if (!version.equals(given.replace("\"", ""))) {
      throw new Problem(
              Problem.Kind.STALE,
              there
                  .map(
                      d ->
                          "there is a decision on this stretch that you had not seen: "
                              + d.decision().sectionId()
                              + ", "
                              + SectionState.words(there)
                              + " by "
                              + d.decision().by())
                  .orElse("the decision on this stretch was taken back meanwhile: look again"))
          .with("yours", yours)
          .with("theirs", there.map(d -> Side.of(now, d, version)).orElse(Side.NONE));
    }
  }

  private static int year(EngineerDecision.Kind kind, Integer year) {
    boolean takes = kind != EngineerDecision.Kind.ADDED && kind != EngineerDecision.Kind.REJECTED;
    if (year == null && kind == EngineerDecision.Kind.DEFERRED) {
      throw new Problem(Problem.Kind.BAD_VALUE, "what is put off needs a first year")
          .with("field", "year");
    }
    if (year != null && (!takes || year < 2000 || year > 2199)) {
      throw new Problem(
              Problem.Kind.BAD_VALUE,
              takes
                  ? "year is " + year + ", expected one from 2000 to 2199"
                  : "a year goes with what is accepted or put off only")
          .with("field", "year");
    }
    return year == null ? 0 : year;
  }

  private static String wanted(String field, String value) {
    if (value == null || value.isBlank()) {
      String name =
          switch (field) {
            case "by" -> "the name of the engineer who decides";
            case "newFrom", "newTo" -> "a milepost of the new limits";
            case "from", "to" -> "a milepost of the stretch";
            default -> "the " + field;
          };
      throw new Problem(Problem.Kind.BAD_VALUE, name + " is missing").with("field", field);
    }
    return value.strip();
  }
}
