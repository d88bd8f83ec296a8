package lanemend.web.desk;

import java.util.Optional;
import lanemend.county.County;
import lanemend.inventory.Defect;
import lanemend.store.Change;
import lanemend.store.Stored;

/** Finds a defect by its id; one that is not there is refused in the same words everywhere. */
final class DefectRows {
  private DefectRows() {}

  static Stored<Defect> of(County now, String id) {
    return there(now.defectRows().stream().filter(r -> r.value().id().equals(id)).findFirst(), id);
  }

  /** As it stands in a write. */
  static Stored<Defect> of(Change change, String id) {
    return there(change.defects().find(id), id);
  }

  private static Stored<Defect> there(Optional<Stored<Defect>> row, String id) {
    return row.orElseThrow(
        () -> new Problem(Problem.Kind.NOT_FOUND, "there is no defect '" + id + "'"));
  }
}
