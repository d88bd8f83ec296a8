package lanemend.web.renewal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import lanemend.renewal.EngineerDecision;
import lanemend.web.page.Letter;
import lanemend.web.page.PagePdf;
import lanemend.web.page.Xhtml;

/** Prints what speaks for and against renewing a flagged section, for a licensed engineer. */
public final class EvidencePage {
  private final EvidenceContext context;

  public EvidencePage(EvidenceContext context) {
    this.context = context;
  }

  /**
   * The page of one section, well-formed XHTML that refers to nothing outside itself.
   *
   * @param decision as kept, where one was made
   * @throws IllegalArgumentException if the section lies on a route the network does not have
   */
  public String html(FlaggedSection section, Optional<EngineerDecision> decision) {
    Xhtml page = open(context, "Renewal: " + section.id());
    new HeaderPart(page, section, context).write();
    Evidence evidence = Evidence.of(section, context);
    new StripPart(page, evidence).write();
    new SectionsPart(page, evidence).write();
    new ModelPart(page, evidence).write();
    new ForecastPart(page, evidence).write();
    new CostPart(page, evidence).write();
    new OverlayPart(page, evidence).write();
    new HindcastPart(page, evidence).write();
    new DecisionPart(page, section, context).write(decision);
    new NumbersPart(page, evidence).write();
    return page.done();
  }

  /**
   * Lays the page out as a PDF on letter paper. The file appears whole or not at all; its folder
   * must exist.
   *
   * @throws IOException if it cannot be written
   */
  public void pdf(String html, Path file) throws IOException {
    PagePdf.write(html, file);
  }

  /**
   * A page's file name without its ending. Characters of the id that a file system may refuse are
   * written as their code, so that two sections never share a file.
   */
  public static String fileName(FlaggedSection section) {
    StringBuilder name = new StringBuilder("section-");
    for (char c : section.id().toCharArray()) {
      if (c < 128 && (Character.isLetterOrDigit(c) || c == '-' || c == '.')) {
        name.append(c);
      } else {
        name.append(c == ' ' ? "_" : String.format(Locale.ROOT, "~%04x", (int) c));
      }
    }
    return name.toString();
  }

  static Xhtml open(EvidenceContext context, String title) {
    return Letter.open(
        title,
        Letter.style(EvidencePage.class, "evidence.css"),
        context.agency().name() + ": " + title + ". For review by a licensed engineer.");
  }
}
