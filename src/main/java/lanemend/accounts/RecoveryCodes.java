package lanemend.accounts;

import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.Locale;
import java.util.stream.Stream;
import org.apache.commons.codec.binary.Base32;
import org.apache.commons.codec.digest.DigestUtils;

/**
 * Codes for the day the phone is lost, each good once. They are random with 120 bits, so a plain
 * hash is enough to keep them by (OWASP ASVS 5.0.0, 6.5.2: from 112 bits on).
 */
final class RecoveryCodes {
  /** How many are given out at once. */
  static final int COUNT = 10;

  private static final int BYTES = 15;
  private static final SecureRandom RANDOM = new SecureRandom();

  private RecoveryCodes() {}

  /** New ones, in six groups of four letters and digits. */
  static java.util.List<String> make() {
    return Stream.generate(RecoveryCodes::one).limit(COUNT).toList();
  }

  private static String one() {
    byte[] code = new byte[BYTES];
    RANDOM.nextBytes(code);
    return new Base32().encodeToString(code).replaceAll("(.{4})(?!$)", "$1-");
  }

  /** As it is kept; written small, with blanks or without groups it is the same code. */
  static String hash(String typed) {
    String plain = typed.replaceAll("[\\s-]", "").toUpperCase(Locale.ROOT);
    return DigestUtils.sha256Hex(plain.getBytes(StandardCharsets.UTF_8));
  }
}
