package lanemend.web.desk;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import lanemend.county.County;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.patching.ChosenTreatment;
import lanemend.patching.PatchDesign;
import lanemend.patching.Treatment;
import lanemend.patching.WorkStep;
import lanemend.store.Stored;

/** The repair of a defect: what the rules say, each number traced, and choosing another by hand. */
final class TreatmentRoutes implements Area {
  private final CurrentCounty county;
  private final Clock clock;

  TreatmentRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /**
   * A repair with every number traced.
   *
   * @param treatment in words
   * @param code as it is chosen
   * @param byHand whether somebody chose it in place of the rules'
   * @param version stands for that choice, to be given back with a change of it; 0 where there is
   *     none
   * @param note why it was chosen, empty where nobody did
   */
  record Repair(
      String treatment,
      String code,
      boolean byHand,
      long version,
      String note,
      String rule,
      String reason,
      List<String> assumed,
      List<Trace> figures,
      List<Step> steps,
      List<Trace> layDown,
      List<String> instructions,
      List<String> cautions,
      List<String> treatments) {}

  /** One step's minutes. */
  record Step(String name, Trace minutes, String spread) {}

  /** A choice and why. */
  record Choice(String treatment, String note) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/defects/{id}/repair", c -> c.json(repair(c.pathParam("id"))));
    api.put("/api/defects/{id}/treatment", this::choose);
    api.delete("/api/defects/{id}/treatment", this::asTheRulesSay);
  }

  /** What somebody else chose meanwhile. */
  record Theirs(String treatment, String note, String who, long version) {}

  private Optional<Stored<ChosenTreatment>> chosen(String id) {
    return county.read(s -> s.chosenTreatments().find(id));
  }

  /** Told apart from a choice before it that was taken back, whose row had a number of its own. */
  private static long version(Optional<Stored<ChosenTreatment>> chosen) {
    return chosen.map(row -> row.row() * 100_000 + row.version()).orElse(0L);
  }

  /** Refuses to choose over a choice that was not read. */
  private static void check(
      Optional<Stored<ChosenTreatment>> now, String id, long version, Choice yours) {
    if (version(now) != version) {
      ChosenTreatment theirs = now.map(Stored::value).orElse(null);
      throw new Problem(
              Problem.Kind.STALE,
              "the treatment of "
                  + id
                  + " was "
                  + (theirs == null ? "put back to the rules'" : "chosen")
                  + " by somebody else while you had it open")
          .with("yours", yours)
          .with(
              "theirs",
              theirs == null
                  ? new Theirs("", "", "", 0)
                  : new Theirs(
                      DeskWords.code(theirs.treatment()),
                      theirs.note(),
                      theirs.by(),
                      version(now)));
    }
  }

  private Repair repair(String id) {
    County now = county.get();
    Optional<Stored<ChosenTreatment>> chosen = chosen(id);
    UnitSystem units = now.units();
    PatchDesign design = now.design(DefectRows.of(now, id).value());
    return new Repair(
        DeskWords.plain(design.choice().treatment()),
        DeskWords.code(design.choice().treatment()),
        design.choice().ruleId().equals(ChosenTreatment.RULE),
        version(chosen),
        chosen.map(row -> row.value().note()).orElse(""),
        design.choice().ruleId(),
        design.choice().reason(),
        design.setting().assumed(),
        Trace.of(design.figures(), units),
        design.steps().stream().map(s -> step(s, units)).toList(),
        design.layDown().map(l -> Trace.of(l.figures(), units)).orElse(List.of()),
        design.layDown().map(l -> l.instructions()).orElse(List.of()),
        design.cautions(),
        Arrays.stream(Treatment.values()).map(DeskWords::code).toList());
  }

  private static Step step(WorkStep s, UnitSystem units) {
    return new Step(
        s.name(), Trace.of(s.minutes(), units), units.show(s.spreadMinutes(), Unit.MINUTE).text());
  }

  private void choose(Context c) {
    String id = c.pathParam("id");
    Choice choice = Api.body(c, Choice.class);
    long version = DefectRoutes.version(c);
    DefectRows.of(county.get(), id);
    Treatment treatment =
        DeskWords.read(
            Treatment.class, "treatment", choice.treatment() == null ? "" : choice.treatment());
    if (choice.note() == null || choice.note().isBlank() || choice.note().length() > 2_000) {
      throw new Problem(
              Problem.Kind.BAD_VALUE, "a note says why, for the crew: 1 to 2,000 characters")
          .with("field", "note");
    }
    ChosenTreatment chosen =
        new ChosenTreatment(
            id, treatment, choice.note().strip(), Caller.name(c), LocalDate.now(clock));
    county
        .store()
        .write(
            Caller.name(c),
            "desk: choose treatment of " + id,
            change -> {
              Optional<Stored<ChosenTreatment>> before = change.chosenTreatments().find(id);
              check(before, id, version, choice);
              if (before.isPresent()) {
                change.chosenTreatments().update(before.get(), chosen);
              } else {
                change.chosenTreatments().insert(chosen);
              }
            });
    c.json(repair(id));
  }

  private void asTheRulesSay(Context c) {
    String id = c.pathParam("id");
    long version = DefectRoutes.version(c);
    county
        .store()
        .write(
            Caller.name(c),
            "desk: treatment of " + id + " by the rules again",
            change -> {
              Optional<Stored<ChosenTreatment>> before = change.chosenTreatments().find(id);
              check(before, id, version, new Choice("", ""));
              before.ifPresent(row -> change.chosenTreatments().delete(row));
            });
    c.json(repair(id));
  }
}
