package lanemend.web.desk;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import lanemend.accounts.Recent;
import lanemend.county.County;
import lanemend.exchange.CqlFilter;
import lanemend.exchange.FilterTables;
import lanemend.inventory.Defect;

/** Defects a filter chooses; the last few answers are kept, since every tile asks for the same. */
final class Filters {
  private static final int KEPT = 16;

  private final Map<String, BitSet> kept = new Recent<>(KEPT);

  /**
   * Which of the county's defects a filter is true of, by their place in its list; null for all.
   *
   * @param where a filter, or blank
   * @throws lanemend.exchange.ExchangeException when it cannot be read
   */
  BitSet chosen(County county, String where) {
    if (where == null || where.isBlank()) {
      return null;
    }
    String key = county.lastChange() + " " + where;
    synchronized (kept) {
      BitSet before = kept.get(key);
      if (before != null) {
        return before;
      }
    }
    CqlFilter<Defect> filter =
        CqlFilter.parse(where, new FilterTables(county.network(), county.locator()).defects());
    BitSet chosen = new BitSet();
    List<Defect> defects = county.defects();
    for (int i = 0; i < defects.size(); i++) {
      if (filter.test(defects.get(i))) {
        chosen.set(i);
      }
    }
    synchronized (kept) {
      kept.put(key, chosen);
    }
    return chosen;
  }
}
