package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import lanemend.renewal.RenewalProposal;
import lanemend.store.Change;
import lanemend.store.Store;
import lanemend.store.Stored;

/**
 * Keeps and takes back what an engineer decides on sections. A decision takes the place of one on
 * the same stretch; what waited for that one's overlay is open again until the next plan.
 */
public final class SectionDecisions {
  private SectionDecisions() {}

  /** A stretch of one route, along in metres. */
  public record Stretch(double fromAlongM, double toAlongM) {

    /**
     * The stretch between two mileposts of a route, in either order.
     *
     * @throws NotReady with one sentence when there is no such stretch
     */
    public static Stretch of(Route on, String from, String to) {
      double a = WrittenMilepost.along(on, from);
      double b = WrittenMilepost.along(on, to);
      if (a == b) {
        throw new NotReady("milepost " + from + " to " + to + " is no stretch of " + on.id());
      }
      return new Stretch(Math.min(a, b), Math.max(a, b));
    }
  }

  /**
   * What an engineer says of a stretch.
   *
   * @param named the stretch as it is known so far
   * @param decided the limits decided on: {@code named} but for changed limits
   * @param year overlay in it where accepted, not before it where deferred; 0 for none
   */
  public record Verdict(
      EngineerDecision.Kind kind,
      Stretch named,
      Stretch decided,
      int year,
      String reason,
      String by) {

    /**
     * The decision as it is kept, of the day it is made.
     *
     * @throws NotReady when the new limits have nothing of the stretch
     */
    public DecidedSection on(Route route, LocalDate today) {
      if (decided.toAlongM() <= named.fromAlongM() || decided.fromAlongM() >= named.toAlongM()) {
        throw new NotReady("the new limits have nothing of the section as it was named");
      }
      boolean deferred = kind == EngineerDecision.Kind.DEFERRED;
      return new DecidedSection(
          route.id(),
          new EngineerDecision(
              RenewalProposal.idOf(route, named.fromAlongM(), named.toAlongM()),
              kind,
              decided.fromAlongM(),
              decided.toAlongM(),
              deferred ? year : 0,
              reason.strip(),
              by.strip(),
              today),
          deferred ? 0 : year);
    }
  }

  /**
   * Keeps a decision in place of the one on the same stretch.
   *
   * @param who whose change it is, for the change log
   * @return how many defects that waited for the decision before are open again
   * @throws NotReady when several decisions are on file there
   */
  public static int keep(Store store, String who, String why, DecidedSection decided) {
    EngineerDecision d = decided.decision();
    AtomicInteger opened = new AtomicInteger();
    store.write(
        who,
        why,
        change -> {
          List<Stored<DecidedSection>> before =
              onFile(
                  change,
                  decided.routeId(),
                  d.sectionId(),
                  new Stretch(d.fromAlongM(), d.toAlongM()));
          if (before.size() > 1) {
            throw new NotReady(
                "several decisions are on file there ("
                    + String.join(", ", before.stream().map(SectionDecisions::id).toList())
                    + "): take them back first");
          }
          if (before.isEmpty()) {
            change.decisions().insert(decided);
          } else {
            opened.set(OverlayHolds.release(change, id(before.get(0))));
            change.decisions().update(before.get(0), decided);
          }
        });
    return opened.get();
  }

  /**
   * What was taken back.
   *
   * @param sections whose decisions are gone
   * @param opened defects that are open again
   */
  public record Withdrawn(List<String> sections, int opened) {}

  /**
   * Takes back the decisions on a stretch.
   *
   * @throws NotReady when none is on file
   */
  public static Withdrawn withdraw(Store store, String who, String why, Route on, Stretch stretch) {
    AtomicInteger opened = new AtomicInteger();
    List<String> gone = new ArrayList<>();
    store.write(
        who,
        why,
        change -> {
          String named = RenewalProposal.idOf(on, stretch.fromAlongM(), stretch.toAlongM());
          for (Stored<DecidedSection> row : onFile(change, on.id(), named, stretch)) {
            opened.addAndGet(OverlayHolds.release(change, id(row)));
            change.decisions().delete(row);
            gone.add(id(row));
          }
          if (gone.isEmpty()) {
            throw new NotReady("no decision is on file between these mileposts of " + on.id());
          }
        });
    return new Withdrawn(List.copyOf(gone), opened.get());
  }

  private static List<Stored<DecidedSection>> onFile(
      Change change, String routeId, String sectionId, Stretch stretch) {
    return change.decisions().stored().stream()
        .filter(
            r ->
                r.value().overlaps(routeId, stretch.fromAlongM(), stretch.toAlongM())
                    || r.value().decision().sectionId().equals(sectionId))
        .toList();
  }

  private static String id(Stored<DecidedSection> row) {
    return row.value().decision().sectionId();
  }
}
