package lanemend.web.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import lanemend.crewdays.Crew;
import lanemend.crewdays.CrewDay;
import lanemend.measure.Figure;
import lanemend.measure.UnitSystem;
import lanemend.patching.PatchDesign;
import lanemend.patching.WorkStep;
import lanemend.web.page.Wording;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The sheet of an invented day, as the page says it and as the PDF prints it. */
class CrewSheetTest {
  private static final CrewDay DAY = InventedDay.day();

  @TempDir static Path folder;
  private static String usHtml;
  private static String usPdf;
  private static String metricPdf;
  private static int pages;

  @BeforeAll
  static void print() throws IOException {
    SheetWriter us = new SheetWriter(InventedDay.context(UnitSystem.US_CUSTOMARY));
    usHtml = us.html(DAY);
    us.pdf(usHtml, folder.resolve("us.pdf"));
    usPdf = text(folder.resolve("us.pdf"));
    SheetWriter metric = new SheetWriter(InventedDay.context(UnitSystem.METRIC));
    metric.pdf(metric.html(DAY), folder.resolve("metric.pdf"));
    metricPdf = text(folder.resolve("metric.pdf"));
    try (PDDocument pdf = Loader.loadPDF(folder.resolve("us.pdf").toFile())) {
      pages = pdf.getNumberOfPages();
    }
  }

  @Test
  void everyStopIsPrintedInOrderWithItsTimes() {
    int first = usPdf.indexOf("SR 14, milepost 13.212 to 13.375");
    int second = usPdf.indexOf("CR 7, milepost 14.105");
    int third = usPdf.indexOf("SR 61, milepost 17.600 to 17.704");
    assertTrue(0 < first && first < second && second < third, usPdf);
    assertTrue(usPdf.contains("7:24 am to 11:12 am"), "first stop's times");
    assertTrue(metricPdf.contains("07:24 to 11:12"), "metric agencies read 24 hours");
    assertTrue(usPdf.contains("Post 13 is 0.21 mi before the zone, post 14 is 0.63 mi past"));
  }

  @Test
  void everyRepairIsPrintedWithItsReasonSizeAndNote() {
    for (CrewDay.Stop stop : DAY.stops()) {
      for (PatchDesign repair : stop.zone().repairs()) {
        assertTrue(usPdf.contains(repair.defect().id()), repair.defect().id());
      }
    }
    assertTrue(usPdf.contains("240 ft x 10 ft, 1.5 in deep"));
    assertTrue(metricPdf.contains("73.2 m x 3.0 m, 38 mm deep"));
    assertTrue(usPdf.contains("Rutting over 100 ft\u00b2 is bladed, not hand patched."));
    assertTrue(usPdf.contains("gas <main> marker & valve nearby \u2264 6 ft"));
  }

  @Test
  void theMixOfTheFirstBladePatchIsTheHandWorkedOne() throws IOException {
    // 240 ft x 10 ft x 1.5 in at 145 lb/ft3: 240 x 10 x 0.125 x 145 / 2000 = 21.75 short tons,
    // 19.73 t. Worked by hand.
    assertTrue(numbers(DAY, UnitSystem.US_CUSTOMARY).contains("21.8 tons"), "US");
    assertTrue(numbers(DAY, UnitSystem.METRIC).contains("19.7 t "), "metric");
  }

  @Test
  void mixIsOrderedByLoadAsThePlannerHaulsIt() {
    // Stop 1: 300 + 1.25 + 80 ft3 at 145 lb/ft3 = 27.64 tons, two trucks of at most 14 tons.
    assertTrue(usPdf.contains("for stop 1: 27.6 tons in 2 loads of 13.8 tons"), usPdf);
    assertTrue(usPdf.contains("for stop 2: 0.07 tons in 1 load of 0.07 tons"), usPdf);
  }

  @Test
  void tackIsToldAsSprayedAndAsResidual() {
    // Tacked 240 x 10 + 3 x 2.5 + 120 x 8 + 2 x 2 + (2+3+4+5) x 2 x 2 + 2 x 2 = 3,431.5 ft2 and the
    // residual 0.226 L/m2 (0.0499 gal/yd2): 19.03 gal, sprayed at 0.6 residue 31.72 gal.
    assertTrue(usPdf.contains("Tack, 31.7 gal as sprayed (19.0 gal residual)"), usPdf);
  }

  @Test
  void aRoadThatOpensOnTheWorkIsNamedAndItsSignsAreLoaded() {
    // Kiln Rd crosses SR 14 past the first stop's signs: two mouths.
    assertTrue(
        usPdf.matches(
            "(?s).*Kiln Rd\\s+MP.13\\.\\d+,.crosses\\s+Its drivers miss the first signs: W20-1.*"),
        usPdf);
    assertTrue(
        usPdf.matches("(?s).*2 ROAD WORK AHEAD, side roads\\s+\\(W20-1\\)\\s+2 in all.*"), usPdf);
  }

