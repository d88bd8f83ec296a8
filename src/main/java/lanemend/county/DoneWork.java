package lanemend.county;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.PastPatch;
import lanemend.patching.PatchDesign;
import lanemend.patching.RepairPart;
import lanemend.store.Change;
import lanemend.store.Photo;
import lanemend.store.Store;
import lanemend.store.Stored;

/**
 * Work that was done becomes history: a past patch where the repair was, with what was planned of
 * it, and the defect is done, all in one write. A defect repaired in parts is done when its last
 * part is.
 */
public final class DoneWork {
  private static final String ID_STEM = "done-";

  private final County county;
  private final PlanThen plan;

  /**
   * What a crew reports of one repair.
   *
   * @param repairId a waiting defect's id, or that of a part of one
   * @param tonnes placed, or null when not recorded
   * @param crewHours or null
   * @param note may be empty
   * @param photos hashes of photos whose files have arrived
   * @param crewId that did it; empty for the one it was planned for
   * @param cost in the agency's currency, or null
   */
  public record Report(
      String repairId,
      LocalDate doneOn,
      Double tonnes,
      Double crewHours,
      String note,
      List<String> photos,
      String crewId,
      BigDecimal cost) {
    public Report {
      photos = List.copyOf(photos);
    }
  }

  public DoneWork(County county) {
    this.county = county;
    plan = new PlanThen(county);
  }

  /** Id of the past patch that the record of a repair makes. */
  public static String patchId(String repairId) {
    return ID_STEM + repairId;
  }

  /** True when a past patch came from such a record, not from an import. */
  public static boolean isRecord(PastPatch patch) {
    return patch.id().startsWith(ID_STEM);
  }

  /**
   * Records repairs as done: all of them or, when one cannot be, none.
   *
   * @param beside what else belongs to the same write
   * @throws NotReady with one sentence when a repair does not wait, or is recorded already
   */
  public void record(
      Store store, String who, String why, List<Report> reports, Consumer<Change> beside) {
    // Only of these: a county has tens of thousands that wait.
    Set<String> defects =
        reports.stream().map(r -> RepairPart.defectOf(r.repairId())).collect(Collectors.toSet());
    Map<String, PatchDesign> waiting = new HashMap<>();
    county.plans().inParts(county.repairs(defects)).forEach(r -> waiting.put(r.defect().id(), r));
    for (Report report : reports) {
      if (!waiting.containsKey(report.repairId())) {
        throw new NotReady(
            RepairPart.label(report.repairId())
                + " does not wait for repair: it is done already, or was withdrawn");
      }
    }
    store.write(
        who,
        why,
        change -> {
          Set<String> patches = new HashSet<>();
          change.soFar().patches().all().forEach(p -> patches.add(p.id()));
          reports.forEach(r -> record(change, r, waiting.get(r.repairId()), patches, who));
          beside.accept(change);
        });
  }

  private void record(
      Change change, Report report, PatchDesign repair, Set<String> patches, String who) {
    String id = report.repairId();
    Stored<Defect> row = change.defects().find(RepairPart.defectOf(id)).orElseThrow();
    boolean part = RepairPart.parse(id).isPresent();
    if (!County.waits(row.value()) || (part && patches.contains(patchId(id)))) {
      throw new NotReady(RepairPart.label(id) + " was recorded by somebody else meanwhile");
    }
    String patch = free(patchId(id), patches);
    patches.add(patch);
    change
        .patches()
        .insert(
            new PastPatch(
                patch,
                repair.choice().treatment().name().toLowerCase(Locale.ROOT),
                repair.defect().place(),
                repair.defect().lane(),
                report.doneOn(),
                report.tonnes(),
                report.crewHours(),
                report.cost()));
    change.plannedWork().insert(plan.of(patch, repair, report.crewId()));
    for (String hash : report.photos()) {
      FieldPhotos.add(
          change, Photo.Of.PATCH, patch, new FieldPhotos.Taken(hash, report.doneOn(), who));
    }
    boolean whole = RepairPart.parse(id).map(p -> allParts(p, patches)).orElse(true);
    Defect noted = noted(row.value(), report);
    change.defects().update(row, whole ? noted.withStatus(DefectStatus.DONE) : noted);
  }

  /** A defect that came back after it was done has another record under the next number. */
  private static String free(String id, Set<String> taken) {
    String free = id;
    for (int n = 2; taken.contains(free); n++) {
      free = id + "-" + n;
    }
    return free;
  }

  private static boolean allParts(RepairPart part, Set<String> patches) {
    for (int n = 1; n <= part.of(); n++) {
      if (!patches.contains(patchId(new RepairPart(part.defectId(), n, part.of()).id()))) {
        return false;
      }
    }
    return true;
  }

  private static Defect noted(Defect d, Report report) {
    if (report.note().isBlank()) {
      return d;
    }
    String said = "done " + report.doneOn() + ": " + report.note().strip();
    return d.withNote(d.note().isBlank() ? said : d.note() + "; " + said);
  }

  /** The defect a record of work is of; empty for a patch that came from an import. */
  public static Optional<String> defectOf(PastPatch patch, Predicate<String> isDefect) {
    if (!isRecord(patch)) {
      return Optional.empty();
    }
    String id = RepairPart.defectOf(patch.id().substring(ID_STEM.length()));
    // A further record of the same repair has a number behind it.
    return isDefect.test(id)
        ? Optional.of(id)
        : Optional.of(id.replaceFirst("-\\d+$", "")).filter(isDefect);
  }

  /** Parts that are recorded although their defect still waits for other parts. */
  public static Set<String> partsDone(County county) {
    Set<String> waiting = new HashSet<>();
    county.defects().stream().filter(County::waits).forEach(d -> waiting.add(d.id()));
    Set<String> done = new HashSet<>();
    for (PastPatch patch : county.patches()) {
      if (isRecord(patch)) {
        RepairPart.parse(patch.id().substring(ID_STEM.length()))
            .filter(p -> waiting.contains(p.defectId()))
            .ifPresent(p -> done.add(p.id()));
      }
    }
    return done;
  }
}
