package lanemend.web.renewal;

import java.util.List;
import lanemend.measure.Unit;
import lanemend.renewal.overlay.Economics;
import lanemend.renewal.overlay.LifeCycle;
import lanemend.renewal.overlay.OverlayCase.Costing;
import lanemend.renewal.overlay.Sensitivity;
import lanemend.web.page.Drawing;
import lanemend.web.page.Xhtml;

/** Keep patching, or overlay in year k: present costs, crossover, sensitivity, salvage. */
final class CostPart {
  private static final double LEFT = 62;
  private static final double BOTTOM = 108;
  private static final double TOP = 8;

  private final Xhtml page;
  private final Evidence e;

  CostPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    if (e.section().overlay().costing().isEmpty()) {
      page.open("div", "class", "keep").leaf("h2", "Cost: keep patching or overlay");
      page.leaf("p", "Not compared, because something is missing.", "class", "review");
      lacking();
      page.close();
      return;
    }
    Costing c = e.section().overlay().costing().get();
    page.open("div", "class", "keep").leaf("h2", "Cost: keep patching or overlay");
    page.leaf("p", verdict(c), "class", "why");
    page.leaf("p", crossover(c));
    salvage(c.economics());
    chart(c);
    page.leaf("p", words(c), "class", "fine");
    page.close();
    table(c);
    bars(c);
  }

  static String words(Costing c) {
    return "Expected present cost over "
        + c.economics().years()
        + " years of overlaying at the start of each year, and of never. The least is black.";
  }

  private void lacking() {
    List<String> lacking = e.section().overlay().lacking();
    if (lacking.isEmpty()) {
      // A design without a choice lacks no data, yet leaves nothing to price.
      page.leaf("p", "There is no overlay to price: no thickness was chosen below.");
      return;
    }
    page.open("ul", "class", "cautions");
    lacking.forEach(l -> page.leaf("li", l));
    page.close();
  }

  /** The cheapest choice, in one sentence. */
  String verdict(Costing c) {
    LifeCycle life = c.lifeCycle();
    Economics eco = c.economics();
    int n = eco.years();
    int best = life.bestYear();
    String choice =
        best == LifeCycle.NEVER
            ? "By expected cost, patching on is the cheapest of the choices, in %s of drawn futures too."
                .formatted(Evidence.percent(life.bestChance()[n]))
            : "By expected cost, an overlay at the start of %d is the cheapest: it saves %s against patching on (nine in ten futures lie between %s and %s), and is the cheapest choice in %s of drawn futures."
                .formatted(
                    e.firstYear() + best,
                    money(life.saving()),
                    money(life.savingLow()),
                    money(life.savingHigh()),
                    Evidence.percent(life.bestChance()[best]));
    return choice;
  }

  /** When patching has overtaken an overlay, in one sentence. */
  String crossover(Costing c) {
    LifeCycle life = c.lifeCycle();
    int n = c.economics().years();
    int cross = life.crossoverYear();
    double last = life.crossoverChance()[n - 1];
    return cross == LifeCycle.NEVER
        ? "Crossover: in "
            + Evidence.percent(last)
            + " of futures patching overtakes the cost of an overlay now within "
            + n
            + " years; in less than half, so no crossover year is given."
        : "Crossover: by the end of "
            + (e.firstYear() + cross - 1)
            + " (year "
            + cross
            + ") patching has cost more than an overlay now, its remaining worth counted, in "
            + Evidence.percent(life.crossoverChance()[cross - 1])
            + " of futures; by the end of "
            + (e.firstYear() + n - 1)
            + " in "
            + Evidence.percent(last)
            + ".";
  }

  private void salvage(Economics eco) {
    int n = eco.years();
    int age = n % eco.overlayLifeYears();
    double left = age == 0 ? 0 : eco.worth(age);
    page.leaf(
        "p",
        "Salvage: straight line over "
            + eco.overlayLifeYears()
            + " years. An overlay now of "
            + money(eco.overlayCost())
            + " has "
            + money(left)
            + " left at the end of year "
            + n
            + ", worth "
            + money(left * eco.discount(n))
            + " today. Discount rate "
            + Evidence.decimals(1, 100 * eco.discountRate())
            + "\u00a0%, without inflation. Patching costs "
            + money(eco.repairCost().perRepair())
            + " a repair and "
            + money(perTon(eco.repairCost().perTonne()))
            + " per "
            + (e.wording().unitLabel(Unit.TONNE).equals("tons") ? "ton" : "tonne")
            + ". Share of the section's own excess that an overlay does not cure: "
            + Evidence.percent(eco.kept())
            + ".");
  }

  private double perTon(double perTonne) {
    return perTonne / e.wording().units().show(1, Unit.TONNE).value();
  }

  private String money(double value) {
    return e.wording().estimate(value);
  }

  void chart(Costing c) {
    double[] cost = c.lifeCycle().presentCost();
    double most = 1;
    int best = 0;
    for (int k = 0; k < cost.length; k++) {
      most = Math.max(most, cost[k]);
      best = cost[k] < cost[best] ? k : best;
    }
    Drawing d = new Drawing(page, RoadWindow.WIDTH, BOTTOM + 15, "present cost by overlay year");
    Scale scale = new Scale(most, BOTTOM, TOP);
    scale.draw(d, LEFT, RoadWindow.WIDTH);
    double step = (RoadWindow.WIDTH - LEFT) / cost.length;
    for (int k = 0; k < cost.length; k++) {
      double top = scale.y(Math.max(0, cost[k]));
      double x = LEFT + k * step;
      String fill = k == best ? Drawing.BLACK : Drawing.LIGHT;
      d.rect(x + step * 0.15, top, step * 0.7, BOTTOM - top, fill, 0.6);
      boolean never = k == cost.length - 1;
      if (never || step > 20 || k % 2 == 0) {
        String text = never ? "never" : String.valueOf(e.firstYear() + k);
        if (never || k < cost.length - 2 || step > 20) {
          d.label(x + step / 2, BOTTOM + 11, 7.5, "middle", Drawing.BLACK, text);
        }
      }
    }
    d.end();
  }

  private void table(Costing c) {
    LifeCycle life = c.lifeCycle();
    double[] old = c.patchingByYear();
    double[] fresh = c.patchingOnNewByYear();
    int n = c.economics().years();
    int best = life.bestYear();
    String unit = ", " + e.wording().currency();
    page.open("table", "class", "grid tight").open("thead").open("tr");
    page.leaf("th", "Year");
    for (String head :
        new String[] {
          "Patching that year, present surface" + unit,
          "Patching in the same year of a new surface" + unit,
          "Present cost of an overlay at its start" + unit,
          "Cheapest in",
          "Patching has overtaken by its end"
        }) {
      page.leaf("th", head, "class", "wrap");
    }
    page.close().close().open("tbody");
    for (int k = 0; k < n; k++) {
      page.open("tr", "class", k == best ? "strong" : "plain");
      page.leaf("td", (e.firstYear() + k) + (k == best ? ", least" : ""), "class", "id");
      number(Evidence.decimals(0, old[k]));
      number(Evidence.decimals(0, fresh[k]));
      number(Evidence.decimals(0, life.presentCost()[k]));
      number(Evidence.percent(life.bestChance()[k]));
      number(Evidence.percent(life.crossoverChance()[k]));
      page.close();
    }
    page.open("tr", "class", best == LifeCycle.NEVER ? "strong" : "plain");
    page.leaf("td", best == LifeCycle.NEVER ? "never, least" : "never", "class", "id");
    number("");
    number("");
    number(Evidence.decimals(0, life.presentCost()[n]));
    number(Evidence.percent(life.bestChance()[n]));
    number("");
    page.close().close().close();
    page.leaf(
        "p",
        "The first two columns are not discounted; the new surface's years count from its laying.",
        "class",
        "fine");
  }

  private void number(String text) {
    page.leaf("td", text, "class", "num");
  }

  private void bars(Costing c) {
    List<Sensitivity.Bar> bars = c.bars();
    double[] present = c.lifeCycle().presentCost();
    double base = present[present.length - 1] - present[0];
    double low = Math.min(0, base);
    double high = Math.max(0, base);
    for (Sensitivity.Bar b : bars) {
      low = Math.min(low, Math.min(b.atLow(), b.atHigh()));
      high = Math.max(high, Math.max(b.atLow(), b.atHigh()));
    }
    page.open("div", "class", "keep").leaf("h3", "What the saving of overlaying now hangs on");
    double left = 222;
    double width = RoadWindow.WIDTH - left - 8;
    double span = high - low == 0 ? 1 : high - low;
    double row = 24;
    double bottom = 14 + bars.size() * row;
    Drawing d = new Drawing(page, RoadWindow.WIDTH, bottom + 16, "sensitivity of the saving");
    double atBase = left + (base - low) / span * width;
    double atZero = left + (0 - low) / span * width;
    for (int i = 0; i < bars.size(); i++) {
      Sensitivity.Bar b = bars.get(i);
      double y = 14 + i * row;
      double from = left + (Math.min(b.atLow(), b.atHigh()) - low) / span * width;
      double to = left + (Math.max(b.atLow(), b.atHigh()) - low) / span * width;
      String text = Evidence.decimals(0, b.atLow()) + " to " + Evidence.decimals(0, b.atHigh());
      d.label(left - 10, y + 5, 7.5, "end", Drawing.BLACK, b.input());
      d.label(left - 10, y + 14, 7.5, "end", Drawing.BLACK, text);
      d.rect(from, y, Math.max(1, to - from), 13, Drawing.LIGHT, 0.7);
    }
    d.line(atBase, 8, atBase, bottom, Drawing.BLACK, 1.6);
    d.dashed(atZero, 8, atZero, bottom, 1, "2,2");
    d.label(atZero, bottom + 10, 7.5, "middle", Drawing.BLACK, "0");
    d.end();
    page.leaf(
        "p",
        "Saving with each input moved alone, the widest first; solid line: as reckoned, "
            + money(base)
            + " saved by overlaying now against patching on; dashed: nothing saved.",
        "class",
        "fine");
    page.close();
  }
}