  private static String numbers(CrewDay day, UnitSystem units) throws IOException {
    SheetWriter writer = new SheetWriter(InventedDay.context(units));
    Path file = folder.resolve("numbers-" + units + ".pdf");
    writer.pdf(writer.numbersHtml(day), file);
    return text(file);
  }

  @Test
  void everyFigureIsTracedWithValueUnitFormulaInputsAndSource() throws IOException {
    Wording us = Wording.of(InventedDay.context(UnitSystem.US_CUSTOMARY).agency());
    Wording metric = Wording.of(InventedDay.context(UnitSystem.METRIC).agency());
    String usTrace = numbers(DAY, UnitSystem.US_CUSTOMARY);
    String metricTrace = numbers(DAY, UnitSystem.METRIC);
    List<Figure> figures = figures(DAY);
    assertTrue(figures.size() > 60, "the day has many figures: " + figures.size());
    for (Figure figure : figures) {
      assertTrue(usTrace.contains(Wording.capital(figure.name()) + " = "), figure.name());
      assertTrue(usTrace.contains(figure.formula()), figure.formula());
      assertTrue(usTrace.contains(plain(Wording.typeset(figure.source()))), figure.source());
      assertTrue(usTrace.contains(plain(us.precise(figure.value(), figure.unit()))), figure.name());
      assertTrue(
          metricTrace.contains(plain(metric.precise(figure.value(), figure.unit()))),
          figure.name());
      for (Figure.Input input : figure.inputs()) {
        String shown = input.name() + " " + us.precise(input.value(), input.unit());
        assertTrue(usTrace.contains(plain(shown)), shown);
      }
    }
  }

  @Test
  void everyCautionSignAndDeviceIsPrintedAndThePlanIsForReview() {
    for (CrewDay.Stop stop : DAY.stops()) {
      stop.zone().traffic().cautions().forEach(c -> assertTrue(usPdf.contains(c), c));
      stop.zone().repairs().stream()
          .flatMap(r -> r.cautions().stream())
          .forEach(c -> assertTrue(usPdf.contains(c), c));
      stop.zone()
          .traffic()
          .signs()
          .forEach(s -> assertTrue(usPdf.contains(s.sign().text()), s.sign().text()));
    }
    String review = "Plan for review: the MUTCD, agency and permit conditions rule.";
    assertEquals(3, usPdf.split(java.util.regex.Pattern.quote(review), -1).length - 1);
    // 46 cones at each of three stops are the same cones: 46 go on the truck, not 138.
    assertTrue(usPdf.contains("46 cones, 28 in"));
    assertFalse(usPdf.contains("138 cones"));
  }

  @Test
  void aDayAsTheDesignerWorksItOutIsPrintedWhole() throws IOException {
    for (UnitSystem units : UnitSystem.values()) {
      CrewDay day = InventedDay.designedDay(units);
      SheetWriter writer = new SheetWriter(InventedDay.context(units));
      Path file = folder.resolve("designed-" + units + ".pdf");
      writer.pdf(writer.html(day), file);
      String printed = text(file);
      Wording wording = Wording.of(InventedDay.context(units).agency());
      String numbers = numbers(day, units);
      for (Figure figure : figures(day)) {
        String value = plain(wording.precise(figure.value(), figure.unit()));
        assertTrue(numbers.contains(value), figure.name() + " " + value);
        assertTrue(numbers.contains(Wording.capital(figure.name())), figure.name());
        assertTrue(numbers.contains(plain(Wording.typeset(figure.formula()))), figure.formula());
      }
      for (CrewDay.Stop stop : day.stops()) {
        for (PatchDesign repair : stop.zone().repairs()) {
          for (String caution : repair.cautions()) {
            assertTrue(printed.contains(Wording.typeset(caution)), caution);
          }
          repair
              .layDown()
              .ifPresent(
                  plan ->
                      plan.instructions()
                          .forEach(i -> assertTrue(printed.contains(Wording.typeset(i)), i)));
        }
      }
    }
  }

  @Test
  void whatWasAssumedOfTheRoadIsSaid() {
    assertTrue(usPdf.contains("look before you set up: 3400 vehicles/day."), usPdf);
  }

  @Test
  void aBladePatchSaysHowItIsLaid() {
    assertTrue(usPdf.contains("Laying 1A"));
    assertTrue(usPdf.contains("Roll from shoulder to crown, each pass over half of the last."));
    assertFalse(usPdf.contains("Laying 1B"), "a hand patch has no lay-down plan");
  }

  @Test
  void aMilepostThatOccursTwiceIsToldApart() {
    // SR 61 runs from 17.69 back to 17.65 ahead: 17.672 lies before the equation, and 3F's place,
    // 7.690 miles along, after it.
    assertTrue(usPdf.contains("17.672 back"), usPdf);
    assertTrue(usHtml.contains("17.69 = 17.65"), "the strip shows the equation");
  }

