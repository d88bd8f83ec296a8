package lanemend.web.page;

import static lanemend.web.page.Xhtml.n;

import java.util.List;

/**
 * An inline SVG drawing in points. Only plain lines, shapes and text with presentation attributes:
 * both a browser and the PDF's SVG painter draw those alike, and they survive a photocopier.
 */
public final class Drawing {
  public static final String BLACK = "#000000";
  public static final String WHITE = "#ffffff";
  public static final String DARK = "#555555";
  public static final String MIDDLE = "#8c8c8c";
  public static final String LIGHT = "#c4c4c4";
  public static final String PALE = "#ececec";

  private final Xhtml page;

  public Drawing(Xhtml page, double width, double height, String title) {
    this.page = page;
    page.open(
        "svg",
        "xmlns",
        "http://www.w3.org/2000/svg",
        "width",
        n(width) + "pt",
        "height",
        n(height) + "pt",
        "viewBox",
        "0 0 " + n(width) + " " + n(height),
        "role",
        "img",
        "aria-label",
        title);
  }

  public void end() {
    page.close();
  }

  /** Draws what follows only inside a rectangle, until {@link #endClip()}. */
  public void clip(String id, double x, double y, double width, double height) {
    page.open("defs").open("clipPath", "id", id);
    page.empty("rect", "x", n(x), "y", n(y), "width", n(width), "height", n(height));
    page.close().close();
    page.open("g", "clip-path", "url(#" + id + ")");
  }

  public void endClip() {
    page.close();
  }

  /** Which way traffic goes: an arrow along x with its middle at a point. */
  public void wayArrow(double x, double y, boolean rightward, double width, double halfHead) {
    double d = rightward ? 1 : -1;
    line(x - 6 * d, y, x + 3 * d, y, BLACK, width);
    polygon(
        List.of(
            new double[] {x + 7 * d, y},
            new double[] {x + 2 * d, y - halfHead},
            new double[] {x + 2 * d, y + halfHead}),
        BLACK,
        0.3);
  }

  public void line(double x1, double y1, double x2, double y2, String color, double width) {
    page.empty(
        "line",
        "x1",
        n(x1),
        "y1",
        n(y1),
        "x2",
        n(x2),
        "y2",
        n(y2),
        "stroke",
        color,
        "stroke-width",
        n(width));
  }

  public void dashed(double x1, double y1, double x2, double y2, double width, String dashes) {
    page.empty(
        "line",
        "x1",
        n(x1),
        "y1",
        n(y1),
        "x2",
        n(x2),
        "y2",
        n(y2),
        "stroke",
        BLACK,
        "stroke-width",
        n(width),
        "stroke-dasharray",
        dashes);
  }

  public void polyline(List<double[]> points, String color, double width, String dashes) {
    page.empty(
        "polyline",
        "points",
        joined(points),
        "fill",
        "none",
        "stroke",
        color,
        "stroke-width",
        n(width),
        "stroke-linejoin",
        "round",
        "stroke-dasharray",
        dashes.isEmpty() ? "none" : dashes);
  }

  public void polygon(List<double[]> points, String fill, double width) {
    page.empty(
        "polygon",
        "points",
        joined(points),
        "fill",
        fill,
        "stroke",
        BLACK,
        "stroke-width",
        n(width));
  }

  public void rect(double x, double y, double width, double height, String fill, double stroke) {
    page.empty(
        "rect",
        "x",
        n(x),
        "y",
        n(y),
        "width",
        n(width),
        "height",
        n(height),
        "fill",
        fill,
        "stroke",
        stroke > 0 ? BLACK : "none",
        "stroke-width",
        n(stroke));
  }

  public void circle(double x, double y, double radius, String fill, double stroke) {
    page.empty(
        "circle",
        "cx",
        n(x),
        "cy",
        n(y),
        "r",
        n(radius),
        "fill",
        fill,
        "stroke",
        BLACK,
        "stroke-width",
        n(stroke));
  }

  /** Text at a baseline; {@code anchor} is start, middle or end. */
  public void label(double x, double y, double size, String anchor, String color, String text) {
    page.leaf(
        "text",
        text,
        "x",
        n(x),
        "y",
        n(y),
        "font-family",
        PagePdf.FONT + ", Arial, Helvetica, sans-serif",
        "font-size",
        n(size),
        "text-anchor",
        anchor,
        "fill",
        color);
  }

  /** Text on a white ground, so that lines below do not cross it. */
  public void labelOnWhite(
      double x, double y, double size, String anchor, String color, String text) {
    double[] box = textBox(x, y, size, anchor, text);
    rect(box[0], box[1], box[2] - box[0], box[3] - box[1], WHITE, 0);
    label(x, y, size, anchor, color, text);
  }

  /** About the room text takes: {@code {left, top, right, bottom}}. */
  public static double[] textBox(double x, double y, double size, String anchor, String text) {
    double width = textWidth(text, size);
    double left =
        switch (anchor) {
          case "middle" -> x - width / 2;
          case "end" -> x - width;
          default -> x;
        };
    return new double[] {left - 1, y - size * 0.85, left + width + 1, y + size * 0.25};
  }

  /** Sum of rounded advance widths of a plain sans serif, good to a few percent. */
  public static double textWidth(String text, double size) {
    double em = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (" .,:;'|!()[]-ilj\u00a0".indexOf(c) >= 0) {
        em += 0.3;
      } else if (Character.isUpperCase(c) || c == 'm' || c == 'w') {
        em += 0.72;
      } else {
        em += 0.56;
      }
    }
    return em * size;
  }

  private static String joined(List<double[]> points) {
    StringBuilder text = new StringBuilder();
    for (double[] p : points) {
      text.append(text.isEmpty() ? "" : " ").append(n(p[0])).append(',').append(n(p[1]));
    }
    return text.toString();
  }
}
