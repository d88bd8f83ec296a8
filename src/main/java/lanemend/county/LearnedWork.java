package lanemend.county;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.Learning;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.crewdays.learning.Proposal;
import lanemend.inventory.Defect;
import lanemend.inventory.PastPatch;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactors;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.patching.Treatment;
import lanemend.store.Store;
import lanemend.store.Stored;

/** What the county's done work teaches, and what the agency takes of it. */
public final class LearnedWork {
  private final County county;
  private final List<DoneRepair> done;

  public LearnedWork(County county) {
    this.county = county;
    Map<String, Defect> defects = new HashMap<>();
    county.defects().forEach(d -> defects.put(d.id(), d));
    County bare = null;
    List<DoneRepair> all = new ArrayList<>();
    for (PastPatch patch : county.patches()) {
      PlannedWork kept = county.plannedWork().get(patch.id());
      if (kept == null && DoneWork.isRecord(patch) && bare == null) {
        bare = county.withLearned(LearnedFactors.NONE);
      }
      DoneRepair.Planned planned = kept != null ? kept.planned() : redesigned(patch, defects, bare);
      all.add(
          new DoneRepair(
              patch.id(),
              kept == null ? "" : kept.crewId(),
              treatment(patch.work()),
              patch.place().routeId(),
              patch.doneOn(),
              planned,
              patch.tonnes(),
              patch.crewHours(),
              patch.cost()));
    }
    done = List.copyOf(all);
  }

  /** The treatment that a past patch's words name; null for other work. */
  private static Treatment treatment(String work) {
    String code = work.strip().toUpperCase(Locale.ROOT).replace(' ', '_').replace('-', '_');
    for (Treatment t : Treatment.values()) {
      if (t.name().equals(code)) {
        return t == Treatment.DEFER_TO_OVERLAY ? null : t;
      }
    }
    return null;
  }

  /**
   * The plan of a record from before plans were kept with records: its defect designed as it is on
   * file, with nothing learned. Null where the defect is gone, is another kind of work now, or was
   * done in parts, of which one does not tell the whole.
   */
  private static DoneRepair.Planned redesigned(
      PastPatch patch, Map<String, Defect> defects, County bare) {
    if (!DoneWork.isRecord(patch)) {
      return null;
    }
    String id = patch.id().substring(DoneWork.patchId("").length());
    Defect defect = defects.get(id);
    if (defect == null || RepairPart.parse(id).isPresent()) {
      return null;
    }
    PatchDesign design = bare.design(defect);
    return design.choice().treatment() != treatment(patch.work())
        ? null
        : new DoneRepair.Planned(
            DoneRepair.Basis.REDESIGNED,
            null,
            design.tonnes(),
            design.minutes(),
            1,
            1,
            null,
            1,
            null,
            null);
  }

  /** Everything done, with what was planned of it where that is known. */
  public List<DoneRepair> done() {
    return done;
  }

  /**
   * What the work done in a time teaches.
   *
   * @param from first day, or null for all before {@code to}
   * @param to last day, or null for all since {@code from}
   */
  public Learning learn(LocalDate from, LocalDate to) {
    return Learning.from(
        done.stream()
            .filter(r -> from == null || !r.doneOn().isBefore(from))
            .filter(r -> to == null || !r.doneOn().isAfter(to))
            .toList(),
        county.learned());
  }

  /** First and last day of the last year in which work with a plan on record was done. */
  public LocalDate[] lastSeason() {
    Comparator<DoneRepair> byPlanThenDay =
        Comparator.comparing((DoneRepair r) -> r.planned() != null)
            .thenComparing(DoneRepair::doneOn);
    int year =
        done.stream()
            .max(byPlanThenDay)
            .map(r -> r.doneOn().getYear())
            .orElse(county.day().getYear());
    return new LocalDate[] {LocalDate.of(year, 1, 1), YearMonth.of(year, 12).atEndOfMonth()};
  }

  /**
   * Puts factors in force, each in the place of one about the same.
   *
   * @throws NotReady when one may not be used, or somebody changed what is in force meanwhile
   */
  public void accept(Store store, String who, LocalDate on, List<Proposal> proposals) {
    for (Proposal p : proposals) {
      if (!p.usable()) {
        throw new NotReady("'" + p.key() + "' is shown only: " + p.reason());
      }
    }
    List<String> keys = proposals.stream().map(Proposal::key).toList();
    store.write(
        who,
        "accept learned " + String.join(", ", keys),
        change -> {
          for (Proposal p : proposals) {
            Optional<Stored<LearnedFactor>> before = change.learnedFactors().find(p.key());
            Optional<LearnedFactor> known =
                county.learned().all().stream().filter(f -> f.key().equals(p.key())).findFirst();
            if (!before.map(Stored::value).equals(known)) {
              throw new NotReady(
                  "'" + p.key() + "' was changed by somebody else: look again first");
            }
            LearnedFactor now = p.accepted(who, on);
            if (before.isPresent()) {
              change.learnedFactors().update(before.get(), now);
            } else {
              change.learnedFactors().insert(now);
            }
          }
        });
  }

  /**
   * Takes factors out of force.
   *
   * @throws NotReady when one is not in force
   */
  public static void release(Store store, String who, List<String> keys) {
    store.write(
        who,
        "release learned " + String.join(", ", keys),
        change -> {
          for (String key : keys) {
            Stored<LearnedFactor> row =
                change
                    .learnedFactors()
                    .find(key)
                    .orElseThrow(() -> new NotReady("no factor '" + key + "' is in force"));
            change.learnedFactors().delete(row);
          }
        });
  }
}
