package lanemend.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.ProposedSection;
import lanemend.renewal.RenewalProposal;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.SectionCondition;
import lanemend.renewal.repairs.RepairForecast;

/**
 * Flagged sections for a spreadsheet or a map, and what to ask about the records. Not read back:
 * both are worked out.
 */
public final class RenewalExport {
  private static final int YEARS = 5;

  private final PlaceColumns places;
  private final boolean us;

  /**
   * @param units of lengths, thicknesses and tons
   */
  public RenewalExport(Network network, Locator locator, UnitSystem units) {
    this.places = new PlaceColumns(network, locator);
    this.us = units == UnitSystem.US_CUSTOMARY;
  }

  /**
   * One row per flagged section, then those by hand (without a p-value), with its limits as a line.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void flagged(Path target, RenewalProposal proposal) {
    flagged(target, proposal, proposal.all());
  }

  /**
   * As above for some of the sections.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void flagged(Path target, RenewalProposal proposal, List<ProposedSection> sections) {
    ExportTable<ProposedSection> table =
        new ExportTable<ProposedSection>()
            .column("section", ProposedSection::id)
            .column("route", s -> places.name(s.cluster().routeId()))
            .column("direction", s -> places.direction(s.cluster().routeId()))
            .column("milepost_from", s -> places.milepost(s.cluster().routeId(), s.fromAlongM()))
            .column("milepost_to", s -> places.milepost(s.cluster().routeId(), s.toAlongM()))
            .column(us ? "length_mi" : "length_km", this::length)
            .column("repairs", s -> s.cluster().repairs())
            .column("expected_repairs", s -> rounded(s.cluster().expected(), 2))
            .column("condition_index", RenewalExport::condition)
            .column(
                "p_value",
                s -> s.cluster().tested() ? rounded(s.cluster().pValue(), 4) : (Double) null);
    forecast(table);
    overlay(table);
    table
        .column("program_year", s -> proposal.programmed(s.id()).map(p -> p.year()).orElse(null))
        .column("decision", s -> decision(s).map(RenewalExport::lower).orElse(""))
        .column("overlay_year", s -> s.decision().map(d -> year(d.overlayYear())).orElse(null))
        .column("not_before", s -> decision(s).map(d -> year(d.notBefore())).orElse(null))
        .column("reason", s -> decision(s).map(EngineerDecision::reason).orElse(""))
        .column("decided_by", s -> decision(s).map(EngineerDecision::by).orElse(""))
        .column("decided_on", s -> decision(s).map(EngineerDecision::on).orElse(null))
        .shape(s -> places.stretch(s.cluster().routeId(), s.fromAlongM(), s.toAlongM()))
        .write(target, sections);
  }

  private void forecast(ExportTable<ProposedSection> table) {
    String years = "_" + YEARS + "_years";
    table
        .column("repairs" + years, s -> rounded(horizon(s).repairs().mean(), 1))
        .column("repairs" + years + "_low", s -> rounded(horizon(s).repairs().low(), 1))
        .column("repairs" + years + "_high", s -> rounded(horizon(s).repairs().high(), 1))
        .column((us ? "tons" : "tonnes") + years, s -> tons(horizon(s).tonnes().mean()))
        .column("patching_cost" + years, s -> rounded(horizon(s).cost().mean(), 0));
  }

  private void overlay(ExportTable<ProposedSection> table) {
    table
        .column(us ? "overlay_in" : "overlay_mm", s -> thickness(s, false))
        .column(us ? "milling_in" : "milling_mm", s -> thickness(s, true))
        .column(
            "overlay_cost",
            s -> costing(s).map(c -> rounded(c.overlayCost().value(), 0)).orElse(null))
        .column(
            "saving_of_best_year",
            s -> costing(s).map(c -> rounded(c.lifeCycle().saving(), 0)).orElse(null))
        .column("crossover_year", s -> costing(s).map(c -> crossover(c.lifeCycle())).orElse(null))
        .column("crossover_chance", s -> costing(s).map(c -> chance(c.lifeCycle())).orElse(null));
  }

  private static Double condition(ProposedSection s) {
    return s.overlay()
        .condition()
        .flatMap(SectionCondition::index)
        .map(f -> rounded(f.value(), 0))
        .orElse(null);
  }

  private static Optional<OverlayCase.Costing> costing(ProposedSection s) {
    return s.overlay().costing();
  }

  private static Optional<EngineerDecision> decision(ProposedSection s) {
    return s.decision().map(d -> d.decision());
  }

  private static RepairForecast.Horizon horizon(ProposedSection s) {
    return s.forecast().horizons().get(YEARS - 1);
  }

  private static Integer crossover(LifeCycle c) {
    return c.crossoverYear() == LifeCycle.NEVER ? null : (Integer) c.crossoverYear();
  }

  /** By the crossover year; where there is none, by the end of the analysis. */
  private static Double chance(LifeCycle c) {
    int last = c.crossoverChance().length;
    return rounded(c.crossoverChance()[Math.min(last, c.crossoverYear()) - 1], 3);
  }

