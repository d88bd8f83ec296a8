package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import lanemend.inventory.AttributeName;
import lanemend.measure.Unit;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.sections.Cluster;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** Top of the page: which stretch, what it is, why it is flagged, and how far to trust that. */
final class HeaderPart {
  private final Xhtml page;
  private final FlaggedSection section;
  private final EvidenceContext context;
  private final Wording wording;
  private final Mileposts mileposts;
  private final int[] cells;

  HeaderPart(Xhtml page, FlaggedSection section, EvidenceContext context) {
    this.page = page;
    this.section = section;
    this.context = context;
    this.wording = Wording.of(context.agency());
    this.mileposts = Mileposts.of(context.network(), section.cluster().routeId());
    this.cells =
        context
            .study()
            .cells(section.cluster().routeId(), section.fromAlongM(), section.toAlongM());
  }

  void write() {
    page.open("table", "class", "head").open("tr").open("td");
    page.leaf("div", context.agency().name(), "class", "agency");
    page.leaf("h1", mileposts.route().id());
    page.leaf(
        "div",
        "Milepost " + mileposts.range(section.fromAlongM(), section.toAlongM()),
        "class",
        "date");
    page.close().open("td", "class", "right");
    page.leaf("div", "Section " + section.id(), "class", "name");
    page.leaf("div", "Renewal or more patching?", "class", "name");
    page.close().close().close();
    page.leaf("p", "For review by a licensed engineer", "class", "stamp");
    page.leaf("p", why(section, context), "class", "why");
    page.leaf("p", hindcast(context), "class", "beside");
    facts();
    cautions();
  }

  /** Why a section is flagged, in one sentence. */
  static String why(FlaggedSection section, EvidenceContext context) {
    Cluster c = section.cluster();
    if (!c.tested()) {
      return c.expected() > 0
          ? String.format(
              Locale.ROOT,
              "Not flagged by this study; an engineer chose the stretch. %d repairs were made under"
                  + " the present surface where %.1f were expected of roads of its kind and age"
                  + " (%.1f times as many). As a person chose it, no chance of a false alarm is known.",
              c.repairs(),
              c.expected(),
              c.repairs() / c.expected())
          : "Not flagged by this study; an engineer chose the stretch. When its surface was laid is not"
              + " known, so its repairs cannot be held against those of its kind.";
    }
    return String.format(
        Locale.ROOT,
        "%s because %d repairs were made under the present surface where %.1f were expected of roads"
            + " of its kind and age (%.1f times as many); if only chance were at work, a route would"
            + " show a stretch this bad with %s, and of all sections flagged this way at most about"
            + " %.0f %% should be false alarms.",
        c.flagged() ? "Flagged" : "Looked at, though not flagged,",
        c.repairs(),
        c.expected(),
        c.repairs() / c.expected(),
        p(c.pValue()),
        100 * context.study().settings().scan().falseDiscovery());
  }

  /** The hindcast in one sentence, beside the flag it is about. */
  static String hindcast(EvidenceContext context) {
    if (context.study().hindcasts().isEmpty()) {
      return "The records are too short for a hindcast: how well such flags foretell is not known.";
    }
    return context.study().hindcasts().stream()
        .map(
            h ->
                String.format(
                    Locale.ROOT,
                    "%d of %d flags went on failing and intervals held %.1f %% with %d year%s left"
                        + " out",
                    h.flags().stream().filter(Hindcast.FlagCheck::wentOn).count(),
                    h.flags().size(),
                    100 * h.coverage(),
                    h.years(),
                    h.years() == 1 ? "" : "s"))
        .collect(Collectors.joining("; ", "Hindcast: ", "."));
  }

  /** A p-value, which a count of random routes never shows to be nought. */
  static String p(double value) {
    return value < 0.001
        ? "p\u00a0=\u00a0" + String.format(Locale.ROOT, "%.4f", value)
        : "p\u00a0=\u00a0" + String.format(Locale.ROOT, "%.3f", value);
  }

  private void facts() {
    CellHistories h = context.study().model().histories();
    TreeSet<String> lanes = new TreeSet<>();
    Map<String, Double> families = new LinkedHashMap<>();
    double laneM = 0;
    double youngest = Double.POSITIVE_INFINITY;
    double oldest = Double.NEGATIVE_INFINITY;
    int unknown = 0;
    for (int i : cells) {
      lanes.add(h.cell(i).lane());
      double length = h.cell(i).lengthM();
      laneM += length;
      families.merge(h.families().get(h.family(i)), length, Double::sum);
      double age = h.ageNow(i);
      if (Double.isNaN(age)) {
        unknown++;
      } else {
        youngest = Math.min(youngest, age);
        oldest = Math.max(oldest, age);
      }
    }
    page.open("table", "class", "facts").open("tr");
    fact("Length", wording.text(section.lengthM(), Unit.ROAD_METER));
    fact(
        "Lanes",
        lanes.size()
            + ": "
            + String.join(", ", lanes)
            + " ("
            + wording.text(laneM, Unit.ROAD_METER)
            + " of lane)");
    fact("Age of the surface, years", ages(youngest, oldest, unknown));
    fact("Traffic", traffic());
    page.close().open("tr");
    double all = laneM;
    String family =
        families.entrySet().stream()
            .map(
                e ->
                    families.size() == 1
                        ? e.getKey()
                        : String.format(
                            Locale.ROOT, "%s (%.0f %%)", e.getKey(), 100 * e.getValue() / all))
            .collect(Collectors.joining("; "));
    page.open("td", "colspan", "4").leaf("div", "Family it is compared with", "class", "name");
    page.leaf("div", family.isEmpty() ? "none" : family, "class", "value").close();
    page.close().close();
  }

  private static String ages(double youngest, double oldest, int unknown) {
    if (youngest > oldest) {
      return "not known";
    }
    String from = String.format(Locale.ROOT, "%.0f", youngest);
    String to = String.format(Locale.ROOT, "%.0f", oldest);
    return (from.equals(to) ? from : from + " to " + to)
        + (unknown > 0 ? "; " + unknown + " cells not known" : "");
  }

  private String traffic() {
    double middle = (section.fromAlongM() + section.toAlongM()) / 2;
    String route = mileposts.route().id();
    List<String> said = new ArrayList<>();
    context
        .attributes()
        .number(route, middle, AttributeName.AADT)
        .ifPresent(v -> said.add(wording.text(v, Unit.VEHICLES_PER_DAY)));
    context
        .attributes()
        .number(route, middle, AttributeName.TRUCK_SHARE)
        .ifPresent(v -> said.add(wording.text(100 * v, Unit.PERCENT) + " trucks"));
    return said.isEmpty() ? "not known" : String.join(", ", said);
  }

  private void fact(String name, String value) {
    page.open("td").leaf("div", name, "class", "name");
    page.leaf("div", value, "class", "value").close();
  }

  private void cautions() {
    page.open("div", "class", "caution-box").leaf("h3", "Before this is leaned on");
    page.open("ul", "class", "cautions");
    for (String caution : Cautions.of(section, context)) {
      page.leaf("li", caution);
    }
    page.close().close();
  }
}
