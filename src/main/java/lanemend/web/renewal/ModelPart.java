package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.List;
import lanemend.renewal.SectionHistory;
import lanemend.renewal.repairs.NegativeBinomial;
import lanemend.web.page.Drawing;
import lanemend.web.page.Xhtml;

/** The fitted model beside what was repaired, year by year, and the years to come. */
final class ModelPart {
  static final String TITLE = "Model against actual";
  private static final double LEFT = 34;
  private static final double BOTTOM = 128;
  private static final double TOP = 10;

  private final Xhtml page;
  private final Evidence e;

  /** One year as drawn and listed; {@code repairs} is negative where it is still to come. */
  private record Row(int year, int repairs, double modelled, double family) {}

  ModelPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
  }

  void write() {
    List<Row> rows = rows();
    page.open("div", "class", "keep").leaf("h2", TITLE);
    page.leaf("p", words(), "class", "fine");
    chart(rows);
    page.close();
    table(rows);
  }

  String words() {
    return "Grey bars: repairs made in the section, all lanes. Circle with whisker: the fitted model and"
        + " its "
        + e.levelText()
        + " interval for a single year. Short dash: what roads of its kind and age would have"
        + " had. Right of the line: forecast if the surface is left as it is, by years from "
        + e.recordsTo()
        + " on.";
  }

  void draw() {
    chart(rows());
  }

  private List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    for (SectionHistory.Year y : e.history().years()) {
      rows.add(new Row(y.year(), y.repairs(), y.modelled(), y.family()));
    }
    for (int y = 0; y < Evidence.YEARS; y++) {
      double mean = 0;
      for (int f = 0; f < e.forecast().rates().families(); f++) {
        mean += e.forecast().rates().inYear(y, f);
      }
      rows.add(new Row(e.firstYear() + y, -1, mean, Double.NaN));
    }
    return rows;
  }

  private void chart(List<Row> rows) {
    double most = 1;
    for (Row r : rows) {
      most = Math.max(most, Math.max(r.repairs(), (double) e.high(e.inYear(r.modelled()))));
    }
    Drawing d =
        new Drawing(page, RoadWindow.WIDTH, BOTTOM + 16, "repairs by year, model, forecast");
    Scale scale = new Scale(most, BOTTOM, TOP);
    scale.draw(d, LEFT, RoadWindow.WIDTH - 4);
    double step = (RoadWindow.WIDTH - 4 - LEFT) / rows.size();
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      double x = LEFT + (i + 0.5) * step;
      if (r.repairs() >= 0) {
        double top = scale.y(r.repairs());
        d.rect(x - step * 0.36, top, step * 0.72, BOTTOM - top, Drawing.LIGHT, 0.6);
      } else if (rows.get(i - 1).repairs() >= 0) {
        d.line(x - step / 2, TOP - 4, x - step / 2, BOTTOM + 14, Drawing.BLACK, 1);
      }
      if (r.family() > 0) {
        double y = scale.y(r.family());
        d.line(x - step * 0.36, y, x + step * 0.36, y, Drawing.WHITE, 3.4);
        d.dashed(x - step * 0.36, y, x + step * 0.36, y, 1.8, "3,1.5");
      }
      if (r.modelled() > 0) {
        NegativeBinomial count = e.inYear(r.modelled());
        double low = scale.y((double) e.low(count));
        double high = scale.y((double) e.high(count));
        d.line(x, low, x, high, Drawing.BLACK, 1);
        d.line(x - 3, low, x + 3, low, Drawing.BLACK, 1);
        d.line(x - 3, high, x + 3, high, Drawing.BLACK, 1);
        d.circle(x, scale.y(r.modelled()), 2.6, Drawing.WHITE, 1);
      }
      d.label(x, BOTTOM + 11, 7.5, "middle", Drawing.BLACK, String.valueOf(r.year()));
    }
    d.end();
  }

  private void table(List<Row> rows) {
    page.open("table", "class", "grid keep").open("thead").open("tr").leaf("th", "Year");
    for (String head :
        new String[] {
          "Repairs made", "Model", e.levelText() + " of single years", "Family", "Inside?"
        }) {
      page.leaf("th", head, "class", "num");
    }
    page.close().close().open("tbody");
    int inside = 0;
    int watched = 0;
    for (Row r : rows) {
      if (r.repairs() >= 0) {
        NegativeBinomial count = e.inYear(r.modelled());
        boolean in = r.repairs() >= e.low(count) && r.repairs() <= e.high(count);
        watched += r.modelled() > 0 ? 1 : 0;
        inside += in && r.modelled() > 0 ? 1 : 0;
        page.open("tr").leaf("td", String.valueOf(r.year()));
        page.leaf("td", String.valueOf(r.repairs()), "class", "num");
        page.leaf(
            "td", r.modelled() > 0 ? Evidence.decimals(1, r.modelled()) : "-", "class", "num");
        page.leaf(
            "td", r.modelled() > 0 ? e.low(count) + " to " + e.high(count) : "-", "class", "num");
        page.leaf("td", r.family() > 0 ? Evidence.decimals(1, r.family()) : "-", "class", "num");
        String verdict = r.modelled() > 0 ? in ? "yes" : "no" : "earlier surface";
        page.leaf("td", verdict, "class", "num").close();
      }
    }
    page.close().close();
    page.leaf(
        "p",
        inside
            + " of "
            + watched
            + " years lie inside the interval. These years were fitted; years that were not are in"
            + " the hindcast below.",
        "class",
        "fine");
  }
}
