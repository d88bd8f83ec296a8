package lanemend.store;

import org.apache.commons.codec.digest.DigestUtils;

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
    return DigestUtils.sha256Hex(bytes);
  }
}
