package lanemend.web.renewal;

import lanemend.renewal.LaneStrip;
import lanemend.renewal.LaneStrip.Mark;
import lanemend.renewal.SectionHistory.Place;
import lanemend.web.page.Drawing;
import lanemend.web.page.Xhtml;

/** The strip of repairs: years down, mileposts across, a row for each lane. */
final class StripPart {
  static final String TITLE = "Repairs by year, milepost and lane";
  static final String WORDS =
      "Each box is a tenth of a mile of one lane in one year; the number is the repairs made in"
          + " it. Lanes R are right of the centreline, L left of it, looking along the strip from"
          + " its left end; they are counted outward. Thick bar on top: a new surface was laid that"
          + " year. Crossed out: before the records or under a surface of unknown age, so not"
          + " counted. Dashed: limits of the section.";
  private static final double TOP = 16;
  private static final double YEAR_GAP = 2;

  private final Xhtml page;
  private final Evidence e;
  private final RoadWindow window;
  private final LaneStrip strip;
  private final double row;

  StripPart(Xhtml page, Evidence e) {
    this.page = page;
    this.e = e;
    this.window = e.window();
    this.strip = e.strip();
    this.row = strip.lanes().size() <= 2 ? 9 : strip.lanes().size() <= 4 ? 7 : 5.5;
  }

  void write() {
    page.open("div", "class", "keep").leaf("h2", TITLE);
    page.leaf("p", WORDS, "class", "fine");
    draw();
    page.close();
  }

  void draw() {
    double bottom = TOP + strip.years() * yearHeight();
    Drawing d = new Drawing(page, RoadWindow.WIDTH, bottom + 34, "repairs by year, milepost, lane");
    for (int y = 0; y < strip.years(); y++) {
      year(d, y);
    }
    sums(d, bottom + 1);
    window.axis(d, bottom + 14);
    limit(d, e.section().fromAlongM(), bottom + 14, "end");
    limit(d, e.section().toAlongM(), bottom + 14, "start");
    d.end();
  }

  private double yearHeight() {
    return strip.lanes().size() * row + YEAR_GAP;
  }

  private void year(Drawing d, int y) {
    double top = TOP + y * yearHeight();
    d.label(
        2,
        top + strip.lanes().size() * row / 2 + 3,
        8.5,
        "start",
        Drawing.BLACK,
        String.valueOf(strip.firstYear() + y));
    for (int l = 0; l < strip.lanes().size(); l++) {
      double at = top + l * row;
      double size = Math.min(7, row);
      d.label(
          RoadWindow.LEFT - 4,
          at + row / 2 + size * 0.35,
          size,
          "end",
          Drawing.BLACK,
          strip.lanes().get(l).code());
      for (int c = 0; c < strip.places().size(); c++) {
        if (strip.marks()[y][l][c] != null) {
          box(d, strip.places().get(c), at, strip.marks()[y][l][c]);
        }
      }
    }
  }

  private void box(Drawing d, Place place, double top, Mark mark) {
    double left = window.x(place.fromAlongM());
    double width = window.x(place.toAlongM()) - left;
    d.rect(left, top, width, row, fill(mark.repairs()), 0.3);
    if (!mark.watched()) {
      d.line(left, top + row, left + width, top, Drawing.MIDDLE, 0.4);
      d.line(left, top, left + width, top + row, Drawing.MIDDLE, 0.4);
    }
    if (mark.surfaced()) {
      d.rect(left, top, width, 1.8, Drawing.BLACK, 0);
    }
    if (mark.repairs() > 0) {
      double size = Math.min(7.5, row - 0.5);
      String color = mark.repairs() >= 4 ? Drawing.WHITE : Drawing.BLACK;
      String text = String.valueOf(mark.repairs());
      d.label(left + width / 2, top + row / 2 + size * 0.36, size, "middle", color, text);
    }
  }

  private static String fill(int repairs) {
    return switch (repairs) {
      case 0 -> Drawing.WHITE;
      case 1 -> Drawing.PALE;
      case 2, 3 -> Drawing.LIGHT;
      default -> Drawing.DARK;
    };
  }

  private void sums(Drawing d, double top) {
    d.label(RoadWindow.LEFT - 4, top + 8, 7.5, "end", Drawing.BLACK, "all years");
    for (int c = 0; c < strip.places().size(); c++) {
      Place p = strip.places().get(c);
      double middle = (window.x(p.fromAlongM()) + window.x(p.toAlongM())) / 2;
      String sum = String.valueOf(strip.repairsAt(c));
      d.label(middle, top + 8, 7.5, "middle", Drawing.BLACK, sum);
    }
  }

  private void limit(Drawing d, double alongM, double bottom, String anchor) {
    double x = window.x(alongM);
    d.dashed(x, TOP - 6, x, bottom, 1.6, "5,2");
    double text = anchor.equals("end") ? x - 3 : x + 3;
    d.label(text, TOP - 6, 8, anchor, Drawing.BLACK, e.mileposts().at(alongM));
  }
}
