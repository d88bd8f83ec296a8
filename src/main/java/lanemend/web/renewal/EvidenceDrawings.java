package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.web.page.Xhtml;

/**
 * The drawings and leading sentences of an evidence page one by one, for a screen that has its own
 * page around them.
 *
 * @param why the section is flagged
 * @param hindcast how far such flags can be trusted
 * @param cost the cheapest choice and the crossover; empty where costs were not compared
 * @param cautions before any of it is leaned on
 */
public record EvidenceDrawings(
    String why, String hindcast, List<String> cost, List<String> cautions, List<Drawn> drawings) {

  /**
   * A drawing.
   *
   * @param words what it shows and how to read it
   * @param svg an element of SVG that refers to nothing outside itself
   */
  public record Drawn(String title, String words, String svg) {}

  public EvidenceDrawings {
    cost = List.copyOf(cost);
    cautions = List.copyOf(cautions);
    drawings = List.copyOf(drawings);
  }

  /**
   * Draws a section.
   *
   * @throws IllegalArgumentException if it lies on a route the network does not have
   */
  public static EvidenceDrawings of(FlaggedSection section, EvidenceContext context) {
    Evidence e = Evidence.of(section, context);
    List<Drawn> drawn = new ArrayList<>();
    add(drawn, StripPart.TITLE, StripPart.WORDS, page -> new StripPart(page, e).draw());
    String limits = new SectionsPart(new Xhtml(), e).words();
    add(drawn, SectionsPart.TITLE, limits, page -> new SectionsPart(page, e).draw());
    String model = new ModelPart(new Xhtml(), e).words();
    add(drawn, ModelPart.TITLE, model, page -> new ModelPart(page, e).draw());
    List<String> cost = new ArrayList<>();
    Optional<OverlayCase.Costing> costing = section.overlay().costing();
    if (costing.isPresent()) {
      OverlayCase.Costing c = costing.get();
      CostPart part = new CostPart(new Xhtml(), e);
      cost.add(part.verdict(c));
      cost.add(part.crossover(c));
      add(
          drawn,
          "Cost: keep patching or overlay",
          CostPart.words(c),
          page -> new CostPart(page, e).chart(c));
    }
    return new EvidenceDrawings(
        HeaderPart.why(section, context),
        HeaderPart.hindcast(context),
        cost,
        Cautions.of(section, context),
        drawn);
  }

  private static void add(List<Drawn> drawn, String title, String words, Consumer<Xhtml> draw) {
    Xhtml page = new Xhtml();
    draw.accept(page);
    String text = page.done();
    int start = text.indexOf("<svg");
    if (start >= 0) {
      drawn.add(new Drawn(title, words, text.substring(start).strip()));
    }
  }

  /** A kept decision in one sentence, with its mileposts. */
  public static String sentence(DecidedSection decided, EvidenceContext context) {
    EngineerDecision d = decided.decision();
    return DecisionPart.sentence(d, Mileposts.of(context.network(), decided.routeId()));
  }
}
