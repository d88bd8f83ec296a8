package lanemend.county;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.exchange.KeptStudy;
import lanemend.exchange.StudyFile;
import lanemend.renewal.RenewalRules;
import lanemend.store.Store;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The last renewal study made of a store. What is decided, found or planned meanwhile goes into its
 * proposal; what changes the records it was made of makes it an earlier one, which still shows
 * until somebody studies again; other roads end it. It is also kept in a file beside the store, so
 * that the next start has it at once; that file can be deleted at any time. Safe for several
 * threads.
 */
public final class LastStudy {
  /** Written by those who decide on sections or look after defects: the study itself stays. */
  private static final Set<String> BESIDE = beside();

  /** Where its sections lie cannot be said on other roads. */
  private static final Set<String> ROADS = Set.of("route", "calibration_post", "connector");

  /**
   * What overlays are designed with, of which the file has nothing: then too it is not taken up.
   */
  private static final Set<String> FACTS =
      Set.of("road_attribute", "pavement_layer", "surveyed_distress");

  private static final Logger LOG = LoggerFactory.getLogger("lanemend.renewal");

  private final Store store;
  private final Path file;
  private CountyRenewal last;

  /** The change log's last line when the records of {@link #last} were read. */
  private long studied;

  private boolean earlier;
  private long seen;
  private int number;

  public LastStudy(Store store) {
    this.store = store;
    this.file = store.file().resolveSibling("last-study.json.gz");
  }

  private static Set<String> beside() {
    Set<String> tables = new HashSet<>(CountyJob.TABLES);
    tables.addAll(List.of("renewal_decision", "finding", "setting", "import_run"));
    return Set.copyOf(tables);
  }

  /** Keeps a study in place of the one before, in the file too. */
  public void put(CountyRenewal made) {
    synchronized (this) {
      last = made;
      studied = made.county().lastChange();
      seen = made.judged().lastChange();
      earlier = false;
      number++;
    }
    try {
      Optional<String> stamp = store.read(s -> s.stamp(made.county().lastChange()));
      if (stamp.isPresent()) {
        StudyFile.write(file, made.kept(stamp.get()));
      }
    } catch (IOException e) {
      // It is there until the program ends, and can be made again.
      LOG.atWarn().addKeyValue("file", file).log("renewal study not kept: {}", e.toString());
    }
  }

  /** Takes up the study in the file, unless it is damaged or of something else. */
  public void takeUp(County now) {
    if (!Files.exists(file)) {
      return;
    }
    try {
      KeptStudy kept = StudyFile.read(file);
      Optional<String> unfit = unfit(kept);
      if (unfit.isPresent()) {
        LOG.atInfo().addKeyValue("file", file).log("renewal study not taken up: {}", unfit.get());
        return;
      }
      CountyRenewal again = CountyRenewal.again(now, kept);
      synchronized (this) {
        if (last == null) {
          last = again;
          studied = kept.lastChange();
          // Of no state of the store yet, so that what was written since is looked at.
          seen = -1;
          number++;
        }
      }
    } catch (IOException | RuntimeException e) {
      LOG.atInfo().addKeyValue("file", file).log("renewal study not taken up: {}", e.getMessage());
    }
  }

  /** Why a study cannot be shown with the store as it is. */
  private Optional<String> unfit(KeptStudy kept) {
    return store.read(
        s -> {
          if (!s.stamp(kept.lastChange()).equals(Optional.of(kept.stamp()))) {
            return Optional.of("it is of another store");
          }
          Set<String> touched = s.touchedSince(kept.lastChange()).keySet();
          return touched.stream().anyMatch(t -> ROADS.contains(t) || FACTS.contains(t))
              ? Optional.of("roads or facts of them were written since")
              : Optional.empty();
        });
  }

  /** The last study with the decisions, defects and budgets of the county now. */
  public synchronized Optional<CountyRenewal> now(County now) {
    if (last == null) {
      return Optional.empty();
    }
    if (now.lastChange() != seen) {
      seen = now.lastChange();
      Map<String, Set<String>> touched = store.read(s -> s.touchedSince(studied));
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
