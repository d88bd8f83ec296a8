package lanemend.store;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * A photo's file.
 *
 * @param hash SHA-256 of the bytes in lower-case hex
 * @param mediaType {@code image/jpeg} or {@code image/png}
 * @param bytes not copied; nobody changes them
 */
@SuppressWarnings("ArrayRecordComponent") // compared by hash only
public record PhotoContent(String hash, String mediaType, int widthPx, int heightPx, byte[] bytes) {

  /** With the hash of these bytes. */
  public static PhotoContent of(String mediaType, int widthPx, int heightPx, byte[] bytes) {
    return new PhotoContent(hash(bytes), mediaType, widthPx, heightPx, bytes);
  }

  static String hash(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
