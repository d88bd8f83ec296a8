package lanemend.web.renewal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.measure.Unit;
import lanemend.renewal.sections.CumulativeDifference;
import lanemend.renewal.sections.Section;
import lanemend.renewal.sections.Sectioning;
import lanemend.renewal.sections.Strip;
import lanemend.web.page.Drawing;
import lanemend.web.page.Xhtml;

/** Where the section begins and ends, by two ways on the milepost axis of the repairs. */
final class SectionsPart {
  static final String TITLE = "Limits: two ways to cut the route";
  private static final double CURVE = 70;
  private static final double BAR = 15;

  private final Xhtml page;
  private final Evidence e;
  private final RoadWindow window;

  SectionsPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
    this.window = e.window();
  }

  void write() {
    Optional<Strip> strip = strip();
    page.open("div", "class", "keep").leaf("h2", TITLE);
    if (strip.isEmpty()) {
      page.leaf("p", "The route was not cut: no cell of it is counted here.").close();
      return;
    }
    Sectioning s = sectioning(strip.orElseThrow());
    page.leaf("p", words(), "class", "fine");
    draw(strip.orElseThrow(), s);
    page.close();
    tables(s);
  }

  String words() {
    return "Same milepost axis as the repairs above. Numbers in the bars: "
        + e.rateUnit()
        + " under the surface now in place. Curve: running repairs less what the route's mean"
        + " rate would give; it climbs where the road is worse than the route. A bar that"
        + " touches the edge goes on beyond it.";
  }

  private Sectioning sectioning(Strip strip) {
    return e.context().study().sectionings().get(e.context().study().strips().indexOf(strip));
  }

  /** The drawing alone, where the route was cut; false where it was not. */
  boolean draw() {
    Optional<Strip> strip = strip();
    strip.ifPresent(s -> draw(s, sectioning(s)));
    return strip.isPresent();
  }

  private void draw(Strip strip, Sectioning s) {
    double height = CURVE + 4 * (BAR + 5) + 22;
    Drawing d = new Drawing(page, RoadWindow.WIDTH, height, "sections by two ways");
    // First, so that bars cover it and their numbers stay readable.
    double limits = CURVE + 6 + 4 * (BAR + 5);
    for (double limit : new double[] {e.section().fromAlongM(), e.section().toAlongM()}) {
      d.dashed(window.x(limit), 0, window.x(limit), limits, 1.2, "5,2");
    }
    curve(d, strip);
    double y = CURVE + 6;
    label(d, y, "flagged");
    if (e.section().cluster().tested()) {
      bar(
          d,
          y,
          e.section().cluster().fromAlongM(),
          e.section().cluster().toAlongM(),
          "by the scan",
          2);
    }
    y += BAR + 5;
    label(d, y, "this page");
    bar(d, y, e.section().fromAlongM(), e.section().toAlongM(), "limits shown", 2);
    y += BAR + 5;
    label(d, y, "cum. diff.");
    bars(d, y, s.byDifference());
    y += BAR + 5;
    label(d, y, "PELT");
    bars(d, y, s.byPartition());
    y += BAR + 5;
    window.axis(d, y);
    d.end();
  }

  /** The strip of the route the section lies on; holes split a route into several. */
  private Optional<Strip> strip() {
    double middle = (e.section().fromAlongM() + e.section().toAlongM()) / 2;
    return e.context().study().strips().stream()
        .filter(s -> s.routeId().equals(e.section().cluster().routeId()))
        .filter(s -> s.edges()[0] <= middle && s.edges()[s.cells()] >= middle)
        .findFirst();
  }

  private void curve(Drawing d, Strip strip) {
    double[] response = new double[strip.cells()];
    for (int i = 0; i < response.length; i++) {
      response[i] = strip.repairs()[i];
    }
    double[] z = CumulativeDifference.differences(response, strip.years());
    List<double[]> points = new ArrayList<>();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int edge = 0; edge <= z.length; edge++) {
      double along = strip.edges()[edge];
      if (along >= window.fromM() - 1 && along <= window.toM() + 1) {
        double value = edge == 0 ? 0 : z[edge - 1];
        points.add(new double[] {window.x(along), value});
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
    }
    double span = Math.max(1e-9, high - low);
    for (double[] p : points) {
      p[1] = CURVE - 6 - (p[1] - low) / span * (CURVE - 16);
    }
    d.line(RoadWindow.LEFT, CURVE, RoadWindow.RIGHT, CURVE, Drawing.LIGHT, 0.5);
    d.polyline(points, Drawing.BLACK, 1.2, "");
    d.label(RoadWindow.LEFT - 4, 14, 7.5, "end", Drawing.BLACK, Evidence.decimals(0, high));
    d.label(RoadWindow.LEFT - 4, CURVE - 4, 7.5, "end", Drawing.BLACK, Evidence.decimals(0, low));
    d.label(2, CURVE / 2 + 3, 8, "start", Drawing.BLACK, "difference");
  }

  private static void label(Drawing d, double y, String text) {
    d.label(RoadWindow.LEFT - 4, y + BAR - 4.5, 8, "end", Drawing.BLACK, text);
  }

  private void bars(Drawing d, double y, List<Section> sections) {
    for (int i = 0; i < sections.size(); i++) {
      Section s = sections.get(i);
      if (inWindow(s)) {
        bar(d, y, s.fromAlongM(), s.toAlongM(), e.rate(s.rate().value()), i % 2);
      }
    }
  }

  private boolean inWindow(Section s) {
    return s.fromAlongM() < window.toM() && s.toAlongM() > window.fromM();
  }

  private void bar(Drawing d, double y, double from, double to, String text, int shade) {
    double left = window.x(from);
    double width = window.x(to) - left;
    String fill = shade == 0 ? Drawing.WHITE : shade == 1 ? Drawing.PALE : Drawing.LIGHT;
    d.rect(left, y, width, BAR, fill, 0.8);
    if (Drawing.textWidth(text, 8) < width) {
      d.label(left + width / 2, y + BAR - 4.5, 8, "middle", Drawing.BLACK, text);
    }
  }

  private void tables(Sectioning s) {
    page.open("table", "class", "side keep").open("tr");
    table("Cumulative difference (AASHTO 1993, appendix J)", s.byDifference());
    table("PELT (Killick and others 2012)", s.byPartition());
    page.close().close();
  }

  private void table(String title, List<Section> sections) {
    page.open("td").leaf("h3", title);
    page.open("table", "class", "grid").open("thead").open("tr");
    page.cells("th", "Milepost");
    for (String head : new String[] {"Length", "Repairs", "Expected", "Rate"}) {
      page.leaf("th", head, "class", "num");
    }
    page.close().close().open("tbody");
    for (Section s : sections) {
      if (inWindow(s)) {
        page.open("tr").leaf("td", e.mileposts().range(s.fromAlongM(), s.toAlongM()));
        page.leaf("td", e.wording().text(s.lengthM(), Unit.ROAD_METER), "class", "num");
        page.leaf("td", String.valueOf(s.repairs()), "class", "num");
        page.leaf("td", Evidence.decimals(1, s.expected()), "class", "num");
        page.leaf("td", e.rate(s.rate().value()), "class", "num").close();
      }
    }
    page.close().close().close();
  }
}
