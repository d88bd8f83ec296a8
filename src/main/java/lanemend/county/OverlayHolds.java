package lanemend.county;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.program.HoldTogether;
import lanemend.store.Change;
import lanemend.store.HeldDefect;
import lanemend.store.Stored;

/**
 * Defects under an overlay that is agreed for this season or the next: they wait for it instead of
 * being patched. What was set aside is kept beside the defects, so that only that is taken up again
 * when the decision changes, and not what somebody else deferred.
 */
public final class OverlayHolds {
  /** This season and the next. */
  private static final int SEASONS = 2;

  private OverlayHolds() {}

  /** What the decisions set aside, whatever was set aside before. */
  public static List<HoldTogether.Held> of(
      List<DecidedSection> decisions, List<Defect> defects, List<HeldDefect> before, int season) {
    Set<String> waiting = before.stream().map(HeldDefect::defectId).collect(Collectors.toSet());
    List<Defect> asIfNotHeld = new ArrayList<>();
    for (Defect d : defects) {
      boolean ours = waiting.contains(d.id()) && d.status() == DefectStatus.DEFERRED_TO_OVERLAY;
      asIfNotHeld.add(ours ? d.withStatus(DefectStatus.OPEN) : d);
    }
    return HoldTogether.of(
        decisions.stream().map(DecidedSection::overlaid).flatMap(Optional::stream).toList(),
        asIfNotHeld,
        season,
        SEASONS);
  }

  /**
   * Puts these in place of what was set aside before; what is set aside no longer is open again.
   */
  public static void replace(Change change, List<HoldTogether.Held> held) {
    Set<String> now = held.stream().map(h -> h.defect().id()).collect(Collectors.toSet());
    for (Stored<HeldDefect> row : change.held().stored()) {
      String id = row.value().defectId();
      change.held().delete(row);
      if (!now.contains(id)) {
        open(change, id);
      }
    }
    for (HoldTogether.Held h : held) {
      String id = h.defect().id();
      change.held().insert(new HeldDefect(id, h.sectionId(), h.reason()));
      Stored<Defect> row = change.defects().find(id).orElseThrow();
      if (row.value().status() != DefectStatus.DEFERRED_TO_OVERLAY) {
        change.defects().update(row, row.value().withStatus(DefectStatus.DEFERRED_TO_OVERLAY));
      }
    }
  }

  /**
   * Opens what waits for this decision, which is about to change.
   *
   * @return how many defects are open again
   */
  public static int release(Change change, String sectionId) {
    int opened = 0;
    for (Stored<HeldDefect> row : change.held().stored()) {
      if (row.value().sectionId().equals(sectionId)) {
        change.held().delete(row);
        opened += open(change, row.value().defectId()) ? 1 : 0;
      }
    }
    return opened;
  }

  /** Opens a defect, unless somebody has given it another status meanwhile. */
  private static boolean open(Change change, String defectId) {
    Stored<Defect> row = change.defects().find(defectId).orElseThrow();
    boolean waits = row.value().status() == DefectStatus.DEFERRED_TO_OVERLAY;
    if (waits) {
      change.defects().update(row, row.value().withStatus(DefectStatus.OPEN));
    }
    return waits;
  }
}
