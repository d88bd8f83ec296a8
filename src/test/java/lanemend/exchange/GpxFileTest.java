package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import lanemend.inventory.DefectKind;
import lanemend.inventory.FindingKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** GPX as its schema has it (GPX 1.1, topografix.com/GPX/1/1), and as receivers break it. */
class GpxFileTest {
  private static final String HEAD =
      """
      <?xml version="1.0" encoding="UTF-8"?>
      <gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
      """;

  @TempDir Path folder;

  private GpxFile read(String body) {
    return GpxFile.read(SmallCounty.write(folder, "day.gpx", HEAD + body));
  }

  @Test
  void fixesOfEveryTrackComeInOrderOfTimeAndWaypointsWithTheirNotes() {
    GpxFile gpx =
        read(
            """
            <metadata><time>2026-05-01T00:00:00Z</time><name>day</name></metadata>
            <wpt lat="44.0" lon="-93.05"><ele>200</ele><time>2026-04-30T14:05:00Z</time>
              <name>pothole &amp; more</name><desc>second</desc>
              <extensions><x xmlns="urn:x"><name>not this</name></x></extensions></wpt>
            <trk><name>afternoon</name><trkseg>
              <trkpt lat="44.2" lon="-93.2"><time>2026-04-30T15:00:00+00:00</time></trkpt>
            </trkseg></trk>
            <trk><trkseg>
              <trkpt lon="-93.1" lat="44.1"><time>2026-04-30T09:00:00.500-05:00</time></trkpt>
            </trkseg></trk>
            </gpx>
            """);
    assertEquals(
        List.of(Instant.parse("2026-04-30T14:00:00.500Z"), Instant.parse("2026-04-30T15:00:00Z")),
        gpx.fixes().rows().stream().map(GpxPoint::at).toList());
    assertEquals(-93.1, gpx.fixes().rows().get(0).longitude());
    GpxPoint w = gpx.waypoints().rows().get(0);
    assertEquals("pothole & more", w.name());
    assertEquals("second", w.text());
    assertEquals(4, w.origin().line());
  }

  @Test
  void aBadPointCostsItselfOnly() {
    GpxFile gpx =
        read(
            """
            <trk><trkseg>
            <trkpt lat="44.0" lon="-93.0"/>
            <trkpt lat="94.0" lon="-93.0"/>
            <trkpt lat="44.0" lon="west"/>
            <trkpt lat="44.0"/>
            <trkpt lat="44.0" lon="-93.0"><time>noon</time></trkpt>
            <trkpt lat="44.0" lon="-93.1"/>
            </trkseg></trk></gpx>
            """);
    assertEquals(2, gpx.fixes().rows().size());
    assertEquals(
        List.of("lat", "lon", "lon", "time"),
        gpx.fixes().problems().stream().map(RowProblem::field).toList());
    assertEquals(5, gpx.fixes().problems().get(0).line());
  }

