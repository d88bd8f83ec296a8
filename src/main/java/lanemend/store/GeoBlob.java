package lanemend.store;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import lanemend.network.CenterlinePart;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.impl.PackedCoordinateSequenceFactory;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBReader;

/**
 * Geometry in GeoPackage binary (OGC 12-128r19 clause 2.1.3): a header with the reference system
 * and the bounds, then ISO well-known binary.
 *
 * <p>Written here and not by the JTS WKBWriter, which marks M by a high bit (the older 'extended'
 * form) where Req 20 asks for the ISO type numbers 2002 and 2005. Reading, where any program's
 * geometry may turn up, is JTS's.
 */
final class GeoBlob {
  private static final int HEADER = 8;
  private static final int BOX = 32;
  private static final int POINT = 1;
  private static final int LINE_M = 2002;
  private static final int LINES_M = 2005;
  private static final byte LITTLE_ENDIAN = 1;
  private static final int EMPTY = 0x10;

  private static final GeometryFactory PACKED =
      new GeometryFactory(PackedCoordinateSequenceFactory.DOUBLE_FACTORY);

  private GeoBlob() {}

  static byte[] point(int srsId, double x, double y) {
    byte[] blob = new byte[HEADER + 21];
    header(blob, srsId, 0).put(LITTLE_ENDIAN).putInt(POINT).putDouble(x).putDouble(y);
    return blob;
  }

  static byte[] line(int srsId, CenterlinePart line) {
    byte[] blob = new byte[HEADER + BOX + bytes(line)];
    ByteBuffer out = header(blob, srsId, 1);
    putBox(out, List.of(line));
    putLine(out, line);
    return blob;
  }

  static byte[] lines(int srsId, List<CenterlinePart> parts) {
    byte[] blob = new byte[HEADER + BOX + 9 + parts.stream().mapToInt(GeoBlob::bytes).sum()];
    ByteBuffer out = header(blob, srsId, 1);
    putBox(out, parts);
    out.put(LITTLE_ENDIAN).putInt(LINES_M).putInt(parts.size());
    parts.forEach(p -> putLine(out, p));
    return blob;
  }

  private static int bytes(CenterlinePart line) {
    return 9 + 24 * line.size();
  }

  private static ByteBuffer header(byte[] blob, int srsId, int boxKind) {
    ByteBuffer out = ByteBuffer.wrap(blob).order(ByteOrder.LITTLE_ENDIAN);
    out.put((byte) 'G').put((byte) 'P').put((byte) 0).put((byte) (boxKind << 1 | 1)).putInt(srsId);
    return out;
  }

  private static void putBox(ByteBuffer out, List<CenterlinePart> parts) {
    Envelope box = new Envelope();
    for (CenterlinePart p : parts) {
      for (int i = 0; i < p.size(); i++) {
        box.expandToInclude(p.x(i), p.y(i));
      }
    }
    out.putDouble(box.getMinX()).putDouble(box.getMaxX());
    out.putDouble(box.getMinY()).putDouble(box.getMaxY());
  }

  private static void putLine(ByteBuffer out, CenterlinePart line) {
    out.put(LITTLE_ENDIAN).putInt(LINE_M).putInt(line.size());
    for (int i = 0; i < line.size(); i++) {
      out.putDouble(line.x(i)).putDouble(line.y(i)).putDouble(line.along(i));
    }
  }

  /** The reference system a geometry says it is in. */
  static int srsId(byte[] blob) throws ParseException {
    return open(blob).getInt(4);
  }

  /**
   * Bounds of a geometry, empty for an empty one.
   *
   * @throws ParseException when the bytes are not GeoPackage binary
   */
  static Envelope bounds(byte[] blob) throws ParseException {
    ByteBuffer in = open(blob);
    int flags = blob[3];
    if ((flags & EMPTY) != 0) {
      return new Envelope();
    }
    if (boxBytes(flags) >= BOX) {
      return new Envelope(in.getDouble(8), in.getDouble(16), in.getDouble(24), in.getDouble(32));
    }
    return geometry(blob).getEnvelopeInternal();
  }

  /**
   * The geometry itself, with its M values.
   *
   * @throws ParseException when the bytes are not GeoPackage binary
   */
  static Geometry geometry(byte[] blob) throws ParseException {
    open(blob);
    int start = HEADER + boxBytes(blob[3]);
    if (start >= blob.length) {
      throw new ParseException("the geometry ends inside its header");
    }
    byte[] wkb = new byte[blob.length - start];
    System.arraycopy(blob, start, wkb, 0, wkb.length);
    return new WKBReader(PACKED).read(wkb);
  }

  /**
   * Measured lines as centreline parts.
   *
   * @throws ParseException when the geometry is no line, has no M, or M does not grow
   */
  static List<CenterlinePart> parts(byte[] blob) throws ParseException {
    Geometry g = geometry(blob);
    List<CenterlinePart> parts = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (!(g.getGeometryN(i) instanceof LineString line)
          || line.getCoordinateSequence().getMeasures() != 1) {
        throw new ParseException("the geometry is not a line with measures (M)");
      }
      parts.add(part(line.getCoordinateSequence()));
    }
    return parts;
  }

  private static CenterlinePart part(CoordinateSequence s) throws ParseException {
    double[] x = new double[s.size()];
    double[] y = new double[s.size()];
    double[] along = new double[s.size()];
    for (int i = 0; i < s.size(); i++) {
      x[i] = s.getX(i);
      y[i] = s.getY(i);
      along[i] = s.getM(i);
    }
    try {
      return new CenterlinePart(x, y, along);
    } catch (IllegalArgumentException e) {
      throw new ParseException(e.getMessage());
    }
  }

  private static ByteBuffer open(byte[] blob) throws ParseException {
    if (blob.length < HEADER || blob[0] != 'G' || blob[1] != 'P' || blob[2] != 0) {
      throw new ParseException("the bytes are not GeoPackage binary");
    }
    int box = boxBytes(blob[3]);
    if (box < 0 || blob.length < HEADER + box) {
      throw new ParseException("the geometry's header is broken");
    }
    return ByteBuffer.wrap(blob)
        .order((blob[3] & 1) == 1 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
  }

  /** Length of the header's bounds by the standard's envelope code; -1 for an invalid code. */
  private static int boxBytes(int flags) {
    return switch (flags >> 1 & 7) {
      case 0 -> 0;
      case 1 -> BOX;
      case 2, 3 -> 48;
      case 4 -> 64;
      default -> -1;
    };
  }
}
