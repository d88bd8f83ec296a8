package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.county.NotReady;
import lanemend.exchange.AgencyBudgets;
import lanemend.exchange.RenewalExport;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.web.renewal.EvidencePage;

/** The engineer's renewal pages: flagged sections, their evidence, the program, decisions. */
final class RenewalRoutes implements Area {
  /** An evidence page has its style inside it and neither scripts nor anything from elsewhere. */
  private static final String PAGE_POLICY =
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none';"
          + " base-uri 'none'; form-action 'none'";

  private static final int MOST_YEARS = 20;
  private static final double MOST_MONEY = 1e12;

  private final CurrentCounty county;
  private final RenewalRunRoutes run;

  RenewalRoutes(CurrentCounty county) {
    this.county = county;
    this.run = new RenewalRunRoutes(county);
  }

  /**
   * The last study in short.
   *
   * @param study null where none was made since the desk was opened
   * @param earlier whether records have changed since it
   * @param ready null, or a sentence saying what is missing for a study
   */
  record Renewal(RenewalRunRoutes.Run run, String ready, boolean earlier, Study study) {}

  /**
   * What a study found.
   *
   * @param asked questions the records leave open, those most repairs wait for first
   */
  record Study(
      String recordsFrom,
      String recordsTo,
      int repairs,
      int notCounted,
      int flagged,
      int byHand,
      List<String> asked,
      List<Trust> hindcasts,
      ProgramView program) {}

  /** A hindcast in a sentence and its figures. */
  record Trust(int years, String said, List<Trace> figures) {}

