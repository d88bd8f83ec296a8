package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lanemend.county.County;
import lanemend.inventory.DefectKind;
import lanemend.inventory.FindingKind;
import lanemend.inventory.Severity;
import lanemend.measure.Unit;
import lanemend.network.Network;
import lanemend.network.Route;

/**
 * What a phone keeps to locate by itself: every route, small enough to be fetched on the way out.
 *
 * @param findings kinds of what is not asphalt
 * @param worstAccuracyM a phone less sure of its place than this is not believed
 * @param worstAccuracy the same in words
 * @param reachM as far from the phone as roads are proposed
 */
record FieldCounty(
    String name,
    String units,
    List<String> kinds,
    List<String> severities,
    List<String> findings,
    double worstAccuracyM,
    String worstAccuracy,
    double reachM,
    List<Road> roads) {

  /**
   * A phone in the open is good to 5 m and beside a building or under trees to 20 m (common
   * practice, no source); a road may be taken for the next one beyond.
   */
  private static final double WORST_ACCURACY_M = 25;

  /** As far from a point as a road is taken for its own; the desk places points by the same. */
  private static final double REACH_M = 30;

  /** Millionths of a degree, 0.11 m. */
  private static final double DEGREE_STEPS = 1e6;

  /** Decimetres. */
  private static final double ALONG_STEPS = 10;

  /**
   * A route.
   *
   * @param posts {along in m, milepost before, milepost after} of each
   */
  record Road(
      String id,
      String name,
      String direction,
      double lengthM,
      boolean calibrated,
      boolean oneWay,
      List<Part> parts,
      List<double[]> posts) {}

  /**
   * An unbroken line by columns, each number the difference from the one before: millionths of a
   * degree, and decimetres along.
   */
  record Part(long[] lon, long[] lat, long[] along) {}

  private static FieldCounty of(MapIndex index) {
    County now = index.county();
    List<Road> roads = new ArrayList<>();
    for (Route route : now.network().routes().values()) {
      roads.add(
          new Road(
              route.id(),
              route.name(),
              route.direction(),
              DeskNumbers.centimetres(route.lengthM()),
              route.mileposts().calibrated(),
              route.divided(),
              index.roads().of(route.id()).stream().map(FieldCounty::part).toList(),
              route.mileposts().posts().stream()
                  .map(p -> new double[] {p.alongM(), p.backMiles(), p.aheadMiles()})
                  .toList()));
    }
    return new FieldCounty(
        now.hasAgency() ? now.agency().name() : "",
        DeskWords.code(now.units()),
        codes(DefectKind.values()),
        codes(Severity.values()),
        codes(FindingKind.values()),
        WORST_ACCURACY_M,
        now.units().show(WORST_ACCURACY_M, Unit.METER).text(),
        REACH_M,
        roads);
  }

  private static List<String> codes(Enum<?>[] values) {
    return Arrays.stream(values).map(DeskWords::code).toList();
  }

  private static Part part(RoadLines.Line line) {
    int n = line.x().length;
    long[] lon = new long[n];
    long[] lat = new long[n];
    long[] along = new long[n];
    for (int i = 0; i < n; i++) {
      lon[i] = Math.round(Mercator.lon(line.x()[i]) * DEGREE_STEPS);
      lat[i] = Math.round(Mercator.lat(line.y()[i]) * DEGREE_STEPS);
      along[i] = Math.round(line.along()[i] * ALONG_STEPS);
    }
    return new Part(steps(lon), steps(lat), steps(along));
  }

  private static long[] steps(long[] values) {
    long[] steps = new long[values.length];
    for (int i = 0; i < values.length; i++) {
      steps[i] = i == 0 ? values[0] : values[i] - values[i - 1];
    }
    return steps;
  }

  /** The answer as it was last written; made anew only when the roads or the agency changed. */
  static final class Kept {
    private Network network;
    private String agency = "";
    private byte[] json;
    private String tag;

    /** Answers, or says that what the asker has still holds. */
    void answer(Context c, MapIndex index) {
      String asked = c.header("If-None-Match");
      synchronized (this) {
        County now = index.county();
        String agencyNow =
            (now.hasAgency() ? now.agency().name() : "") + ' ' + DeskWords.code(now.units());
        if (isOther(now.network()) || !agency.equals(agencyNow)) {
          json = write(of(index));
          tag = "\"" + Integer.toHexString(Arrays.hashCode(json)) + "-" + json.length + "\"";
          network = now.network();
          agency = agencyNow;
        }
        c.header("ETag", tag).header("Cache-Control", "no-cache");
        // A compressed answer comes back with its tag marked as weak or lengthened.
        if (asked != null && asked.contains(tag.substring(1, tag.length() - 1))) {
          c.status(304);
        } else {
          c.contentType("application/json").result(json);
        }
      }
    }

    @SuppressWarnings("ReferenceEquality") // the same roads, not equal ones: comparing costs more
    private boolean isOther(Network now) {
      return network != now;
    }

    private static byte[] write(FieldCounty county) {
      try {
        return Api.JSON.writeValueAsString(county).getBytes(StandardCharsets.UTF_8);
      } catch (JsonProcessingException e) {
        throw new IllegalStateException("the roads cannot be written", e);
      }
    }
  }
}
