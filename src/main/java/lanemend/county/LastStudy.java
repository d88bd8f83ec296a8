package lanemend.county;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.renewal.RenewalRules;
import lanemend.store.Store;

/**
 * The last renewal study made of a store, for as long as a program runs. What is decided, found or
 * planned meanwhile goes into its proposal; what changes the records it was made of makes it an
 * earlier one, which still shows until somebody studies again; other roads end it. Safe for several
 * threads.
 */
public final class LastStudy {
  /** Written by those who decide on sections or look after defects: the study itself stays. */
  private static final Set<String> BESIDE = beside();

  /** Where its sections lie cannot be said on other roads. */
  private static final Set<String> ROADS = Set.of("route", "calibration_post", "connector");

  private final Store store;
  private CountyRenewal last;
  private boolean earlier;
  private long seen;
  private int number;

  public LastStudy(Store store) {
    this.store = store;
  }

  private static Set<String> beside() {
    Set<String> tables = new HashSet<>(CountyJob.TABLES);
    tables.addAll(List.of("renewal_decision", "finding", "setting", "import_run"));
    return Set.copyOf(tables);
  }

  /** Keeps a study in place of the one before. */
  public synchronized void put(CountyRenewal made) {
    last = made;
    seen = made.judged().lastChange();
    earlier = false;
    number++;
  }

  /** The last study with the decisions, defects and budgets of the county now. */
  public synchronized Optional<CountyRenewal> now(County now) {
    if (last == null) {
      return Optional.empty();
    }
    if (now.lastChange() != seen) {
      seen = now.lastChange();
      Map<String, Set<String>> touched =
          store.read(s -> s.touchedSince(last.county().lastChange()));
      number++;
      if (touched.keySet().stream().anyMatch(ROADS::contains)) {
        last = null;
        earlier = false;
        return Optional.empty();
      }
      earlier =
          !BESIDE.containsAll(touched.keySet())
              || !ofStudy(now.renewalRules()).equals(ofStudy(last.rules()));
      // Beside other rules the old proposal would be neither the old study's nor a new one's.
      if (ofStudy(now.renewalRules()).equals(ofStudy(last.rules()))) {
        last = last.judgedBy(now);
      }
    }
    return Optional.of(last);
  }

  private static RenewalRules ofStudy(RenewalRules rules) {
    return rules.withBudgets(List.of());
  }

  /** Whether records have changed since the last study; false where there is none. */
  public synchronized boolean isEarlier(County now) {
    return now(now).isPresent() && earlier;
  }

  /** Grows with each study and each change of its proposal; 0 while there is none. */
  public synchronized int number() {
    return number;
  }
}
