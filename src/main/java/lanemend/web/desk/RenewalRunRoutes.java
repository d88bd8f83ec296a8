package lanemend.web.desk;

import io.javalin.http.Context;
import java.util.concurrent.CancellationException;
import lanemend.county.County;
import lanemend.county.CountyRenewal;
import lanemend.county.NotReady;
import lanemend.renewal.StudyProgress;
import lanemend.store.StoreException;

/**
 * The renewal study in the background: one at a time, watched and ended from a page. Nothing of it
 * is written; what it finds stays as the last study.
 */
final class RenewalRunRoutes implements Area {
  private final CurrentCounty county;
  private Run run = new Run("none", "", 0, "");
  private int begun;

  RenewalRunRoutes(CurrentCounty county) {
    this.county = county;
  }

  /**
   * How it gets on.
   *
   * @param state {@code none}, {@code running}, {@code done}, {@code ended} when somebody ended it,
   *     or {@code failed}
   * @param share of the study, 0 to 1
   * @param said in a sentence, once it has ended
   */
  record Run(String state, String stage, double share, String said) {}

  @Override
  public void addTo(Api api) {
    api.get("/api/renewal/run", c -> c.json(now()));
    api.post("/api/renewal/run", this::start);
    api.delete("/api/renewal/run", c -> c.json(end()));
  }

  synchronized Run now() {
    return run;
  }

  private synchronized void start(Context c) {
    if (!run.state().equals("running")) {
      County studied = county.get();
      if (studied.patches().isEmpty()) {
        throw new NotReady("no repair is on record yet: import the patches first");
      }
      int number = ++begun;
      run = new Run("running", "reading the records", 0, "");
      Thread thread = new Thread(() -> work(studied, number), "renewal study");
      thread.setDaemon(true);
      thread.start();
    }
    c.status(202).json(run);
  }

  /** Ends it for whoever waits; its thread ends at its next stage. */
  private synchronized Run end() {
    if (run.state().equals("running")) {
      begun++;
      run = new Run("ended", "", 1, "The study was ended; nothing is changed.");
    }
    return run;
  }

  private void work(County studied, int number) {
    StudyProgress progress = (stage, share) -> tell(number, stage, share);
    long started = System.nanoTime();
    Run ended;
    try {
      CountyRenewal made = CountyRenewal.of(studied, progress);
      progress.goOn("done", 1);
      county.study().put(made);
      int flagged = made.proposal().sections().size();
      ended =
          new Run(
              "done",
              "",
              1,
              String.format(
                  java.util.Locale.ROOT,
                  "%d %s flagged, in %.0f s.",
                  flagged,
                  flagged == 1 ? "section is" : "sections are",
                  (System.nanoTime() - started) / 1e9));
    } catch (CancellationException e) {
      return;
    } catch (NotReady | StoreException e) {
      ended = new Run("failed", "", 1, e.getMessage());
    } catch (RuntimeException e) {
      ended = new Run("failed", "", 1, "the study failed: " + e);
    }
    over(number, ended);
  }

  private synchronized boolean tell(int number, String stage, double share) {
    if (number == begun) {
      run = new Run("running", stage, share, "");
    }
    return number == begun;
  }

  private synchronized void over(int number, Run ended) {
    if (number == begun) {
      run = ended;
    }
  }
}
