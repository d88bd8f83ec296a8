package lanemend.web.page;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FSFontUseCase;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRRuntimeException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.EnumSet;

/**
 * Turns a page into a PDF. Text uses the reader's built-in Helvetica; letters outside its Windows
 * Latin 1 set, and the drawings, use the Liberation Sans that comes inside PDFBox, so that a
 * machine without any font installed prints the same sheet.
 */
public final class PagePdf {
  public static final String FONT = "Sheet Sans";
  private static final String FONT_RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

  private PagePdf() {}

  /**
   * Writes the PDF beside its place and moves it there, so a broken run leaves no half page.
   *
   * @throws IOException if the file cannot be written or the page cannot be laid out
   */
  public static void write(String html, Path file) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    Path font = Files.createTempFile("sheet-font", ".ttf");
    Path half = Files.createTempFile(folder, "sheet", ".part");
    try (BatikSVGDrawer svg = new BatikSVGDrawer()) {
      try (InputStream in = PdfRendererBuilder.class.getResourceAsStream(FONT_RESOURCE)) {
        Files.copy(in, font, StandardCopyOption.REPLACE_EXISTING);
      }
      try (OutputStream out = Files.newOutputStream(half)) {
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFont(
            font.toFile(),
            FONT,
            400,
            FontStyle.NORMAL,
            true,
            EnumSet.of(FSFontUseCase.DOCUMENT, FSFontUseCase.SVG, FSFontUseCase.FALLBACK_FINAL));
        builder.useSVGDrawer(svg);
        builder.useReplacementText("?");
        builder.withProducer("Lanemend");
        builder.withHtmlContent(html, null);
        builder.toStream(out);
        builder.run();
      }
      Files.move(half, file, StandardCopyOption.REPLACE_EXISTING);
    } catch (XRRuntimeException e) {
      throw new IOException("cannot lay out " + file + ": " + e.getMessage(), e);
    } finally {
      Files.deleteIfExists(half);
      Files.deleteIfExists(font);
    }
  }
}
