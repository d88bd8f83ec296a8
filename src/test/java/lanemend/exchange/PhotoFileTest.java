package lanemend.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Photos are told by their content, and only the picture is kept of them. */
class PhotoFileTest {
  private static final String PLACE = "N42 01 14 W107 26 43";

  private static byte[] picture(String format) throws IOException {
    BufferedImage image = new BufferedImage(64, 48, BufferedImage.TYPE_INT_RGB);
    Random random = new Random(5);
    for (int y = 0; y < 48; y++) {
      for (int x = 0; x < 64; x++) {
        image.setRGB(x, y, new Color(x * 3, y * 5, random.nextInt(256)).getRGB());
      }
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, format, out);
    return out.toByteArray();
  }

  private static byte[] joined(byte[]... parts) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] p : parts) {
      out.writeBytes(p);
    }
    return out.toByteArray();
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  /** A marker segment of ITU-T T.81: marker, length with itself, content. */
  private static byte[] segment(int marker, byte[] content) {
    int length = content.length + 2;
    return joined(
        new byte[] {(byte) 0xFF, (byte) marker, (byte) (length >> 8), (byte) length}, content);
  }

  /** Exif 2.3 with orientation and a place beside it, in either byte order. */
  private static byte[] exif(int orientation, boolean little) {
    ByteBuffer tiff = ByteBuffer.allocate(26);
    tiff.order(little ? java.nio.ByteOrder.LITTLE_ENDIAN : java.nio.ByteOrder.BIG_ENDIAN);
    tiff.put(ascii(little ? "II" : "MM")).putShort((short) 42).putInt(8).putShort((short) 1);
    tiff.putShort((short) 0x0112).putShort((short) 3).putInt(1).putShort((short) orientation);
    tiff.putShort((short) 0).putInt(0);
    return segment(0xE1, joined(ascii("Exif\0\0"), tiff.array(), ascii(PLACE)));
  }

  private static byte[] withBehindStart(byte[] jpeg, byte[]... segments) {
    return joined(
        Arrays.copyOf(jpeg, 2), joined(segments), Arrays.copyOfRange(jpeg, 2, jpeg.length));
  }

  private static int[] pixels(byte[] file) throws IOException {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(file));
    return image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
  }

  private static boolean holds(byte[] file, String text) {
    return new String(file, StandardCharsets.ISO_8859_1).contains(text);
  }

  @Test
  void ofAJpegThePictureStaysAndThePlaceItWasTakenAtGoes() throws Exception {
    byte[] plain = picture("jpg");
    byte[] sent =
        joined(
            withBehindStart(
                plain,
                exif(1, false),
                segment(0xFE, ascii("taken by " + PLACE)),
                segment(0xE1, ascii("http://ns.adobe.com/xap/1.0/\0<x>" + PLACE + "</x>")),
                segment(0xED, ascii("Photoshop 3.0\0" + PLACE))),
            ascii("trailer " + PLACE));
    assertTrue(holds(sent, PLACE));
    PhotoFile kept = PhotoFile.read(sent);
    assertFalse(holds(kept.bytes(), "N42"));
    assertFalse(holds(kept.bytes(), "Exif"));
    assertEquals("image/jpeg", kept.mediaType());
    assertEquals(64, kept.widthPx());
    assertEquals(48, kept.heightPx());
    // the picture is the same to the bit, as another reader (the JDK's) has it
    assertArrayEquals(pixels(plain), pixels(kept.bytes()));
    // and what is plain already stays as it is
    assertArrayEquals(kept.bytes(), PhotoFile.read(kept.bytes()).bytes());
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void whichWayUpItIsStaysWithoutThePlaceBesideIt(boolean little) throws Exception {
    byte[] sent = withBehindStart(picture("jpg"), exif(6, little));
    byte[] kept = PhotoFile.read(sent).bytes();
    assertFalse(holds(kept, "N42"));
    // Exif 2.3: a TIFF directory of one entry, 0x0112, SHORT, 1 value, 6 (turn right by 90 degrees)
    byte[] wanted = {0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6};
    assertTrue(holds(kept, new String(wanted, StandardCharsets.ISO_8859_1)), Arrays.toString(kept));
    assertArrayEquals(kept, PhotoFile.read(kept).bytes());
    assertArrayEquals(pixels(sent), pixels(kept));
  }

  @Test
  void ofAPngTextsAndTimeGo() throws Exception {
    byte[] plain = picture("png");
    byte[] text = ascii("tEXtComment\0" + PLACE);
    CRC32 crc = new CRC32();
    crc.update(text);
    byte[] chunk =
        joined(
            ByteBuffer.allocate(4).putInt(text.length - 4).array(),
            text,
            ByteBuffer.allocate(4).putInt((int) crc.getValue()).array());
    int behindHeader = 8 + 25;
    byte[] sent =
        joined(
            Arrays.copyOf(plain, behindHeader),
            chunk,
            Arrays.copyOfRange(plain, behindHeader, plain.length));
    PhotoFile kept = PhotoFile.read(sent);
    assertEquals("image/png", kept.mediaType());
    assertFalse(holds(kept.bytes(), "N42"));
    assertArrayEquals(pixels(plain), pixels(kept.bytes()));
  }

  @Test
  void aPictureThatBreaksOffIsRefusedWhereverItBreaks() throws Exception {
    for (String format : new String[] {"jpg", "png"}) {
      byte[] whole = picture(format);
      for (int n = 0; n < whole.length; n += 7) {
        byte[] cut = Arrays.copyOf(whole, n);
        assertThrows(
            PhotoFile.Refused.class, () -> PhotoFile.read(cut), format + " of " + cut.length);
      }
    }
  }

  @Test
  void bytesChangedAtRandomAreReadOrRefusedAndNothingElse() throws Exception {
    Random random = new Random(11);
    int refused = 0;
    for (String format : new String[] {"jpg", "png"}) {
      byte[] whole = withBehindStart(picture("jpg"), exif(3, true));
      byte[] sent = format.equals("png") ? picture("png") : whole;
      for (int i = 0; i < 400; i++) {
        byte[] odd = sent.clone();
        for (int k = 0; k < 1 + random.nextInt(6); k++) {
          odd[random.nextInt(odd.length)] = (byte) random.nextInt(256);
        }
        try {
          PhotoFile.read(odd);
        } catch (PhotoFile.Refused e) {
          refused++;
          assertTrue(e.getMessage().startsWith("a photo"), e.getMessage());
        }
      }
    }
    assertTrue(refused > 100, "refused " + refused);
  }

  @Test
  void whatIsNoPictureOrFarTooLargeIsRefused() throws Exception {
    byte[] page = ascii("<!DOCTYPE html><script>alert(1)</script>");
    assertTrue(refusal(page).contains("neither JPEG nor PNG"));
    assertTrue(refusal(picture("gif")).contains("neither JPEG nor PNG"));
    assertTrue(refusal(new byte[0]).contains("empty"));
    assertTrue(refusal(new byte[PhotoFile.MOST_BYTES + 1]).contains("expected at most"));
    // A PNG that says it is 60,000 by 60,000 pixels: 14 GB once unpacked
    byte[] bomb = picture("png");
    ByteBuffer.wrap(bomb).putInt(16, 60_000).putInt(20, 60_000);
    CRC32 crc = new CRC32();
    crc.update(bomb, 12, 17);
    ByteBuffer.wrap(bomb).putInt(29, (int) crc.getValue());
    assertTrue(refusal(bomb).contains("60000 x 60000 pixels"), refusal(bomb));
  }

  private static String refusal(byte[] sent) {
    return assertThrows(PhotoFile.Refused.class, () -> PhotoFile.read(sent)).getMessage();
  }
}
