package lanemend.accounts;

import com.eatthepath.otp.TimeBasedOneTimePasswordGenerator;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.OptionalLong;
import javax.crypto.spec.SecretKeySpec;
import org.apache.commons.codec.binary.Base32;

/**
 * Codes of the second factor by RFC 6238 with what every phone's program for them takes without
 * being told: HMAC-SHA-1, six digits, steps of 30 s.
 */
public final class OneTimeCode {
  /** As long as the output of SHA-1, which RFC 4226 (section 4, R6) recommends. */
  private static final int KEY_BYTES = 20;

  private static final Duration STEP = Duration.ofSeconds(30);
  private static final int DIGITS = 6;

  /** Steps before and after this one that are taken: RFC 6238, section 6. */
  private static final int TOLERANCE = 1;

  private static final SecureRandom RANDOM = new SecureRandom();

  private OneTimeCode() {}

  /** A new key, in base 32 as it is typed into a phone. */
  public static String newKey() {
    byte[] key = new byte[KEY_BYTES];
    RANDOM.nextBytes(key);
    return new Base32().encodeToString(key);
  }

  /** What a phone's camera reads: the key URI that authenticator programs share. */
  public static String address(String account, String key) {
    return "otpauth://totp/Lanemend:" + coded(account) + "?secret=" + key + "&issuer=Lanemend";
  }

  private static String coded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }

  /**
   * The time step a code belongs to: this one, the one before or the one after.
   *
   * @return empty when it is none of theirs
   */
  static OptionalLong step(String key, String code, Instant now) {
    String typed = code.replaceAll("\\s", "");
    OptionalLong found = OptionalLong.empty();
    for (int off = -TOLERANCE; off <= TOLERANCE; off++) {
      Instant at = now.plus(STEP.multipliedBy(off));
      // Each is compared, and each whole, so that the time taken tells nothing.
      if (MessageDigest.isEqual(bytes(at(key, at)), bytes(typed))) {
        found = OptionalLong.of(Math.floorDiv(at.getEpochSecond(), STEP.toSeconds()));
      }
    }
    return found;
  }

  /** The code of a moment. */
  static String at(String key, Instant at) {
    try {
      return new TimeBasedOneTimePasswordGenerator(STEP, DIGITS)
          .generateOneTimePasswordString(new SecretKeySpec(new Base32().decode(key), "RAW"), at);
    } catch (InvalidKeyException e) {
      throw new AccountException("the key of the second factor cannot be used", e);
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
