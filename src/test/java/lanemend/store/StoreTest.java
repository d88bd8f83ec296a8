package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttribute;
import lanemend.network.CenterlinePart;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.Route;
import lanemend.renewal.DecidedSection;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StoreTest {
  @TempDir Path folder;

  @Test
  void whatIsWrittenIsReadBackEqual() {
    Path file = folder.resolve("county.gpkg");
    Invented invented = new Invented(1);
    Network network = invented.network(8, 6000, 4);
    List<Defect> defects = invented.defects(network, 300);
    List<Finding> findings = invented.findings(network, 60);
    List<PastPatch> patches = invented.patches(network, 200);
    List<RoadAttribute> attributes = invented.attributes(network, 5);
    List<DecidedSection> decisions = invented.decisions(network);
    HeldDefect held =
        new HeldDefect("D-1", decisions.get(0).decision().sectionId(), "overlaid in 2027");
    try (Store store = Store.create(file, Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "first import",
          change -> {
            change.addNetwork(network);
            change.defects().insertAll(defects);
            change.findings().insertAll(findings);
            change.patches().insertAll(patches);
            change.attributes().insertAll(attributes);
            change.decisions().insertAll(decisions);
            change.held().insert(held);
            change.putSetting("agency", "{\"name\":\"Invented County\"}");
            change.recordImport(
                new ImportRun("defects", "d.csv", 302, 300, List.of("d.csv:7 kind: ...", "x")));
          });
    }

    try (Store store = Store.open(file)) {
      assertEquals(Invented.Utm15.CRS.wkt(), store.crsWkt());
      Network back = store.read(Snapshot::network);
      assertSameRoads(network, back);
      store.read(
          s -> {
            assertEquals(defects, s.defects().all());
            assertEquals(findings, s.findings().all());
            assertEquals(patches, s.patches().all());
            assertEquals(attributes, s.attributes().all());
            assertEquals(decisions, s.decisions().all());
            assertEquals(List.of(held), s.held().all());
            assertEquals("{\"name\":\"Invented County\"}", s.setting("agency").orElseThrow());
            assertEquals(
                List.of(
                    new ImportRun("defects", "d.csv", 302, 300, List.of("d.csv:7 kind: ...", "x"))),
                s.imports());
            return null;
          });
      // The one thing wrong is that the held defect still stands as open.
      assertEquals(
          List.of("defect 'D-1' waits for an overlay but is open"), StoreCheck.check(store));
    }
    // Closed, the store is one file: nothing is left beside it.
    assertFalse(Files.exists(folder.resolve("county.gpkg-wal")));
  }

  private static void assertSameRoads(Network wanted, Network found) {
    assertEquals(List.copyOf(wanted.routes().keySet()), List.copyOf(found.routes().keySet()));
    for (Route w : wanted.routes().values()) {
      Route f = found.route(w.id()).orElseThrow();
      assertEquals(w.name(), f.name());
      assertEquals(w.roadClass(), f.roadClass());
      assertEquals(w.edition(), f.edition());
      assertEquals(w.mileposts().posts(), f.mileposts().posts());
      assertEquals(w.mileposts().calibrated(), f.mileposts().calibrated());
      assertEquals(
          w.mileposts().at(w.lengthM() / 3).text(), f.mileposts().at(w.lengthM() / 3).text());
      assertEquals(w.parts().size(), f.parts().size());
      for (int i = 0; i < w.parts().size(); i++) {
        assertArrayEquals(numbers(w.parts().get(i)), numbers(f.parts().get(i)));
      }
    }
    assertEquals(wanted.connectors().size(), found.connectors().size());
    for (int i = 0; i < wanted.connectors().size(); i++) {
      assertEquals(wanted.connectors().get(i).id(), found.connectors().get(i).id());
      assertEquals(wanted.connectors().get(i).name(), found.connectors().get(i).name());
      assertArrayEquals(
          numbers(wanted.connectors().get(i).line()), numbers(found.connectors().get(i).line()));
    }
  }

  private static double[] numbers(CenterlinePart p) {
    double[] all = new double[3 * p.size()];
    for (int i = 0; i < p.size(); i++) {
      all[3 * i] = p.x(i);
      all[3 * i + 1] = p.y(i);
      all[3 * i + 2] = p.along(i);
    }
    return all;
  }

  @Test
  void aRoadWhoseMilepostsAreOnlyWorkedOutStaysUncalibrated() {
    Network network = new Invented(9).network(1, 3000, 0);
    Route calibrated = network.routes().values().iterator().next();
    Route derived =
        withMileposts(
            calibrated,
            PiecewiseMileposts.derived(
                calibrated.mileposts().posts(), calibrated.lengthM(), false));
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "", c -> c.addRoute(derived));
      Route back = store.read(s -> s.route(derived.id())).orElseThrow().value();
      assertFalse(back.mileposts().calibrated());
      assertEquals(calibrated.mileposts().posts(), back.mileposts().posts());
    }
  }

  private static long count(Store store) {
    return store.read(s -> s.defects().count());
  }

  private static Route withMileposts(Route r, lanemend.network.MilepostMap map) {
    return new Route(r.id(), r.name(), r.direction(), r.roadClass(), r.parts(), map, r.edition());
  }

  @Test
  void aWriteThatThrowsLeavesNothing() {
    Invented invented = new Invented(2);
    Network network = invented.network(2, 3000, 0);
    List<Defect> defects = invented.defects(network, 10);
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));

      StoreException twice =
          assertThrows(
              StoreException.class,
              () ->
                  store.write(
                      "ann",
                      "defects",
                      c -> {
                        c.defects().insertAll(defects);
                        c.defects().insert(defects.get(3));
                      }));
      assertEquals("defect 'D-4' is already in the store", twice.getMessage());

      IllegalStateException own =
          assertThrows(
              IllegalStateException.class,
              () ->
                  store.write(
                      "ann",
                      "defects",
                      c -> {
                        c.defects().insertAll(defects);
                        throw new IllegalStateException("the caller's own");
                      }));
      assertEquals("the caller's own", own.getMessage());

      assertEquals(0, count(store));
      assertEquals(List.of(), store.read(s -> s.history("defect", "D-4")));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void aFailedRowUndoesTheWriteEvenWhenItsExceptionIsSwallowed() {
    Invented invented = new Invented(2);
    Network network = invented.network(2, 3000, 0);
    List<Defect> defects = invented.defects(network, 3);
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      assertThrows(
          StoreException.class,
          () ->
              store.write(
                  "ann",
                  "defects",
                  c -> {
                    c.defects().insertAll(defects);
                    assertThrows(StoreException.class, () -> c.defects().insert(defects.get(0)));
                  }));
      assertEquals(0, count(store));
    }
  }

  @Test
  void aRowChangedBySomebodyElseIsNotOverwritten() {
    Invented invented = new Invented(3);
    Network network = invented.network(1, 3000, 0);
    Defect defect = invented.defects(network, 1).get(0);
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "import",
          c -> {
            c.addNetwork(network);
            c.defects().insert(defect);
          });
      Stored<Defect> annsView = store.read(s -> s.defects().find("D-1")).orElseThrow();
      Stored<Defect> benjaminsView = annsView;

      store.write(
          "ann", "done", c -> c.defects().update(annsView, with(defect, DefectStatus.DONE)));

      StaleRowException stale =
          assertThrows(
              StaleRowException.class,
              () ->
                  store.write(
                      "ben",
                      "withdrawn",
                      c ->
                          c.defects().update(benjaminsView, with(defect, DefectStatus.WITHDRAWN))));
      assertEquals(1, stale.expected());
      assertEquals(2, stale.found());
      assertEquals(
          "defect 'D-1' was changed by somebody else since it was read: expected version 1, found"
              + " version 2",
          stale.getMessage());
      Stored<Defect> now = store.read(s -> s.defects().find("D-1")).orElseThrow();
      assertEquals(DefectStatus.DONE, now.value().status());

      store.write("ann", "typed by mistake", c -> c.defects().delete(now));
      StaleRowException gone =
          assertThrows(
              StaleRowException.class,
              () -> store.write("ben", "late", c -> c.defects().delete(now)));
      assertEquals(
          "defect 'D-1' was removed by somebody else since it was read", gone.getMessage());
    }
  }

  static Defect with(Defect d, DefectStatus status) {
    return new Defect(
        d.id(),
        d.kind(),
        d.severity(),
        d.place(),
        d.lane(),
        d.lengthM(),
        d.widthM(),
        d.depthM(),
        d.foundOn(),
        d.foundBy(),
        d.photo(),
        status,
        d.note());
  }

  @Test
  void aPlanIsKeptWithItsDaysZonesAndRepairs() {
    Invented invented = new Invented(4);
    Network network = invented.network(1, 5000, 0);
    List<Defect> defects = invented.defects(network, 5);
    String route = network.routes().keySet().iterator().next();
    Assignment plan =
        new Assignment(
            List.of(
                new Assignment.Day(
                    LocalDate.of(2026, 6, 1),
                    "north",
                    "plant-1",
                    3,
                    List.of(
                        new Assignment.Zone(route, List.of("D-2", "D-1")),
                        new Assignment.Zone(route, List.of("D-3")))),
                new Assignment.Day(
                    LocalDate.of(2026, 6, 2),
                    "south",
                    "",
                    0,
                    List.of(new Assignment.Zone(route, List.of("D-5"))))));
    Assignment smaller = new Assignment(plan.days().subList(1, 2));
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "plan",
          c -> {
            c.addNetwork(network);
            c.defects().insertAll(defects);
            c.replacePlaces(
                List.of(new Yard("Y", "North yard", 480_500, 4_590_500)),
                List.of(new Plant("P", "Plant", 481_000, 4_591_000, null, null, 400, 6, 90, null)));
            c.replaceAssignment(plan);
          });
      assertEquals(plan, store.read(Snapshot::assignment));
      assertEquals(List.of(), StoreCheck.check(store));

      store.write("ann", "plan again", c -> c.replaceAssignment(smaller));
      assertEquals(smaller, store.read(Snapshot::assignment));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  @Test
  void aPlanThatNamesAnUnknownDefectIsRefused() {
    Network network = new Invented(4).network(1, 5000, 0);
    String route = network.routes().keySet().iterator().next();
    Assignment.Zone zone = new Assignment.Zone(route, List.of("D-99"));
    Assignment plan =
        new Assignment(
            List.of(new Assignment.Day(LocalDate.of(2026, 6, 1), "north", "", 0, List.of(zone))));
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      StoreException unknown =
          assertThrows(
              StoreException.class,
              () -> store.write("ann", "plan", c -> c.replaceAssignment(plan)));
      assertEquals("the plan names defect 'D-99', which is not in the store", unknown.getMessage());
      assertEquals(List.of(), store.read(Snapshot::assignment).days());
    }
  }

  @Test
  void aReadSeesOneMomentWhileSomebodyWrites() {
    Invented invented = new Invented(5);
    Network network = invented.network(1, 3000, 0);
    List<Defect> defects = invented.defects(network, 20);
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      store.read(
          s -> {
            assertEquals(0, s.defects().count());
            Thread other =
                new Thread(
                    () -> store.write("ben", "defects", c -> c.defects().insertAll(defects)));
            other.start();
            try {
              other.join(20_000);
            } catch (InterruptedException e) {
              throw new IllegalStateException(e);
            }
            assertFalse(other.isAlive(), "a write does not wait for a read");
            assertEquals(0, s.defects().count());
            return null;
          });
      assertEquals(20, count(store));
    }
  }

  @Test
  void recalibratingARouteReplacesItsPosts() {
    Network network = new Invented(6).network(1, 3000, 0);
    Route before = network.routes().values().iterator().next();
    Route now = withMileposts(before, PiecewiseMileposts.uncalibrated(before.lengthM()));
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      Stored<Route> read = store.read(s -> s.route(before.id())).orElseThrow();
      store.write("ann", "posts were wrong", c -> c.updateRoute(read, now));
      Route back = store.read(s -> s.route(before.id())).orElseThrow().value();
      assertTrue(back.mileposts().posts().isEmpty());
      assertThrows(
          StaleRowException.class,
          () -> store.write("ben", "posts", c -> c.updateRoute(read, before)));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }
}