  private Double length(ProposedSection s) {
    double m = s.toAlongM() - s.fromAlongM();
    return rounded(us ? m / Conversion.M_PER_MILE : m / 1_000, 3);
  }

  private Double thickness(ProposedSection s, boolean milling) {
    Optional<OverlayDesign.Option> chosen = s.overlay().design().flatMap(OverlayDesign::chosen);
    OptionalDouble m =
        chosen.isEmpty()
            ? OptionalDouble.empty()
            : OptionalDouble.of(milling ? chosen.get().millM() : chosen.get().thickness().value());
    return m.isEmpty()
        ? null
        : rounded(us ? m.getAsDouble() / Conversion.M_PER_IN : m.getAsDouble() * 1_000, 1);
  }

  private Double tons(double tonnes) {
    return rounded(us ? tonnes / Conversion.T_PER_SHORT_TON : tonnes, 1);
  }

  private static Double rounded(double value, int decimals) {
    double unit = Math.pow(10, decimals);
    return Math.rint(value * unit) / unit;
  }

  private static Integer year(int year) {
    return year == 0 ? null : (Integer) year;
  }

  private static String lower(EngineerDecision d) {
    return d.kind().name().toLowerCase(Locale.ROOT);
  }

  private record Note(
      String kind, String subject, String routeId, double from, double to, String text) {
    static Note ofRow(String kind, String subject, String text) {
      return new Note(kind, subject, "", 0, 0, text);
    }
  }

  /**
   * Every question about the records, every year that was inferred, every row that is not counted
   * and every assumption, one row each.
   *
   * @throws ExchangeException when the file cannot be written
   */
  public void records(Path target, Exposure exposure) {
    List<Note> notes = new ArrayList<>();
    for (Exposure.ToAsk a : exposure.toAsk()) {
      String text = a.question() + " (" + a.repairs() + " repairs wait for the answer)";
      notes.add(new Note("to ask", "", a.routeId(), a.fromAlongM(), a.toAlongM(), text));
    }
    for (Exposure.Inferred i : exposure.inferred()) {
      String text = "surfacing year taken as " + i.year() + ": " + i.rule();
      notes.add(new Note("inferred", "", i.routeId(), i.fromAlongM(), i.toAlongM(), text));
    }
    exposure.remarks().forEach(r -> notes.add(Note.ofRow("assumed", r.subject(), r.text())));
    exposure.unused().forEach(u -> notes.add(Note.ofRow("not counted", u.patchId(), u.why())));
    new ExportTable<Note>()
        .column("kind", Note::kind)
        .column("subject", Note::subject)
        .column("route", n -> places.name(n.routeId()))
        .column("direction", n -> places.direction(n.routeId()))
        .column("milepost_from", n -> places.milepost(n.routeId(), n.from()))
        .column("milepost_to", n -> places.milepost(n.routeId(), n.to()))
        .column("text", Note::text)
        .write(target, notes);
  }
}
