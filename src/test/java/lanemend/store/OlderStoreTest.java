package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.ResultSet;
import java.time.LocalDate;
import java.util.List;
import java.util.zip.GZIPInputStream;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.learning.DoneRepair;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.network.Route;
import lanemend.patching.LearnedFactor;
import lanemend.patching.Treatment;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that earlier versions of this program wrote; one of each is kept with the tests. */
class OlderStoreTest {
  @TempDir Path folder;

  /** The file holds {@link Filled} as version 1 of the layout had it. */
  @Test
  void aStoreOfVersionOneOpensWithAllItsRowsAndTakesWhatVersionTwoKnows() throws IOException {
    Path file = kept("version-1.gpkg");
    // given a store of the first version, when it is opened
    try (Store store = Store.open(file)) {
      // then its rows are there
      store.read(
          s -> {
            assertEquals(Filled.ROUTES, s.network().routes().size());
            assertEquals(Filled.DEFECTS, s.defects().all().size());
            assertEquals(4, s.decisions().all().size());
            assertEquals(80, s.patches().all().size());
            return null;
          });
      Assignment plan = store.read(Snapshot::assignment);
      assertEquals(1, plan.defectIds().size());
      assertEquals(List.of(), StoreCheck.check(store));
      // and what version 2 brought is taken: a stretch put on the list by hand, a repair in parts
      Route road = store.read(s -> s.network().routes().values()).iterator().next();
      Assignment.Day day = plan.days().get(0);
      Assignment.Zone zone = day.zones().get(0);
      String id = zone.defectIds().get(0);
      Assignment inParts =
          new Assignment(
              List.of(
                  dayWith(day, day.date(), zone, id + "#1/2"),
                  dayWith(day, day.date().plusDays(1), zone, id + "#2/2")));
      store.write(
          "ann",
          "second version",
          c -> {
            c.decisions().insert(added(road.id()));
            c.replaceAssignment(inParts);
          });
      assertEquals(inParts, store.read(Snapshot::assignment));
      assertEquals(List.of(), StoreCheck.check(store));
    }
    // and it is so when it is opened again
    try (Store store = Store.open(file)) {
      assertEquals(5, store.read(s -> s.decisions().all()).size());
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  /** The file holds {@link Filled} as version 2 had it, with the planned repair in two parts. */
  @Test
  void aStoreOfVersionTwoKeepsItsRepairInPartsAndTakesPhotos() throws IOException {
    Path file = kept("version-2.gpkg");
    try (Store store = Store.open(file)) {
      Assignment plan = store.read(Snapshot::assignment);
      assertEquals(2, plan.days().size());
      assertTrue(plan.days().get(1).zones().get(0).defectIds().get(0).endsWith("#2/2"));
      assertEquals(Filled.DEFECTS, store.read(s -> s.defects().all()).size());
      assertEquals(List.of(), StoreCheck.check(store));
      // what version 3 brought is there
      assertEquals(
          4,
          store.<Integer>inSession(
              s ->
                  s.run(
                      () -> {
                        String sql =
                            "SELECT count(*) FROM gpkg_contents WHERE table_name IN ('photo',"
                                + " 'photo_content', 'field_entry', 'entry_received')";
                        try (ResultSet r = s.statement(sql).executeQuery()) {
                          r.next();
                          return r.getInt(1);
                        }
                      })));
      // and the writes of before can still be taken back: the plan is whole again
      long inParts =
          store.read(Snapshot::writes).stream().mapToLong(WriteDone::edit).max().orElseThrow();
      store.undo(inParts, "ann");
      assertEquals(1, store.read(Snapshot::assignment).days().size());
    }
    try (Store store = Store.open(file)) {
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  /** The file holds {@link Filled} as version 3 had it. */
  @Test
  void aStoreOfVersionThreeTakesWhatWasPlannedAndLearned() throws IOException {
    Path file = kept("version-3.gpkg");
    LearnedFactor factor =
        new LearnedFactor(
            LearnedFactor.Measure.MINUTES,
            Treatment.BLADE_PATCH,
            "north",
            1.12,
            1.02,
            1.23,
            31,
            "ann",
            LocalDate.of(2026, 5, 4));
    PlannedWork planned;
    try (Store store = Store.open(file)) {
      assertEquals(Filled.DEFECTS, store.read(s -> s.defects().all()).size());
      assertEquals(List.of(), StoreCheck.check(store));
      String patch = store.read(s -> s.patches().all()).get(0).id();
      planned =
          new PlannedWork(
              patch,
              "north",
              new DoneRepair.Planned(
                  DoneRepair.Basis.SHEET,
                  LocalDate.of(2026, 5, 4),
                  2.5,
                  48.0,
                  1,
                  1.12,
                  940.0,
                  1,
                  315.0,
                  null));
      store.write(
          "ann",
          "learned",
          c -> {
            c.plannedWork().insert(planned);
            c.learnedFactors().insert(factor);
          });
    }
    try (Store store = Store.open(file)) {
      assertEquals(List.of(planned), store.read(s -> s.plannedWork().all()));
      assertEquals(List.of(factor), store.read(s -> s.learnedFactors().all()));
      assertEquals(
          factor, store.read(s -> s.learnedFactors().find(factor.key())).orElseThrow().value());
      assertEquals(List.of(), StoreCheck.check(store));
      // and it can be taken back
      store.undo(store.read(Snapshot::writes).size(), "ann");
      assertEquals(List.of(), store.read(s -> s.learnedFactors().all()));
    }
  }

  private Path kept(String name) throws IOException {
    Path file = folder.resolve(name);
    try (InputStream kept = getClass().getResourceAsStream(name + ".gz");
        InputStream plain = new GZIPInputStream(kept)) {
      Files.copy(plain, file);
    }
    return file;
  }

  private static Assignment.Day dayWith(
      Assignment.Day like, LocalDate on, Assignment.Zone zone, String repair) {
    return new Assignment.Day(
        on,
        like.crewId(),
        like.plantId(),
        like.trucks(),
        List.of(new Assignment.Zone(zone.routeId(), List.of(repair))));
  }

  private static DecidedSection added(String route) {
    return new DecidedSection(
        route,
        new EngineerDecision(
            "by hand",
            EngineerDecision.Kind.ADDED,
            4_500,
            5_000,
            0,
            "water stands here",
            "ann",
            LocalDate.of(2026, 5, 4)),
        0);
  }
}