  @Test
  void severityIsToldWithoutColour() throws Exception {
    for (String label : List.of(">1A H<", ">1B M<", ">3A L<")) {
      assertTrue(usHtml.contains(label), label);
    }
    for (String color : usHtml.split("#", -1)) {
      if (color.matches("(?s)^[0-9a-f]{6}.*")) {
        assertEquals(color.substring(0, 2), color.substring(2, 4), "grey only: #" + color);
        assertEquals(color.substring(0, 2), color.substring(4, 6), "grey only: #" + color);
      }
    }
  }

  @Test
  void threeStopsFillAFewPages() {
    assertTrue(pages >= 3 && pages <= 7, "pages: " + pages);
    assertTrue(usPdf.contains("page 1 of " + pages));
  }

  @Test
  void thePageIsWellFormedAndNeedsNothingFromOutside() throws Exception {
    Document page = parse(usHtml);
    NodeList all = page.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      assertFalse(List.of("script", "link", "img", "iframe").contains(element.getTagName()));
      assertFalse(element.hasAttribute("src") || element.hasAttribute("href"));
    }
    String style = page.getElementsByTagName("style").item(0).getTextContent();
    assertFalse(style.contains("url(") || style.contains("@import"), "style loads nothing");
  }

  @Test
  void nothingInTheDataCanBecomeMarkupOrStyle() throws Exception {
    String name = "\"; } } </style><script>alert(1)</script> \\ \u0007 & 'x'";
    Crew crew = InventedDay.crew();
    Crew hostile =
        new Crew(
            crew.id(),
            name,
            crew.yardId(),
            crew.shiftStart(),
            crew.shiftMinutes(),
            crew.trucks(),
            crew.costPerHour(),
            crew.does(),
            crew.daysOff());
    SheetWriter writer = new SheetWriter(InventedDay.context(UnitSystem.US_CUSTOMARY));
    String html = writer.html(with(hostile));
    assertEquals(0, parse(html).getElementsByTagName("script").getLength());
    assertFalse(html.contains("<script"));
    Path file = folder.resolve("hostile.pdf");
    writer.pdf(html, file);
    String shown = "\"; } } </style><script>alert(1)</script> \\ & 'x', 2026-05-04";
    assertTrue(text(file).contains(shown), "whole in the footer too");
  }

  @Test
  void lettersOutsideThePrintersOwnSetArePrintedOrReplaced() throws IOException {
    Crew crew = InventedDay.crew();
    Crew named =
        new Crew(
            crew.id(),
            "\u0141\u00f3d\u017a \u03a9 \u0416 \u4e2d",
            crew.yardId(),
            crew.shiftStart(),
            crew.shiftMinutes(),
            crew.trucks(),
            crew.costPerHour(),
            crew.does(),
            crew.daysOff());
    SheetWriter writer = new SheetWriter(InventedDay.context(UnitSystem.US_CUSTOMARY));
    Path file = folder.resolve("letters.pdf");
    writer.pdf(writer.html(with(named)), file);
    assertTrue(
        text(file).contains("\u0141\u00f3d\u017a \u03a9 \u0416 ?"), "Polish, Greek, Cyrillic");
  }

  @Test
  void aPdfThatCannotBeWrittenLeavesNothingBehind() throws IOException {
    Path missing = folder.resolve("no-such-folder").resolve("sheet.pdf");
    SheetWriter writer = new SheetWriter(InventedDay.context(UnitSystem.US_CUSTOMARY));
    assertThrows(IOException.class, () -> writer.pdf(usHtml, missing));
    assertThrows(IOException.class, () -> writer.pdf("<html><body>", folder.resolve("bad.pdf")));
    try (Stream<Path> left = Files.list(folder)) {
      assertTrue(
          left.map(p -> p.getFileName().toString())
              .noneMatch(n -> n.startsWith("bad") || n.endsWith(".part")));
    }
  }

  private static CrewDay with(Crew crew) {
    return new CrewDay(
        DAY.date(),
        crew,
        DAY.plantId(),
        DAY.trucks(),
        DAY.stops().subList(1, 2),
        DAY.leaveYard(),
        DAY.backAtYard(),
        DAY.tonnes(),
        DAY.driveKm(),
        DAY.figures());
  }

  private static List<Figure> figures(CrewDay day) {
    List<Figure> figures = new ArrayList<>(day.figures());
    for (CrewDay.Stop stop : day.stops()) {
      figures.addAll(stop.figures());
      figures.addAll(stop.zone().traffic().figures());
      for (PatchDesign repair : stop.zone().repairs()) {
        figures.addAll(repair.figures());
        repair.layDown().ifPresent(plan -> figures.addAll(plan.figures()));
        repair.steps().stream().map(WorkStep::minutes).forEach(figures::add);
      }
    }
    return figures;
  }

  private static Document parse(String html) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    return factory.newDocumentBuilder().parse(new InputSource(new StringReader(html)));
  }

  private static String text(Path file) throws IOException {
    try (PDDocument pdf = Loader.loadPDF(file.toFile())) {
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setSortByPosition(false);
      return plain(stripper.getText(pdf));
    }
  }

  /** Line breaks and hard spaces are the page's affair. */
  private static String plain(String text) {
    return text.replaceAll("[\\s\u00a0]+", " ");
  }
}
