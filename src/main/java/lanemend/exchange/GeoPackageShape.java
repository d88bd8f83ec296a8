package lanemend.exchange;

import org.locationtech.jts.io.ByteOrderValues;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKBReader;

/**
 * Geometry of a GeoPackage (OGC 12-128r19, 2.1.3): a header, then well-known binary. Heights and
 * measures are left.
 *
 * @param shape null when the geometry is null or faulty
 * @param fault what is wrong, or empty
 */
record GeoPackageShape(Shape shape, String fault) {
  private static final int HEADER = 8;
  private static final int[] ENVELOPE_BYTES = {0, 32, 48, 48, 64};
  private static final int LONGEST_BLOB = 64 << 20;
  private static final GeoPackageShape FAULTY =
      new GeoPackageShape(null, "geometry as a GeoPackage writes it");

  static GeoPackageShape read(byte[] blob) {
    if (blob == null) {
      return new GeoPackageShape(null, "");
    }
    if (blob.length < HEADER || blob.length > LONGEST_BLOB || blob[0] != 'G' || blob[1] != 'P') {
      return FAULTY;
    }
    int flags = blob[3];
    int envelope = (flags >> 1) & 7;
    boolean extended = (flags & 0x20) != 0;
    if (extended || envelope >= ENVELOPE_BYTES.length) {
      return FAULTY;
    }
    int start = HEADER + ENVELOPE_BYTES[envelope];
    if (blob.length < start + 9) {
      return FAULTY;
    }
    int type = typeAt(blob, start);
    if (type != 2 && type != 5) {
      return new GeoPackageShape(new Shape(nameOf(type), java.util.List.of()), "");
    }
    try {
      byte[] wkb = java.util.Arrays.copyOfRange(blob, start, blob.length);
      return new GeoPackageShape(RoadReader.ofGeometry(new WKBReader().read(wkb)), "");
    } catch (ParseException
        | IllegalArgumentException
        | ClassCastException
        | StackOverflowError e) {
      // The last: collections nested thousands deep, which no road is and the reader follows.
      return FAULTY;
    }
  }

  /** The geometry type without its Z, M or ZM thousands. */
  private static int typeAt(byte[] blob, int at) {
    int order = blob[at] == 1 ? ByteOrderValues.LITTLE_ENDIAN : ByteOrderValues.BIG_ENDIAN;
    byte[] four = java.util.Arrays.copyOfRange(blob, at + 1, at + 5);
    int type = ByteOrderValues.getInt(four, order);
    return type >= 0 && type < 4_000 ? type % 1_000 : -1;
  }

  private static String nameOf(int type) {
    return switch (type) {
      case 1 -> "Point";
      case 3 -> "Polygon";
      case 4 -> "MultiPoint";
      case 6 -> "MultiPolygon";
      case 7 -> "GeometryCollection";
      default -> "type " + type;
    };
  }
}
