package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;

class CrewSheetTest {
  @Test
  void draws() throws Exception {
    for (UnitSystem u : UnitSystem.values()) {
      SheetWriter w = new SheetWriter(InventedDay.context(u));
      String html = w.html(InventedDay.day());
      Path out = Path.of("/tmp/sheet-look");
      Files.createDirectories(out);
      Files.writeString(out.resolve(u + ".html"), html);
      long t = System.nanoTime();
      w.pdf(html, out.resolve(u + ".pdf"));
      System.out.println((System.nanoTime() - t) / 1e6 + " ms");
    }
    assertTrue(true);
  }
}
