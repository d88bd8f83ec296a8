package lanemend.exchange;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Set;

/**
 * A PNG with the chunks its picture needs and no others (ISO/IEC 15948, clause 11): text, time and
 * Exif go, and so does whatever follows its end.
 */
final class PlainPng {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10};
  private static final String END = "IEND";
  private static final Set<String> KEPT =
      Set.of("IHDR", "PLTE", "IDAT", END, "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT");

  /** Length, type and check sum of a chunk. */
  private static final int FRAME = 12;

  private PlainPng() {}

  static boolean isPng(byte[] b) {
    return b.length > SIGNATURE.length
        && Arrays.equals(b, 0, SIGNATURE.length, SIGNATURE, 0, SIGNATURE.length);
  }

  static byte[] of(byte[] png) throws PhotoFile.Refused {
    ByteArrayOutputStream out = new ByteArrayOutputStream(png.length);
    out.writeBytes(SIGNATURE);
    int at = SIGNATURE.length;
    String type = "";
    while (!type.equals(END)) {
      long length =
          at + FRAME <= png.length ? Integer.toUnsignedLong(ByteBuffer.wrap(png).getInt(at)) : 0;
      if (at + FRAME + length > png.length) {
        throw new PhotoFile.Refused("a photo breaks off before its end; send it again");
      }
      type = new String(png, at + 4, 4, StandardCharsets.US_ASCII);
      int whole = FRAME + (int) length;
      if (KEPT.contains(type)) {
        out.write(png, at, whole);
      }
      at += whole;
    }
    return out.toByteArray();
  }
}
