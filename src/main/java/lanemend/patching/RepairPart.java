package lanemend.patching;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One of the parts, in order along the road, into which a repair too long for a day is cut. A
 * part's repair carries {@link #id()} where a whole one carries its defect's id.
 *
 * @param number from 1
 */
public record RepairPart(String defectId, int number, int of) {
  private static final Pattern ID = Pattern.compile("(.+)#(\\d{1,3})/(\\d{1,3})");

  public RepairPart {
    if (number < 1 || number > of) {
      throw new IllegalArgumentException("part " + number + " of " + of);
    }
  }

  /** Such as {@code D-17#1/2}. */
  public String id() {
    return defectId + "#" + number + "/" + of;
  }

  /** Such as {@code part 1 of 2}. */
  public String words() {
    return "part " + number + " of " + of;
  }

  /** An id as people read it: {@code D-17}, or {@code D-17, part 1 of 2}. */
  public static String label(String id) {
    return parse(id).map(p -> p.defectId() + ", " + p.words()).orElse(id);
  }

  /** The part of this id; empty when it is not a part's. */
  public static Optional<RepairPart> parse(String id) {
    Matcher m = ID.matcher(id);
    if (!m.matches()) {
      return Optional.empty();
    }
    int number = Integer.parseInt(m.group(2));
    int of = Integer.parseInt(m.group(3));
    return number >= 1 && number <= of
        ? Optional.of(new RepairPart(m.group(1), number, of))
        : Optional.empty();
  }

  /** The defect an id is about, whether the id is its own or a part's. */
  public static String defectOf(String id) {
    return parse(id).map(RepairPart::defectId).orElse(id);
  }
}
