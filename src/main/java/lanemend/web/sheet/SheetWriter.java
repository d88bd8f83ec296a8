package lanemend.web.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import lanemend.crewdays.CrewDay;

/** Prints crew days: one self-contained XHTML page each, and the same page as a PDF. */
public final class SheetWriter {
  private final SheetContext context;

  public SheetWriter(SheetContext context) {
    this.context = context;
  }

  /**
   * The sheet of one crew day, well-formed XHTML that refers to nothing outside itself.
   *
   * @throws IllegalArgumentException if a zone lies on a route the network does not have
   */
  public String html(CrewDay day) {
    String title = day.crew().name() + ", " + day.date();
    Xhtml page = open(title, footer(context.agency().name() + ": " + title));
    new HeadPart(page, day, context).write();
    new LoadPart(page, day, context).write();
    new ChecksPart(page, day).write();
    page.open("div", "class", "keep");
    RoadMap.draw(page, day, context);
    page.leaf(
        "p",
        "Numbers: stops in order. Thick black: work zones. Square: yard. Triangle: plant. Double line:"
            + " the crew's drive. Broad grey: haul from the plant. Thin grey: other roads.",
        "class",
        "fine");
    page.close();
    Set<String> allDay = DayTotals.allDayCautions(day);
    List<CrewDay.Stop> stops = day.stops();
    for (int i = 0; i < stops.size(); i++) {
      new StopPart(page, stops.get(i), i + 1, context).write(allDay);
    }
    new RecordPart(page, day, context).write();
    page.leaf(
        "p",
        "How each number was reached: "
            + SheetIndex.numbersFileName(day)
            + ".html, beside this"
            + " sheet.",
        "class",
        "fine");
    return page.done();
  }

  /**
   * How each number of the day's sheet was reached: rule, inputs and source. A page of its own,
   * since a crew has no use for it on paper.
   */
  public String numbersHtml(CrewDay day) {
    String title = "How each number was reached: " + day.crew().name() + ", " + day.date();
    Xhtml page = open(title, footer(context.agency().name() + ": " + title));
    page.leaf("p", day.crew().name() + ", " + day.date(), "class", "agency");
    new TracePart(page, context).write(day);
    return page.done();
  }

  /**
   * Lays out a page of {@link #html(CrewDay)} or {@link #numbersHtml(CrewDay)} as a PDF on letter
   * paper. The file appears whole or not at all; its folder must exist.
   *
   * @throws IOException if it cannot be written
   */
  public void pdf(String html, Path file) throws IOException {
    SheetPdf.write(html, file);
  }

  /** Starts a page with the shared style; {@code extraCss} is added to it. */
  static Xhtml open(String title, String extraCss) {
    Xhtml page = new Xhtml();
    page.open("html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en");
    page.open("head").empty("meta", "charset", "UTF-8");
    page.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
    page.leaf("title", title);
    page.leaf("style", style() + extraCss).close();
    page.open("body");
    return page;
  }

  private static String style() {
    try (InputStream in = SheetWriter.class.getResourceAsStream("sheet.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Page footer. Its text comes from data, so every character but plain ones is escaped. */
  private static String footer(String text) {
    StringBuilder css =
        new StringBuilder(
            "@page { @bottom-left { font: 8pt Helvetica, sans-serif; color: #333333; content: \"");
    text.codePoints()
        .forEach(
            c -> {
              if (c < 128 && (Character.isLetterOrDigit(c) || c == ' ')) {
                css.appendCodePoint(c);
              } else if (c >= ' ') {
                css.append(String.format(Locale.ROOT, "\\%06x ", c));
              }
            });
    return css.append("\"; } }\n").toString();
  }
}
