package lanemend.web.sheet;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import lanemend.crewdays.CrewDay;
import lanemend.web.page.Letter;
import lanemend.web.page.PagePdf;
import lanemend.web.page.Xhtml;

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
    Xhtml page = open(title, context.agency().name() + ": " + title);
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
    Xhtml page = open(title, context.agency().name() + ": " + title);
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
    PagePdf.write(html, file);
  }

  /** Starts a page of crew sheets. */
  static Xhtml open(String title, String footer) {
    return Letter.open(title, Letter.style(SheetWriter.class, "sheet.css"), footer);
  }
}
