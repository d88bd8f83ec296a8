package lanemend.exchange;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;

/**
 * A JPEG without what stands in it beside the picture, after the marker segments of ITU-T T.81
 * annex B. Application segments go but for JFIF, the colour profile and Adobe's colour transform;
 * comments go, and so does whatever follows the picture's end. Exif goes too; which way up the
 * picture is (its tag 0x0112) is written anew by itself.
 */
final class PlainJpeg {
  private static final int START = 0xD8;
  private static final int END = 0xD9;
  private static final int SCAN = 0xDA;
  private static final int COMMENT = 0xFE;
  private static final int ORIENTATION = 0x0112;
  private static final byte[] EXIF = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);
  private static final byte[] PROFILE = "ICC_PROFILE\0".getBytes(StandardCharsets.US_ASCII);

  private final byte[] in;
  private final ByteArrayOutputStream rest = new ByteArrayOutputStream();
  private int at = 2;
  private int orientation = 1;

  private PlainJpeg(byte[] in) {
    this.in = in;
  }

  static boolean isJpeg(byte[] b) {
    return b.length > 3 && u8(b, 0) == 0xFF && u8(b, 1) == START && u8(b, 2) == 0xFF;
  }

  static byte[] of(byte[] jpeg) throws PhotoFile.Refused {
    return new PlainJpeg(jpeg).plain();
  }

  private byte[] plain() throws PhotoFile.Refused {
    int marker = 0;
    while (marker != END) {
      marker = marker();
      if (marker == END) {
        write(0xFF, END);
      } else if (marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7)) {
        write(0xFF, marker);
      } else {
        segment(marker);
      }
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream(rest.size() + 64);
    out.write(0xFF);
    out.write(START);
    if (orientation > 1) {
      out.writeBytes(uprightness());
    }
    out.writeBytes(rest.toByteArray());
    return out.toByteArray();
  }

  /** The next marker; 0xFF may stand before it any number of times. */
  private int marker() throws PhotoFile.Refused {
    if (byteAt(at) != 0xFF) {
      throw new PhotoFile.Refused("a photo is no sound JPEG: no marker at byte " + at);
    }
    while (byteAt(at) == 0xFF) {
      at++;
    }
    return byteAt(at++);
  }

  private int byteAt(int i) throws PhotoFile.Refused {
    if (i >= in.length) {
      throw new PhotoFile.Refused("a photo breaks off before its end; send it again");
    }
    return u8(in, i);
  }

  private void segment(int marker) throws PhotoFile.Refused {
    int length = byteAt(at) << 8 | byteAt(at + 1);
    int end = at + length;
    if (length < 2) {
      throw new PhotoFile.Refused("a photo is no sound JPEG: a part of no length at byte " + at);
    }
    byteAt(end - 1);
    if (marker == 0xE1 && startsWith(at + 2, EXIF)) {
      orientation = orientation(at + 2 + EXIF.length, end);
    }
    if (kept(marker)) {
      write(0xFF, marker);
      rest.write(in, at, length);
    }
    at = end;
    if (marker == SCAN) {
      int from = at;
      while (byteAt(at) != 0xFF || isInScan(byteAt(at + 1))) {
        at++;
      }
      rest.write(in, from, at - from);
    }
  }

  /** A zero after 0xFF is data, and so are restart markers. */
  private static boolean isInScan(int next) {
    return next == 0 || (next >= 0xD0 && next <= 0xD7);
  }

  private boolean kept(int marker) {
    boolean application = marker >= 0xE0 && marker <= 0xEF;
    return (!application && marker != COMMENT)
        || marker == 0xE0
        || marker == 0xEE
        || (marker == 0xE2 && startsWith(at + 2, PROFILE));
  }

  private boolean startsWith(int from, byte[] text) {
    for (int i = 0; i < text.length; i++) {
      if (from + i >= in.length || in[from + i] != text[i]) {
        return false;
      }
    }
    return true;
  }

  /** Tag 0x0112 of the first directory of Exif's TIFF, or 1 where there is none to be read. */
  private int orientation(int tiff, int end) {
    if (tiff + 8 > end) {
      return 1;
    }
    boolean little = in[tiff] == 'I';
    long first = u32(tiff + 4, little);
    if (first + 2 > end - tiff) {
      return 1;
    }
    int directory = tiff + (int) first;
    int entries = u16(directory, little);
    for (int i = 0; i < entries; i++) {
      int entry = directory + 2 + 12 * i;
      if (entry + 12 > end) {
        return 1;
      }
      if (u16(entry, little) == ORIENTATION) {
        int value = u16(entry + 8, little);
        return value >= 1 && value <= 8 ? value : 1;
      }
    }
    return 1;
  }

  /** An Exif segment with one entry. */
  private byte[] uprightness() {
    byte[] segment = {
      (byte) 0xFF,
      (byte) 0xE1,
      0,
      34,
      'E',
      'x',
      'i',
      'f',
      0,
      0, //
      'M',
      'M',
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1, //
      0x01,
      0x12,
      0,
      3,
      0,
      0,
      0,
      1,
      0,
      (byte) orientation,
      0,
      0, //
      0,
      0,
      0,
      0
    };
    return segment;
  }

  private void write(int a, int b) {
    rest.write(a);
    rest.write(b);
  }

  private int u16(int i, boolean little) {
    return little ? u8(in, i) | u8(in, i + 1) << 8 : u8(in, i) << 8 | u8(in, i + 1);
  }

  private long u32(int i, boolean little) {
    long a = u16(i, little);
    long b = u16(i + 2, little);
    return little ? a | b << 16 : a << 16 | b;
  }

  private static int u8(byte[] b, int i) {
    return b[i] & 0xFF;
  }
}
