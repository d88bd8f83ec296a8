package lanemend.exchange;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * The geometries of a shapefile one after another (ESRI Shapefile Technical Description, July
 * 1998): points and polylines with or without heights and measures, which are left. The index file
 * is not needed.
 */
final class ShapeRecords implements Closeable {
  private static final int FILE_CODE = 9994;
  private static final int HEADER_BYTES = 100;

  /** A line of a million vertices; more is a broken length. */
  private static final int LONGEST_RECORD = 32 << 20;

  /** A record; shape null when it has none. */
  record Geometry(Shape shape, String fault) {}

  private final InputStream in;

  /**
   * Opens the file.
   *
   * @throws IOException with a sentence when it is no such file
   */
  ShapeRecords(Path file) throws IOException {
    in = new BufferedInputStream(Files.newInputStream(file));
    byte[] head = in.readNBytes(HEADER_BYTES);
    if (head.length < HEADER_BYTES || ByteBuffer.wrap(head).getInt(0) != FILE_CODE) {
      in.close();
      throw new IOException("it does not begin as a shapefile does");
    }
  }

  /**
   * The next record's geometry.
   *
   * @return null at the end of the file
   * @throws IOException with a sentence when nothing after this can be read
   */
  Geometry next() throws IOException {
    byte[] head = in.readNBytes(8);
    if (head.length == 0) {
      return null;
    }
    long length = head.length < 8 ? -1 : 2L * ByteBuffer.wrap(head).getInt(4);
    if (length < 4 || length > LONGEST_RECORD) {
      throw new IOException("a record's length is broken");
    }
    byte[] content = in.readNBytes((int) length);
    if (content.length < length) {
      throw new EOFException("it ends in the middle of a record");
    }
    return geometry(ByteBuffer.wrap(content).order(ByteOrder.LITTLE_ENDIAN));
  }

  private static Geometry geometry(ByteBuffer content) {
    int type = content.getInt(0);
    return switch (type) {
      case 0 -> new Geometry(null, "");
      case 1, 11, 21 -> point(content, 4);
      case 3, 13, 23 -> polyline(content);
      case 5, 15, 25 -> new Geometry(new Shape("Polygon", List.of()), "");
      case 8, 18, 28 -> multiPoint(content);
      default -> new Geometry(null, "a point or a line; the shape's type is " + type);
    };
  }

  private static Geometry point(ByteBuffer content, int at) {
    if (content.capacity() < at + 16) {
      return broken();
    }
    double[] xy = {content.getDouble(at), content.getDouble(at + 8)};
    return new Geometry(new Shape("Point", List.<double[][]>of(new double[][] {xy})), "");
  }

  /** Of several points none is the place. */
  private static Geometry multiPoint(ByteBuffer content) {
    boolean one = content.capacity() >= 56 && content.getInt(36) == 1;
    return one ? point(content, 40) : new Geometry(new Shape("MultiPoint", List.of()), "");
  }

  private static Geometry polyline(ByteBuffer content) {
    if (content.capacity() < 44) {
      return broken();
    }
    int parts = content.getInt(36);
    int points = content.getInt(40);
    long needed = 44 + 4L * parts + 16L * points;
    if (parts < 0 || points < 0 || needed > content.capacity()) {
      return broken();
    }
    List<double[][]> lines = new ArrayList<>();
    for (int p = 0; p < parts; p++) {
      int from = content.getInt(44 + 4 * p);
      int to = p + 1 < parts ? content.getInt(44 + 4 * (p + 1)) : points;
      if (from < 0 || to < from || to > points) {
        return broken();
      }
      double[][] line = new double[to - from][];
      for (int i = from; i < to; i++) {
        int at = 44 + 4 * parts + 16 * i;
        line[i - from] = new double[] {content.getDouble(at), content.getDouble(at + 8)};
      }
      lines.add(line);
    }
    return new Geometry(new Shape(lines.size() == 1 ? "LineString" : "MultiLineString", lines), "");
  }

  private static Geometry broken() {
    return new Geometry(null, "a geometry whose counts fit its length");
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
