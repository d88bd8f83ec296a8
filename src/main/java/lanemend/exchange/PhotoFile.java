package lanemend.exchange;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;

/**
 * A photo that was sent, told by its content and not by its name, and without what a camera wrote
 * into it beside the picture: place, time, maker and thumbnail are gone, only the picture and which
 * way up it is stay.
 *
 * @param mediaType {@code image/jpeg} or {@code image/png}
 * @param widthPx as stored, before it is turned the right way up
 * @param bytes not copied; nobody changes them
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record PhotoFile(String mediaType, int widthPx, int heightPx, byte[] bytes) {
  /** More than a picture of 4,000 by 3,000 pixels needs; a phone's page sends a tenth of it. */
  public static final int MOST_BYTES = 8_000_000;

  /** A picture that is small as a file may fill the memory once it is unpacked. */
  private static final long MOST_PIXELS = 50_000_000;

  /** The picture is looked through, not kept: every so many pixels will do. */
  private static final int LOOKED_AT = 16;

  /** Why a photo was not taken: one sentence. */
  public static final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    Refused(String why) {
      super(why);
    }
  }

  /**
   * Reads a photo.
   *
   * @throws Refused when it is too large, no JPEG or PNG, broken off or damaged
   */
  public static PhotoFile read(byte[] sent) throws Refused {
    if (sent.length > MOST_BYTES) {
      throw new Refused("a photo has " + sent.length + " bytes, expected at most " + MOST_BYTES);
    }
    if (PlainJpeg.isJpeg(sent)) {
      return checked("image/jpeg", "jpeg", PlainJpeg.of(sent));
    }
    if (PlainPng.isPng(sent)) {
      return checked("image/png", "png", PlainPng.of(sent));
    }
    throw new Refused(
        sent.length == 0
            ? "a photo is empty"
            : "a photo is neither JPEG nor PNG by its content; send one of these");
  }

  private static PhotoFile checked(String mediaType, String format, byte[] plain) throws Refused {
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(format);
    ImageReader reader = readers.next();
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(plain))) {
      reader.setInput(in, true, true);
      int width = reader.getWidth(0);
      int height = reader.getHeight(0);
      if ((long) width * height > MOST_PIXELS) {
        throw new Refused(
            "a photo has " + width + " x " + height + " pixels, expected at most " + MOST_PIXELS);
      }
      ImageReadParam some = reader.getDefaultReadParam();
      some.setSourceSubsampling(LOOKED_AT, LOOKED_AT, 0, 0);
      reader.read(0, some);
      return new PhotoFile(mediaType, width, height, plain);
    } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException e) {
      throw new Refused("a photo cannot be read as " + format.toUpperCase(java.util.Locale.ROOT));
    } finally {
      reader.dispose();
    }
  }
}
