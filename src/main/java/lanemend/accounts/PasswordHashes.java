package lanemend.accounts;

import com.password4j.Argon2Function;
import com.password4j.types.Argon2;
import java.util.concurrent.Semaphore;

/**
 * Passwords as they are kept: Argon2id (RFC 9106) in its own text form, which names its settings,
 * so that they can be raised later and old hashes still be read.
 */
final class PasswordHashes {
  // The second of the settings the OWASP password storage cheat sheet holds equal: m=19 MiB, t=2,
  // p=1.
  private static final int MEMORY_KIB = 19_456;
  private static final int PASSES = 2;
  private static final int LANES = 1;
  private static final int BYTES = 32;

  private static final Argon2Function ARGON2ID =
      Argon2Function.getInstance(MEMORY_KIB, PASSES, LANES, BYTES, Argon2.ID);

  /** So many at once: each takes 19 MiB and a core. */
  private static final Semaphore TURNS = new Semaphore(2, true);

  /** Stands in for an account there is not, so that the answer takes as long. */
  private static final String NOBODY = hash("nobody has this password");

  private PasswordHashes() {}

  static String hash(String password) {
    return inTurn(() -> ARGON2ID.hash(password).getResult());
  }

  /**
   * Compares.
   *
   * @param kept a hash, or null for an account there is not: then false, as late as otherwise
   */
  static boolean matches(String password, String kept) {
    String against = kept == null ? NOBODY : kept;
    boolean same =
        inTurn(() -> Argon2Function.getInstanceFromHash(against).check(password, against));
    return same && kept != null;
  }

  private static <T> T inTurn(java.util.function.Supplier<T> work) {
    TURNS.acquireUninterruptibly();
    try {
      return work.get();
    } finally {
      TURNS.release();
    }
  }
}
