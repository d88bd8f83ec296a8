package lanemend.web.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.http.HttpRequest;
import javax.imageio.ImageIO;
import lanemend.county.County;
import lanemend.network.Candidate;
import lanemend.network.RoadPoint;
import lanemend.network.Route;
import lanemend.network.SnapHint;

/** What a phone at the roadside of the invented county has to tell. */
final class Roadside {
  private Roadside() {}

  /** A place beside one road and far from any other: longitude, latitude, and the road's place. */
  record Spot(double lon, double lat, RoadPoint on) {}

  /**
   * @param roads how many places within 30 m there must be
   */
  static Spot beside(SmallDesk desk, int roads) {
    County county = County.read(desk.store());
    for (Route route : county.network().routes().values()) {
      for (double along = 500; along < route.lengthM() - 500; along += 37) {
        RoadPoint p = county.locator().pointAt(route.id(), along, 4).orElse(null);
        if (p == null) {
          continue;
        }
        var near = county.locator().candidates(p.x(), p.y(), 30, SnapHint.NONE);
        var wider = county.locator().candidates(p.x(), p.y(), roads == 1 ? 200 : 30, SnapHint.NONE);
        boolean clear =
            near.stream().map(Candidate::place).map(RoadPoint::routeId).distinct().count()
                == near.size();
        if (near.size() == roads && clear && wider.size() == roads) {
          double[] at = county.crs().unproject(p.x(), p.y());
          RoadPoint on = county.locator().pointAt(route.id(), along, 0).orElseThrow();
          return new Spot(at[0], at[1], on);
        }
      }
    }
    throw new AssertionError("no place beside " + roads + " roads");
  }

  /** A defect there as a phone sends it. */
  static ObjectNode entry(Spot spot, String route) {
    ObjectNode e = Api.JSON.createObjectNode();
    e.put("made", "2026-05-04T15:10:00Z").put("units", "us_customary").put("route", route);
    e.put("lon", spot.lon()).put("lat", spot.lat()).put("accuracyM", 6);
    e.put("lane", "R1").put("kind", "pothole").put("severity", "high");
    e.put("length", 3).put("width", 2).put("depth", 2.5);
    e.put("foundOn", "2026-05-04").put("foundBy", "Pat").put("note", "by the culvert");
    return e;
  }

  static ObjectNode with(ObjectNode entry, String... photos) {
    ArrayNode list = entry.putArray("photos");
    for (String p : photos) {
      list.add(p);
    }
    return entry;
  }

  /** A JPEG of one colour with a darker patch. */
  static byte[] jpeg(int width, int height, Color colour) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(colour);
    g.fillRect(0, 0, width, height);
    g.setColor(colour.darker());
    g.fillOval(width / 4, height / 4, width / 2, height / 2);
    g.dispose();
    return written(image, "jpg");
  }

  static byte[] written(BufferedImage image, String format) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      ImageIO.write(image, format, out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static SmallDesk.Answer send(SmallDesk desk, byte[] photo, String type) {
    return desk.send(
        HttpRequest.newBuilder(desk.at("/api/photos"))
            .header("Content-Type", type)
            .POST(HttpRequest.BodyPublishers.ofByteArray(photo)));
  }

  static String hash(SmallDesk desk, Color colour) {
    return send(desk, jpeg(640, 480, colour), "image/jpeg").json().path("hash").asText();
  }
}
