package lanemend.accounts;

import com.nulabinc.zxcvbn.Strength;
import com.nulabinc.zxcvbn.Zxcvbn;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * What a new password must be: long enough, and not one that is guessed soon. No mix of kinds of
 * character is asked for and no change by the calendar (OWASP ASVS 5.0.0, 6.2.1, 6.2.4, 6.2.5,
 * 6.2.10 and 6.2.11).
 */
final class PasswordRules {
  /** Shortest, in characters as a person counts them. */
  static final int SHORTEST = 12;

  /** Longest: well above what anybody remembers, and no work to hash. */
  static final int LONGEST = 200;

  /**
   * Guesses by zxcvbn's estimate, as a power of ten, below which a password is refused; its own
   * "safely unguessable" begins at 8 where each guess is slow (Wheeler, USENIX Security 2016).
   */
  private static final double LEAST_GUESSES_LOG10 = 8;

  /** The estimate looks at every part of a text: only so much of a long one is needed. */
  private static final int ESTIMATED = 60;

  /** Characters it must have beside the account's name and words of the desk. */
  private static final int LEAST_OWN = 6;

  private static final List<String> OWN_WORDS =
      List.of("lanemend", "asphalt", "pothole", "patching", "milepost", "highway", "county");

  private PasswordRules() {}

  /**
   * Checks a new password.
   *
   * @throws AccountException when it is not to be taken
   */
  static void check(String password, String accountName) {
    int length = password.codePointCount(0, password.length());
    if (length < SHORTEST || length > LONGEST) {
      throw new AccountException(
          "the password has "
              + length
              + " characters, expected "
              + SHORTEST
              + " to "
              + LONGEST
              + "; three or four words that do not go together are easily kept in mind");
    }
    String looked = password.length() > ESTIMATED ? password.substring(0, ESTIMATED) : password;
    List<String> known =
        Stream.concat(OWN_WORDS.stream(), Arrays.stream(accountName.split("[ ._'-]+", -1)))
            .filter(w -> w.length() > 2)
            .toList();
    String rest = password.toLowerCase(Locale.ROOT);
    for (String word : known) {
      rest = rest.replace(word.toLowerCase(Locale.ROOT), "");
    }
    if (rest.replaceAll("[ ._'-]", "").length() < LEAST_OWN) {
      throw new AccountException(
          "the password is made of the account's name or of words of this desk: choose another");
    }
    Strength strength = new Zxcvbn().measure(looked, known);
    if (strength.getGuessesLog10() < LEAST_GUESSES_LOG10) {
      String why = strength.getFeedback().getWarning();
      throw new AccountException(
          "the password is easily guessed"
              + (why == null || why.isBlank() ? "" : " (" + withoutStop(why) + ")")
              + ": choose another");
    }
  }

  private static String withoutStop(String text) {
    return text.endsWith(".") ? text.substring(0, text.length() - 1) : text;
  }
}
