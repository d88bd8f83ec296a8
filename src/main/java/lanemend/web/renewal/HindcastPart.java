package lanemend.web.renewal;

import java.util.List;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.hindcast.Hindcast.FlagCheck;
import lanemend.renewal.hindcast.Hindcast.Score;
import lanemend.web.page.Xhtml;

/** How well the method would have foretold this agency's own last years. */
final class HindcastPart {
  private final Xhtml page;
  private final Evidence e;
  private final List<Hindcast> hindcasts;

  HindcastPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
    this.hindcasts = e.context().study().hindcasts();
  }

  void write() {
    page.open("div", "class", "box hindcast").leaf("h2", "How far to trust this: the hindcast");
    if (hindcasts.isEmpty()) {
      page.leaf(
          "p",
          "None: the records are too short to leave years out. How well the model foretells is not"
              + " known here.",
          "class",
          "review");
      page.close();
      return;
    }
    page.leaf(
        "p",
        "The model was fitted without the agency's last years, over all its roads, and held against"
            + " what was then repaired. "
            + verdict());
    summary();
    scores();
    lift();
    here();
    page.close();
  }

  private String verdict() {
    long won = hindcasts.stream().filter(h -> best(h) == 0).count();
    return won == hindcasts.size()
        ? "It came closer than every simple way each time."
        : "It came closer than every simple way "
            + won
            + " of "
            + hindcasts.size()
            + " times; where it did not, the simple way is the better guide.";
  }

  /** Which way came closest; 0 is the model. */
  private static int best(Hindcast h) {
    int best = 0;
    for (int i = 1; i < h.scores().size(); i++) {
      best = h.scores().get(i).deviance() < h.scores().get(best).deviance() ? i : best;
    }
    return best;
  }

  private void head(String first, String... others) {
    page.open("table", "class", "grid").open("thead").open("tr").leaf("th", first);
    for (String o : others) {
      page.leaf("th", o, "class", "wrap");
    }
    page.close().close().open("tbody");
  }

  private static String left(Hindcast h) {
    return h.years() == 1 ? "1 year" : h.years() + " years";
  }

  private void summary() {
    head(
        "Left out",
        "Repairs that came",
        "Foretold",
        Evidence.percent(Hindcast.LEVEL) + " intervals held",
        "Stretches counted",
        "Flags that went on failing");
    for (Hindcast h : hindcasts) {
      long on = h.flags().stream().filter(FlagCheck::wentOn).count();
      page.open("tr").leaf("td", left(h));
      number(Evidence.decimals(0, h.repairs()));
      number(Evidence.decimals(0, h.forecast().mean()));
      number(Evidence.decimals(1, 100 * h.coverage()) + "\u00a0%");
      number(String.valueOf(h.stretches()));
      number(on + " of " + h.flags().size());
      page.close();
    }
    page.close().close();
  }

  private void scores() {
    page.leaf("h3", "Distance from what came (deviance, less is better)");
    head("Way", hindcasts.stream().map(h -> left(h) + " left out").toArray(String[]::new));
    for (int w = 0; w < hindcasts.get(0).scores().size(); w++) {
      page.open("tr", "class", w == 0 ? "strong" : "plain");
      page.leaf("td", hindcasts.get(0).scores().get(w).name());
      for (Hindcast h : hindcasts) {
        Score s = h.scores().get(w);
        number(Evidence.decimals(0, s.deviance()) + (best(h) == w ? " (least)" : ""));
      }
      page.close();
    }
    page.close().close();
  }

  private void lift() {
    Hindcast h = hindcasts.get(0);
    page.leaf(
        "h3",
        "Lift: share of the repairs caught on the worst of the length, " + left(h) + " left out");
    head(
        "Way",
        Hindcast.LIFT_AT.stream()
            .map(share -> "worst " + Evidence.percent(share))
            .toArray(String[]::new));
    for (int w = 0; w < h.scores().size(); w++) {
      page.open("tr", "class", w == 0 ? "strong" : "plain").leaf("td", h.scores().get(w).name());
      for (double caught : h.scores().get(w).lift()) {
        number(Evidence.percent(caught));
      }
      page.close();
    }
    page.close().close();
  }

  /** What the method would have said of this very section. */
  private void here() {
    page.leaf("h3", "This section then");
    for (Hindcast h : hindcasts) {
      String text =
          h.flags().stream()
              .filter(this::overlaps)
              .findFirst()
              .map(
                  f ->
                      "it would have been flagged, milepost "
                          + e.mileposts().range(f.cluster().fromAlongM(), f.cluster().toAlongM())
                          + "; "
                          + f.came()
                          + " repairs came after, where the family would have had "
                          + Evidence.decimals(1, f.familyExpected())
                          + ".")
              .orElse("it would not have been flagged.");
      page.leaf("p", "With " + left(h) + " left out " + text);
    }
  }

  private boolean overlaps(FlagCheck f) {
    return f.cluster().routeId().equals(e.section().cluster().routeId())
        && f.cluster().fromAlongM() < e.section().toAlongM()
        && f.cluster().toAlongM() > e.section().fromAlongM();
  }

  private void number(String text) {
    page.leaf("td", text, "class", "num");
  }
}
