package lanemend.inventory;

import java.util.AbstractList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.RandomAccess;

/**
 * A piece of a route over which no event table changes.
 *
 * @param fromAlongM ground metres from the route's start; equal to {@code toAlongM} for what holds
 *     at a spot only
 * @param tables names of the tables laid over each other; shared by all segments of a segmentation
 * @param values one for each table; null where the table says nothing
 */
public record Segment(
    String routeId, double fromAlongM, double toAlongM, List<String> tables, List<String> values) {

  /** Takes the values over without copying: a million segments share what they can. */
  static Segment of(String routeId, double from, double to, List<String> tables, String[] values) {
    return new Segment(routeId, from, to, tables, new Values(values));
  }

  /** An array as a list that may hold nulls and does not change: one object, not three. */
  private static final class Values extends AbstractList<String> implements RandomAccess {
    private final String[] values;

    Values(String[] values) {
      this.values = values;
    }

    @Override
    public String get(int i) {
      return values[i];
    }

    @Override
    public int size() {
      return values.length;
    }
  }

  /** What a table says here; empty where it says nothing or is not among the tables. */
  public Optional<String> value(String table) {
    int at = tables.indexOf(table);
    return at < 0 ? Optional.empty() : Optional.ofNullable(values.get(at));
  }

  /** Every table that says something here, in the order of the tables. */
  public Map<String, String> known() {
    Map<String, String> known = new LinkedHashMap<>();
    for (int i = 0; i < values.size(); i++) {
      if (values.get(i) != null) {
        known.put(tables.get(i), values.get(i));
      }
    }
    return known;
  }

  public double lengthM() {
    return toAlongM - fromAlongM;
  }
}
