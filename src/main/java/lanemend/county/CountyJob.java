package lanemend.county;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRules;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import lanemend.patching.ChosenTreatment;
import lanemend.store.DayView;
import lanemend.store.HeldDefect;
import lanemend.store.Snapshot;
import lanemend.store.Stored;

/**
 * Defects and the plan: what changes all day.
 *
 * @param lastChange the change log's last line when this was read
 */
record CountyJob(
    long lastChange,
    List<Stored<Defect>> defectRows,
    List<Defect> defects,
    Assignment assignment,
    Assignment assignmentBefore,
    List<HeldDefect> held,
    Map<String, ChosenTreatment> chosen,
    HandRules handRules) {

  /** More rows than this are read again together sooner than one by one. */
  private static final int FEW = 500;

  static final Set<String> TABLES =
      Set.of(
          "defect",
          "crew_day",
          "work_zone",
          "zone_repair",
          "held_defect",
          "chosen_treatment",
          "hand_rule",
          "plan_before",
          // Read when asked for; no figure depends on them.
          "photo",
          "field_entry");

  static CountyJob read(Snapshot store, DayView view, boolean past) {
    return of(store, past ? view.defectRowsKnown() : view.defectRows(), null);
  }

  /**
   * @param same the values of the rows, where they are at hand
   */
  private static CountyJob of(Snapshot store, List<Stored<Defect>> rows, List<Defect> same) {
    return new CountyJob(
        store.lastChange(),
        rows,
        same == null ? rows.stream().map(Stored::value).toList() : same,
        store.assignment(),
        store.assignmentBefore(),
        store.held().all(),
        store.chosenTreatments().all().stream()
            .collect(Collectors.toUnmodifiableMap(ChosenTreatment::defectId, c -> c)),
        new HandRules(store.handRules().all()));
  }

  /** Whether nothing else was written, and few enough defects to read one by one. */
  static boolean coverAll(Map<String, Set<String>> touched) {
    return touched.entrySet().stream()
            .allMatch(
                t ->
                    TABLES.contains(t.getKey())
                        || CountyRecords.WORK_DONE.contains(t.getKey())
                        || isProofOnly(t.getKey(), t.getValue()))
        && touched.getOrDefault("defect", Set.of()).size() <= FEW;
  }

  /** What is proven of a plan goes with each change of it, and no figure depends on it. */
  private static boolean isProofOnly(String table, Set<String> keys) {
    return table.equals("setting") && keys.equals(Set.of(KeptProof.SETTING));
  }

  /** What was written since read again; defects on these roads only. */
  CountyJob again(Snapshot store, Network network, Map<String, Set<String>> touched) {
    Set<String> keys = touched.getOrDefault("defect", Set.of());
    if (keys.isEmpty()) {
      return of(store, defectRows, defects);
    }
    List<Stored<Defect>> now = new ArrayList<>(defectRows);
    now.removeIf(row -> keys.contains(row.value().id()));
    for (String key : keys) {
      store
          .defects()
          .find(key)
          .filter(row -> network.route(row.value().place().routeId()).isPresent())
          .ifPresent(now::add);
    }
    now.sort(Comparator.comparingLong(Stored::row));
    return of(store, now, null);
  }
}
