package lanemend.patching;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import org.junit.jupiter.api.Test;

/** The blade patch worked in the documentation, and the same by hand in feet and inches. */
class WorkedExampleTest {
  private static final String MARK = "<!-- worked example: blade patch -->";

  /** A high-severity rut, 100 ft by 10 ft, 1 1/2 in deep, two-lane rural road at 55 mph. */
  private final PatchDesign design =
      new PatchDesigner(TreatmentRules.standard(), PatchSettings.standard())
          .design(Bad.spot(DefectKind.RUTTING, Severity.HIGH, 100, 10, 1.5), Bad.twoLane(55, 2000));

  /** Every row of the documentation's table is what the program works out, digit for digit. */
  @Test
  void theDocumentationShowsWhatIsWorkedOut() throws IOException {
    List<String> written = table();

    assertEquals(String.join("\n", rows()), String.join("\n", written));
  }

  /** The same by hand: geometry and arithmetic in feet and inches (own working). */
  @Test
  void agreesWithTheWorkingByHand() {
    double fill = 100 * 10 * 1.5 / 12 * 2 / 3;
    double prism = 102 * 10 / 12.0;
    double tapers = 1 / 12.0 * 20 * 10;
    double feather = 1 / 12.0 * (102 + 4.0 / 3 * 20);
    double ft3 = fill + prism + tapers + feather;
    double neat = ft3 * 145 / 2000;
    double tons = neat * (1.05 + 3 / 142.0);

    assertEquals(195.722, ft3, 0.001);
    assertEquals(15.199, tons, 0.001);
    assertEquals(tons, design.tonnes() / Conversion.T_PER_SHORT_TON, 1e-9);
    assertEquals(
        142 * 12 / 9.0 * 0.07 / 0.57 / (1 - 0.00025 * 80),
        design.tackLiters() / Conversion.L_PER_US_GAL,
        1e-9);
  }

  /**
   * Minutes by hand: 12 carrying passes of 160 ft at 2.5 mph, back at 4 mph, half a minute each.
   */
  @Test
  void agreesWithTheMinutesByHand() {
    double pass = 160 / (2.5 * 88 * 0.83) + 160 / (4 * 88 * 0.83) + 0.5;
    double finish = 160 / (2 * 88 * 0.83) + 160 / (4 * 88 * 0.83) + 0.5;

    assertEquals(12 * pass, minutes("blade passes"), 1e-9);
    assertEquals(2 * finish, minutes("finish"), 1e-9);
    // 3 lifts x 3 strips x 4 passes of 142 ft at 3 mph, and 0.1 min at the end of each.
    assertEquals(36 * (142 / (3 * 88 * 0.83) + 0.1), minutes("roll"), 1e-9);
  }

  private double minutes(String step) {
    return design.steps().stream()
        .filter(s -> s.name().equals(step))
        .mapToDouble(s -> s.minutes().value())
        .findFirst()
        .orElseThrow();
  }

  private List<String> rows() {
    List<Figure> figures = new ArrayList<>(design.figures());
    design.steps().forEach(s -> figures.add(s.minutes()));
    figures.add(
        new Figure("all steps", design.minutes(), Unit.MINUTE, "sum", List.of(), "arithmetic"));
    figures.addAll(design.layDown().orElseThrow().figures());
    TruckCycle cycle = new TruckCycle(5, 22, 3, 20);
    double rate = design.figure(FigureName.LAYDOWN_RATE).orElseThrow().value();
    double payload = PatchSettings.standard().truck().payloadTonnes();
    double interval = TruckCycle.placingIntervalMinutes(payload, rate);
    figures.add(cycle.cycle());
    figures.add(cycle.trucksToKeepUp(interval));
    figures.add(cycle.trucksWithOneWaiting(interval));
    return figures.stream().map(WorkedExampleTest::row).toList();
  }

  private static String row(Figure figure) {
    String us = UnitSystem.US_CUSTOMARY.show(figure.value(), figure.unit()).text();
    String si = String.format(Locale.ROOT, "%.4f", figure.value());
    return "| " + figure.name() + " | " + figure.formula() + " | " + us + " | " + si + " |";
  }

  private static List<String> table() throws IOException {
    try (Stream<Path> files = Files.walk(Path.of("docs"))) {
      List<Path> pages = files.filter(f -> f.toString().endsWith(".md")).sorted().toList();
      for (Path page : pages) {
        List<String> lines = Files.readAllLines(page);
        int mark = lines.indexOf(MARK);
        if (mark >= 0) {
          return lines.stream()
              .skip(mark + 1L)
              .dropWhile(l -> !l.startsWith("|"))
              .takeWhile(l -> l.startsWith("|"))
              .skip(2)
              .toList();
        }
      }
    }
    return fail("no page under docs carries " + MARK);
  }
}