  /** Budgets from the program's first year on; empty for money enough each year. */
  record Budgets(List<Double> budgets) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/renewal", c -> c.json(inShort()));
    api.get("/api/renewal/sections", c -> c.json(new SectionList(study()).rows(c)));
    api.get("/api/renewal/sections/export/{as}", this::export);
    api.get("/api/renewal/evidence", this::evidence);
    api.get("/api/renewal/evidence/page", this::page);
    api.get("/api/renewal/evidence/pdf", this::pdf);
    api.post("/api/renewal/program", this::program);
    api.put("/api/renewal/budgets", this::keepBudgets);
    new RenewalDecideRoutes(county).addTo(api);
    run.addTo(api);
  }

  private CountyRenewal study() {
    return study(county);
  }

  static CountyRenewal study(CurrentCounty county) {
    return county
        .study()
        .now(county.get())
        .orElseThrow(() -> new NotReady("no study has been made yet: study the records first"));
  }

  private Renewal inShort() {
    County now = county.get();
    String ready =
        now.patches().isEmpty()
            ? "No repair is on record yet: import the patches that were made."
            : now.hasAgency() ? null : "The agency is not known yet: import the agency first.";
    Optional<CountyRenewal> study = county.study().now(now);
    return new Renewal(
        run.now(),
        ready,
        county.study().isEarlier(now),
        study.map(RenewalRoutes::inShort).orElse(null));
  }

  private static Study inShort(CountyRenewal study) {
    Exposure e = study.study().exposure();
    return new Study(
        e.settings().recordsFrom().toString(),
        e.settings().recordsTo().minusDays(1).toString(),
        e.histories().allRepairs(),
        e.unused().size(),
        study.proposal().sections().size(),
        study.proposal().byHand().size(),
        e.toAsk().stream()
            .filter(a -> a.repairs() > 0)
            .sorted((a, b) -> Integer.compare(b.repairs(), a.repairs()))
            .map(a -> a.question() + " (" + a.repairs() + " repairs wait for the answer)")
            .toList(),
        study.study().hindcasts().stream().map(h -> trust(h, study)).toList(),
        ProgramView.of(study, study.proposal(), 0));
  }

  private static Trust trust(Hindcast h, CountyRenewal study) {
    long wentOn = h.flags().stream().filter(Hindcast.FlagCheck::wentOn).count();
    return new Trust(
        h.years(),
        SectionView.say(
            "With %d year%s left out, 90 %% intervals held %.0f %% of stretches, and %d of %d flagged"
                + " sections went on failing faster than their kind.",
            h.years(), h.years() == 1 ? "" : "s", 100 * h.coverage(), wentOn, h.flags().size()),
        Trace.of(h.figures(), study.county().units()));
  }

  private ProposedSection section(Context c, CountyRenewal study) {
    String id = Api.wanted(c, "section");
    return study.proposal().all().stream()
        .filter(s -> s.id().equals(id))
        .findFirst()
        .orElseThrow(
            () -> new Problem(Problem.Kind.NOT_FOUND, "the study has no section '" + id + "'"));
  }

  private void evidence(Context c) {
    CountyRenewal study = study();
    c.json(EvidenceView.of(section(c, study), study));
  }

  private static String html(ProposedSection s, CountyRenewal study) {
    return new EvidencePage(EvidenceView.context(study))
        .html(EvidenceView.shown(s), s.decision().map(d -> d.decision()));
  }

  private void page(Context c) {
    CountyRenewal study = study();
    c.html(html(section(c, study), study))
        .header("Content-Security-Policy", PAGE_POLICY)
        .header("Cache-Control", "no-cache");
  }

  private void pdf(Context c) throws IOException {
    CountyRenewal study = study();
    ProposedSection s = section(c, study);
    String name = EvidencePage.fileName(EvidenceView.shown(s)) + ".pdf";
    Path folder = Files.createTempDirectory("lanemend-evidence");
    Path file = folder.resolve("evidence.pdf");
    try {
      new EvidencePage(EvidenceView.context(study)).pdf(html(s, study), file);
      c.contentType("application/pdf")
          .header("Content-Disposition", "inline; filename=\"" + name + "\"")
          .result(Files.readAllBytes(file));
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(folder);
    }
  }

  private void export(Context c) throws IOException {
    ExportRoutes.As as = DeskWords.read(ExportRoutes.As.class, "file", c.pathParam("as"));
    CountyRenewal study = study();
    List<ProposedSection> chosen = new SectionList(study).chosen(c);
    County roads = study.county();
    ExportRoutes.send(
        c,
        "flagged-sections",
        as,
        file ->
            new RenewalExport(roads.network(), roads.locator(), roads.units())
                .flagged(file, study.proposal(), chosen));
  }

  private static List<Double> budgets(Context c) {
    List<Double> budgets = Api.body(c, Budgets.class).budgets();
    if (budgets == null || budgets.size() > MOST_YEARS) {
      throw new Problem(
          Problem.Kind.BAD_VALUE, "budgets must be a list of up to " + MOST_YEARS + " years");
    }
    List<Double> read = new ArrayList<>();
    for (Double b : budgets) {
      if (b == null || !(b >= 0 && b <= MOST_MONEY)) {
        throw new Problem(
                Problem.Kind.BAD_VALUE,
                "the budget of year "
                    + (read.size() + 1)
                    + " is "
                    + b
                    + ", expected an amount of 0 or more")
            .with("field", "budgets");
      }
      read.add(b);
    }
    return read;
  }

  /** Solves for other budgets; nothing is kept. */
  private void program(Context c) {
    List<Double> budgets = budgets(c);
    CountyRenewal study = study();
    long started = System.nanoTime();
    RenewalProposal proposal = study.proposal().under(budgets);
    double ms = (System.nanoTime() - started) / 1e6;
    c.json(ProgramView.of(study, proposal, Math.rint(10 * ms) / 10));
  }

  /** Makes these the agency's budgets. */
  private void keepBudgets(Context c) {
    List<Double> budgets = budgets(c);
    county
        .store()
        .write(
            Caller.name(c),
            "desk: yearly budgets of renewal",
            change ->
                change.putSetting(
                    County.AGENCY_SETTING,
                    AgencyBudgets.replaced(
                        change
                            .settings()
                            .find(County.AGENCY_SETTING)
                            .map(kept -> kept.value().json())
                            .orElseThrow(
                                () -> new NotReady("the agency is not known yet: import it first")),
                        budgets)));
    CountyRenewal study = study();
    c.json(ProgramView.of(study, study.proposal(), 0));
  }
}
