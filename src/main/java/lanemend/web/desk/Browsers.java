package lanemend.web.desk;

import java.util.LinkedHashMap;
import java.util.Map;

/** Which browser on what, roughly, by what it says of itself: enough to know one's own again. */
final class Browsers {
  // In this order: most name those below them as well.
  private static final Map<String, String> NAMES = new LinkedHashMap<>();
  private static final Map<String, String> SYSTEMS = new LinkedHashMap<>();

  static {
    NAMES.put("Edg", "Edge");
    NAMES.put("OPR/", "Opera");
    NAMES.put("Firefox/", "Firefox");
    NAMES.put("FxiOS/", "Firefox");
    NAMES.put("Chrome/", "Chrome");
    NAMES.put("CriOS/", "Chrome");
    NAMES.put("Safari/", "Safari");
    SYSTEMS.put("Android", "Android");
    SYSTEMS.put("iPhone", "iPhone");
    SYSTEMS.put("iPad", "iPad");
    SYSTEMS.put("Windows", "Windows");
    SYSTEMS.put("Mac OS X", "macOS");
    SYSTEMS.put("CrOS", "ChromeOS");
    SYSTEMS.put("Linux", "Linux");
  }

  private Browsers() {}

  /**
   * Fixed words only, nothing of what was sent.
   *
   * @param userAgent null when none was sent
   */
  static String named(String userAgent) {
    String name = find(NAMES, userAgent, "another browser");
    String system = find(SYSTEMS, userAgent, "");
    return system.isEmpty() ? name : name + " on " + system;
  }

  private static String find(Map<String, String> words, String text, String otherwise) {
    return words.entrySet().stream()
        .filter(e -> text != null && text.contains(e.getKey()))
        .map(Map.Entry::getValue)
        .findFirst()
        .orElse(otherwise);
  }
}
