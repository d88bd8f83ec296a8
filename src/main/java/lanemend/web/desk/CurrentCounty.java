package lanemend.web.desk;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.function.Function;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.county.LastStudy;
import lanemend.county.NotReady;
import lanemend.store.Store;
import lanemend.store.StoreException;

/**
 * The county as the store has it, for requests: read once and read again only when something was
 * written, by the desk or by another program. Safe for several threads.
 */
final class CurrentCounty {
  private final Store store;
  private final LastStudy study;
  private County county;
  private MapIndex index;
  private Thread begun = new Thread(() -> {});

  CurrentCounty(Store store) {
    this.store = store;
    this.study = new LastStudy(store);
  }

  /**
   * Reads the county before anybody asks, so that the first page is as quick as the next. In the
   * background, which takes a few seconds, it works out the plan and takes up the last study.
   */
  void begin() {
    index();
    County now = get();
    begun =
        new Thread(
            () -> {
              planReady();
              study.takeUp(now);
            },
            "plan and last study");
    begun.setDaemon(true);
    begun.start();
  }

  /** Works out times and figures of the kept plan, so that no page waits for them. */
  void planReady() {
    try {
      County now = get();
      if (!now.assignment().days().isEmpty()) {
        now.plan();
      }
    } catch (NotReady | StoreException e) {
      // Who asks for the plan is told.
    } catch (RuntimeException e) {
      Fault.logged("plan worked out ahead", e);
    }
  }

  /** Returns once nothing is read in the background any more. */
  void awaitBegun() {
    try {
      begun.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The last renewal study, which the map shows too; waits for the one that is being taken up. */
  LastStudy study() {
    awaitBegun();
    return study;
  }

  /** The county now. */
  synchronized County get() {
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    boolean ofToday = county != null && county.day().equals(today);
    county = ofToday ? county.now(store) : County.read(store, today);
    return county;
  }

  /** What is drawn on the map, from the county now. */
  synchronized MapIndex index() {
    County now = get();
    Optional<CountyRenewal> studied = study.now(now);
    int number = study.number();
    if (index == null || !index.isOf(now, number)) {
      index = MapIndex.of(now, studied, number, index);
    }
    return index;
  }

  Store store() {
    return store;
  }

  /** What the store itself has to tell, for instance a row's history. */
  <T> T read(Function<lanemend.store.Snapshot, T> work) {
    return store.read(work);
  }
}