  @Test
  void aFileThatBreaksOffGivesWhatStandsBeforeTheBreak() {
    GpxFile gpx =
        read("<trk><trkseg>\n<trkpt lat=\"44.0\" lon=\"-93.0\"/>\n<trkpt lat=\"44.0\" lon=\"-9");
    assertEquals(1, gpx.fixes().rows().size());
    assertEquals(1, gpx.fixes().problems().size());
    assertTrue(gpx.fixes().problems().get(0).text().contains("an end in the middle"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "<kml/>|gpx as the first element",
        "{}|a GPX file",
        "''|a GPX file",
        "<!DOCTYPE gpx [<!ENTITY a SYSTEM \"file:///etc/hostname\">]><kml>&a;</kml>|gpx as the first"
      })
  void whatIsNoGpxIsRefusedWhole(String text, String said) {
    Path file = SmallCounty.write(folder, "other.gpx", text);
    String message = assertThrows(ExchangeException.class, () -> GpxFile.read(file)).getMessage();
    assertTrue(message.contains(said), message);
  }

  @Test
  void nothingOutsideTheFileIsReadAndNothingGrows() {
    // An entity that would be the machine's own file, and one that would grow to 10^9 letters
    String doctype =
        """
        <!DOCTYPE gpx [<!ENTITY host SYSTEM "file:///etc/passwd"><!ENTITY a "aaaaaaaaaa">
        <!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]>
        """;
    Path file =
        SmallCounty.write(
            folder,
            "evil.gpx",
            doctype
                + "<gpx><wpt lat=\"44\" lon=\"-93\"><name>x&host;&c;</name></wpt><wpt lat=\"45\""
                + " lon=\"-93\"/></gpx>");
    GpxFile gpx = GpxFile.read(file);
    gpx.waypoints().rows().forEach(w -> assertTrue(w.name().length() <= 1, w.name()));
  }

  private PatrolNotes notes(UnitSystem units, String... names) {
    StringBuilder body = new StringBuilder();
    for (String name : names) {
      body.append("<wpt lat=\"44.0\" lon=\"-93.0\"><time>2026-04-30T14:05:00Z</time><name>")
          .append(name)
          .append("</name></wpt>\n");
    }
    return new PatrolNotes(
        read(body + "</gpx>").waypoints(), units, "Patrol 1", ZoneOffset.UTC, Optional.empty());
  }

  @Test
  void aNoteIsADefectInTheAgencysUnitsOrItsOwn() {
    Read<RawDefect> read =
        notes(
                UnitSystem.US_CUSTOMARY,
                "pothole high 3x2x4 R1 by the gate",
                "Alligator Cracking medium 60 x 8.5 ft",
                "rutting low 18x2.4x50 m L1, wheel path")
            .defects();
    assertEquals(List.of(), read.problems());
    RawDefect hole = read.rows().get(0);
    assertEquals(DefectKind.POTHOLE, hole.kind());
    assertEquals(Severity.HIGH, hole.severity());
    assertEquals(OptionalDouble.of(3 * Conversion.M_PER_FT), hole.lengthM());
    assertEquals(4 * Conversion.M_PER_IN, hole.depthM(), 1e-12);
    assertEquals("R1", hole.lane().code());
    assertEquals("by the gate", hole.note());
    assertEquals("Patrol 1", hole.foundBy());
    assertEquals(LocalDate.of(2026, 4, 30), hole.foundOn());
    assertEquals(Instant.parse("2026-04-30T14:05:00Z"), hole.place().seenAt());
    assertEquals(8.5 * Conversion.M_PER_FT, read.rows().get(1).widthM(), 1e-12);
    assertEquals(null, read.rows().get(1).lane());
    assertEquals(0.05, read.rows().get(2).depthM(), 1e-12);
    assertEquals("wheel path", read.rows().get(2).note());
  }

  @Test
  void aNoteIsAFindingWithItsSideAsDriven() {
    Read<RawFinding> read =
        notes(UnitSystem.METRIC, "fence right wire cut", "culvert", "pothole low 1x1x40")
            .findings();
    assertEquals(
        List.of(FindingKind.FENCE, FindingKind.CULVERT),
        read.rows().stream().map(RawFinding::kind).toList());
    assertEquals(Optional.of(Side.RIGHT), read.rows().get(0).side());
    assertTrue(read.rows().get(0).sideAsDriven());
    assertEquals("wire cut", read.rows().get(0).note());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Home|a note that begins with a kind: pothole,",
        "potholes high 3x2x4 R1|a note that begins with a kind",
        "pothole|severity",
        "pothole huge 3x2x4|severity: found 'huge'",
        "pothole high|length_ft",
        "pothole high 3x2|a depth above 0 for pothole",
        "pothole high 3x0x2|a width above 0",
        "rutting high 99999x2x2|length_ft"
      })
  void aNoteThatSaysTooLittleIsRefusedWithWhatIsWanted(String note, String said) {
    Read<RawDefect> read = notes(UnitSystem.US_CUSTOMARY, note).defects();
    assertEquals(1, read.problems().size());
    assertTrue(read.problems().get(0).text().contains(said), read.problems().get(0).text());
  }
}
