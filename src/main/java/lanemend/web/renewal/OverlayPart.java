package lanemend.web.renewal;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.renewal.overlay.OverlayCase;
import lanemend.renewal.overlay.OverlayDesign;
import lanemend.renewal.overlay.OverlayDesign.Option;
import lanemend.web.page.TraceTable;
import lanemend.web.page.Xhtml;

/** Overlay thickness with every step. */
final class OverlayPart {
  private final Xhtml page;
  private final Evidence e;

  OverlayPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    OverlayCase overlay = e.section().overlay();
    page.open("div", "class", "keep").leaf("h2", "Overlay thickness (AASHTO Guide 1993)");
    if (overlay.design().isEmpty()) {
      page.leaf(
          "p", "No thickness is worked out, because something is missing:", "class", "review");
      page.open("ul", "class", "cautions");
      overlay.lacking().forEach(l -> page.leaf("li", l));
      page.close();
    }
    overlay.design().ifPresent(this::answer);
    page.close();
    overlay.design().ifPresent(this::options);
    said("Measured here", overlay.measured());
    said("Assumed, not measured here", overlay.assumptions());
    steps(overlay);
    new ConditionPart(page, e).write();
  }

  private void said(String title, List<String> sentences) {
    if (!sentences.isEmpty()) {
      page.open("div", "class", "keep").leaf("h3", title);
      page.open("ul", "class", "cautions");
      sentences.forEach(a -> page.leaf("li", a));
      page.close().close();
    }
  }

  private void answer(OverlayDesign design) {
    Optional<Option> chosen = design.chosen();
    page.leaf(
        "p",
        chosen
            .map(
                o ->
                    (o.millM() > 0
                            ? "Mill " + thickness(o.millM()) + ", then lay "
                            : "No milling; lay ")
                        + thickness(o.thickness().value())
                        + " of asphalt: the least milling that keeps to the limits. The road needs"
                        + " SN "
                        + Evidence.decimals(2, design.needed().value())
                        + "; what is left in place gives "
                        + Evidence.decimals(2, o.effective().value())
                        + ".")
            .orElse("No milling depth keeps to the limits: see the options."),
        "class",
        "why");
  }

  private String thickness(double meters) {
    return e.wording().text(meters, Unit.THICKNESS_METER);
  }

  private void options(OverlayDesign design) {
    page.open("table", "class", "grid").open("thead").open("tr");
    page.leaf("th", "Milled");
    for (String head :
        new String[] {"SN left (SNeff)", "SN lacking", "Before rounding", "Overlay", "Rise"}) {
      page.leaf("th", head, "class", "num");
    }
    page.leaf("th", "").close().close().open("tbody");
    for (Option o : design.options()) {
      boolean chosen = design.chosen().filter(o::equals).isPresent();
      page.open("tr", "class", chosen ? "strong" : "plain").leaf("td", thickness(o.millM()));
      number(Evidence.decimals(2, o.effective().value()));
      number(Evidence.decimals(2, design.needed().value() - o.effective().value()));
      double exact =
          o.thickness().inputs().stream()
              .filter(i -> i.name().equals("before rounding"))
              .mapToDouble(Figure.Input::value)
              .findFirst()
              .orElse(o.thickness().value());
      number(e.wording().precise(exact, Unit.THICKNESS_METER));
      number(thickness(o.thickness().value()));
      number(thickness(o.riseM()));
      page.leaf("td", chosen ? "chosen" : "").close();
    }
    page.close().close();
  }

  private void number(String text) {
    page.leaf("td", text, "class", "num");
  }

  private void steps(OverlayCase overlay) {
    TraceTable steps = new TraceTable(e.wording());
    overlay.loads().ifPresent(f -> steps.add("1", f));
    overlay
        .design()
        .ifPresent(
            design -> {
              steps.add("2", design.needed());
              design
                  .chosen()
                  .or(() -> design.options().stream().findFirst())
                  .ifPresent(
                      o -> {
                        steps.add("3", o.effective());
                        steps.add("4", o.thickness());
                      });
            });
    overlay.costing().ifPresent(c -> steps.add("5", c.overlayCost()));
    page.open("div", "class", "trace");
    steps.write(page, "Every step, with formula, source and what went in");
    page.close();
    overlay
        .design()
        .ifPresent(
            d ->
                page.leaf(
                    "p",
                    "SN is in inches by the Guide's custom: one inch is "
                        + Evidence.decimals(1, 1000 * Conversion.M_PER_IN)
                        + " mm, coefficients a are per inch.",
                    "class",
                    "fine"));
  }
}
