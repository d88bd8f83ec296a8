package lanemend.start;

/**
 * Where the program begins: says in plain words when the Java machine is too old for it. This class
 * is compiled for Java 8, so that an old machine can still read it; everything else needs {@value
 * #NEEDED}.
 */
public final class Start {
  static final int NEEDED = 17;
  private static final int NOTHING_DONE = 3;

  private Start() {}

  /** Hands over to the {@code lanemend} command. */
  public static void main(String[] args) throws Exception {
    String version = System.getProperty("java.specification.version", "");
    String refusal = refusal(version, System.getProperty("java.home", ""));
    if (!refusal.isEmpty()) {
      System.err.println(refusal);
      System.exit(NOTHING_DONE);
    }
    Class.forName("lanemend.cli.Main")
        .getMethod("main", String[].class)
        .invoke(null, (Object) args);
  }

  /** One sentence, or nothing when the version will do. */
  static String refusal(String version, String home) {
    String major = version.startsWith("1.") ? version.substring(2) : version;
    try {
      if (Integer.parseInt(major) >= NEEDED) {
        return "";
      }
    } catch (NumberFormatException e) {
      // A version that is no number is told of like one that is too low.
      major = version;
    }
    return "lanemend needs Java "
        + NEEDED
        + " or newer: found Java "
        + major
        + " in "
        + home
        + "; install a newer one, or start lanemend with its bin/java";
  }
}
