package lanemend.accounts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashSet;
import java.util.OptionalLong;
import org.apache.commons.codec.binary.Base32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Codes of RFC 6238. */
class OneTimeCodeTest {
  /** The seed of RFC 6238, appendix B, for SHA-1. */
  private static final String KEY =
      new Base32().encodeToString("12345678901234567890".getBytes(StandardCharsets.US_ASCII));

  // RFC 6238, appendix B, mode SHA1: seconds, T in hexadecimal, and TOTP of eight digits. A code of
  // six digits is the last six of them: RFC 4226, section 5.3 takes the number modulo 10^digits.
  @ParameterizedTest
  @CsvSource({
    "59, 1, 94287082",
    "1111111109, 23523EC, 07081804",
    "1111111111, 23523ED, 14050471",
    "1234567890, 273EF07, 89005924",
    "2000000000, 3F940AA, 69279037",
    "20000000000, 27BC86AA, 65353130"
  })
  void aCodeIsThatOfTheStandard(long seconds, String step, String eightDigits) {
    Instant at = Instant.ofEpochSecond(seconds);
    String code = eightDigits.substring(2);
    assertEquals(code, OneTimeCode.at(KEY, at));
    assertEquals(OptionalLong.of(Long.parseLong(step, 16)), OneTimeCode.step(KEY, code, at));
  }

  // RFC 4226, appendix D: counts 0 to 9.
  @ParameterizedTest
  @CsvSource({
    "0, 755224", "1, 287082", "2, 359152", "3, 969429", "4, 338314",
    "5, 254676", "6, 287922", "7, 162583", "8, 399871", "9, 520489"
  })
  void theCountIsThatOfStepsOfThirtySeconds(long count, String code) {
    assertEquals(code, OneTimeCode.at(KEY, Instant.ofEpochSecond(30 * count)));
    assertEquals(code, OneTimeCode.at(KEY, Instant.ofEpochSecond(30 * count + 29)));
  }

  @Test
  void aClockThatIsOneStepOffIsPutUpWithAndNoMore() {
    // Given the code of step 4 (RFC 4226, appendix D), 120 to 149 s
    String code = "338314";
    for (long good : new long[] {90, 119, 120, 149, 150, 179}) {
      assertEquals(
          OptionalLong.of(4), OneTimeCode.step(KEY, code, Instant.ofEpochSecond(good)), "" + good);
    }
    for (long bad : new long[] {89, 180, 3_000}) {
      assertTrue(OneTimeCode.step(KEY, code, Instant.ofEpochSecond(bad)).isEmpty(), "" + bad);
    }
  }

  @Test
  void aKeyIsTwentyRandomBytesAndItsAddressNamesTheAccount() {
    HashSet<String> keys = new HashSet<>();
    for (int i = 0; i < 100; i++) {
      keys.add(OneTimeCode.newKey());
    }
    assertEquals(100, keys.size());
    assertTrue(keys.stream().allMatch(k -> new Base32().decode(k).length == 20));
    assertEquals(
        "otpauth://totp/Lanemend:Ann%20Lee?secret=ABC&issuer=Lanemend",
        OneTimeCode.address("Ann Lee", "ABC"));
  }
}
