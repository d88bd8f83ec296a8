package lanemend.exchange;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * A patrol's GPX file (GPS Exchange Format, topografix.com, versions 1.0 and 1.1): the fixes of its
 * tracks in order of time, and its waypoints. A point that cannot be read costs itself only; where
 * the file breaks off (a receiver that lost its power), what stands before is taken and the break
 * is one refused row.
 *
 * @param fixes of every track and segment
 * @param waypoints what was marked on the way
 */
public record GpxFile(Read<GpxPoint> fixes, Read<GpxPoint> waypoints) {
  private static final int LONGEST_TEXT = 4_000;
  private static final Set<String> TEXTS = Set.of("time", "name", "cmt", "desc");

  /**
   * Reads the file.
   *
   * @throws ExchangeException when it cannot be opened or is not GPX
   */
  public static GpxFile read(Path file) {
    return new Parser(file).read();
  }

  private static final class Parser {
    private final Path file;
    private final String name;
    private final List<GpxPoint> fixes = new ArrayList<>();
    private final List<RowProblem> badFixes = new ArrayList<>();
    private final List<GpxPoint> waypoints = new ArrayList<>();
    private final List<RowProblem> badWaypoints = new ArrayList<>();

    Parser(Path file) {
      this.file = file;
      this.name = RowSource.nameOf(file);
    }

    GpxFile read() {
      XMLInputFactory factory = XMLInputFactory.newFactory();
      // A file from anywhere must not make us fetch or expand anything.
      factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
      factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
      factory.setProperty(XMLInputFactory.IS_COALESCING, true);
      try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
        XMLStreamReader xml = factory.createXMLStreamReader(in);
        root(xml);
        try {
          content(xml);
        } catch (XMLStreamException e) {
          badFixes.add(
              new RowProblem(
                  name,
                  line(xml),
                  "",
                  "an end in the middle",
                  "GPX to its end; what stands before is taken"));
        }
      } catch (IOException e) {
        throw whole(0, String.valueOf(e.getMessage()), "a GPX file that can be opened");
      } catch (XMLStreamException e) {
        throw whole(1, "no XML", "a GPX file");
      }
      return new GpxFile(inTime(), of(waypoints, badWaypoints));
    }

    private void root(XMLStreamReader xml) throws XMLStreamException {
      while (xml.hasNext()) {
        if (xml.next() == XMLStreamConstants.START_ELEMENT) {
          if (!xml.getLocalName().equals("gpx")) {
            throw whole(line(xml), xml.getLocalName(), "gpx as the first element");
          }
          return;
        }
      }
      throw whole(1, "nothing", "a GPX file");
    }

    private void content(XMLStreamReader xml) throws XMLStreamException {
      while (xml.hasNext()) {
        if (xml.next() == XMLStreamConstants.START_ELEMENT) {
          if (xml.getLocalName().equals("trkpt")) {
            point(xml, fixes, badFixes);
          } else if (xml.getLocalName().equals("wpt")) {
            point(xml, waypoints, badWaypoints);
          }
        }
      }
    }

    private void point(XMLStreamReader xml, List<GpxPoint> good, List<RowProblem> bad)
        throws XMLStreamException {
      RowOrigin origin = new RowOrigin(name, line(xml), 0);
      String lat = attribute(xml, "lat");
      String lon = attribute(xml, "lon");
      Map<String, String> texts = new HashMap<>();
      int depth = 1;
      while (depth > 0) {
        int event = xml.next();
        if (event == XMLStreamConstants.END_ELEMENT) {
          depth--;
        } else if (event == XMLStreamConstants.START_ELEMENT) {
          if (depth == 1 && TEXTS.contains(xml.getLocalName())) {
            texts.put(xml.getLocalName(), text(xml));
          } else {
            depth++;
          }
        }
      }
      add(origin, lon, lat, texts, good, bad);
    }

    private static void add(
        RowOrigin origin,
        String lon,
        String lat,
        Map<String, String> texts,
        List<GpxPoint> good,
        List<RowProblem> bad) {
      double x = Cells.parse(lon);
      double y = Cells.parse(lat);
      if (!(Math.abs(x) <= 180)) {
        bad.add(origin.problem("lon", lon, "a longitude from -180 to 180"));
        return;
      }
      if (!(Math.abs(y) <= 90)) {
        bad.add(origin.problem("lat", lat, "a latitude from -90 to 90"));
        return;
      }
      Instant at = null;
      String time = texts.getOrDefault("time", "");
      if (!time.isEmpty()) {
        try {
          at = OffsetDateTime.parse(time).toInstant();
        } catch (DateTimeException e) {
          bad.add(origin.problem("time", time, "a time such as 2026-04-30T14:05:00Z"));
          return;
        }
      }
      String comment = texts.getOrDefault("cmt", "");
      good.add(
          new GpxPoint(
              origin,
              x,
              y,
              at,
              texts.getOrDefault("name", ""),
              comment.isEmpty() ? texts.getOrDefault("desc", "") : comment));
    }

    private static String attribute(XMLStreamReader xml, String wanted) {
      for (int i = 0; i < xml.getAttributeCount(); i++) {
        if (xml.getAttributeLocalName(i).equals(wanted)) {
          return xml.getAttributeValue(i).strip();
        }
      }
      return "";
    }

    /** The element's text; the reader then stands at its end. */
    private static String text(XMLStreamReader xml) throws XMLStreamException {
      StringBuilder text = new StringBuilder();
      int depth = 1;
      while (depth > 0) {
        int event = xml.next();
        if (event == XMLStreamConstants.CHARACTERS && text.length() < LONGEST_TEXT) {
          text.append(xml.getText());
        } else if (event == XMLStreamConstants.START_ELEMENT) {
          depth++;
        } else if (event == XMLStreamConstants.END_ELEMENT) {
          depth--;
        }
      }
      return text.substring(0, Math.min(text.length(), LONGEST_TEXT)).strip();
    }

    /** In order of time where every fix has one: a file may hold the afternoon's track first. */
    private Read<GpxPoint> inTime() {
      if (fixes.stream().allMatch(f -> f.at() != null)) {
        fixes.sort(Comparator.comparing(GpxPoint::at));
      }
      return of(fixes, badFixes);
    }

    private static Read<GpxPoint> of(List<GpxPoint> good, List<RowProblem> bad) {
      return new Read<>(good, bad, (long) good.size() + bad.size(), List.of(), List.of());
    }

    private static long line(XMLStreamReader xml) {
      return Math.max(1, xml.getLocation().getLineNumber());
    }

    private ExchangeException whole(long line, String found, String expected) {
      return new ExchangeException(new RowProblem(name, line, "", found, expected));
    }
  }
}
