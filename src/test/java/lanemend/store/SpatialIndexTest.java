package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.ResultSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import lanemend.inventory.Defect;
import lanemend.inventory.Place;
import lanemend.network.Network;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;

class SpatialIndexTest {
  @TempDir Path folder;

  @Test
  void theRtreeAgreesWithTheGeometriesAfterInsertsUpdatesAndDeletes() {
    Random random = new Random(8);
    Invented invented = new Invented(8);
    Network network = invented.network(4, 5000, 0);
    List<Defect> there = new ArrayList<>();
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      for (int round = 0; round < 12; round++) {
        List<Defect> more = invented.defects(network, "R" + round + "-", 40);
        store.write(
            "ann",
            "a round of everything",
            c -> {
              c.defects().insertAll(more);
              there.addAll(more);
              for (int i = 0; i < 15; i++) {
                int which = random.nextInt(there.size());
                Stored<Defect> read = c.defects().find(there.get(which).id()).orElseThrow();
                Defect moved = at(read.value(), invented.place(network));
                c.defects().update(read, moved);
                there.set(which, moved);
              }
              for (int i = 0; i < 10; i++) {
                Defect gone = there.remove(random.nextInt(there.size()));
                c.defects().delete(c.defects().find(gone.id()).orElseThrow());
              }
            });
        assertEquals(List.of(), StoreCheck.check(store));
        assertFoundByBox(store, there, random);
      }
    }
  }

  /** One write moves or removes one defect, now in the middle of the layer, now at its edge. */
  @Test
  void theStatedExtentIsThatOfTheRowsAfterEachWrite() {
    Random random = new Random(9);
    Invented invented = new Invented(9);
    Network network = invented.network(4, 5000, 0);
    List<Defect> there = new ArrayList<>(invented.defects(network, "E-", 12));
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write("ann", "roads", c -> c.addNetwork(network));
      store.write("ann", "defects", c -> c.defects().insertAll(there));
      assertEquals(reach(there), stated(store));
      int edges = 0;
      while (there.size() > 2) {
        Envelope before = reach(there);
        int which = random.nextInt(there.size());
        if (random.nextInt(4) > 0) {
          Defect moved = at(there.get(which), invented.place(network));
          store.write(
              "ann",
              "moved",
              c -> c.defects().update(c.defects().find(moved.id()).orElseThrow(), moved));
          there.set(which, moved);
        } else {
          Defect gone = there.remove(which);
          store.write(
              "ann", "gone", c -> c.defects().delete(c.defects().find(gone.id()).orElseThrow()));
        }
        assertEquals(reach(there), stated(store));
        edges += reach(there).equals(before) ? 0 : 1;
      }
      assertTrue(edges > 5, edges + " writes touched the edge");
    }
  }

  private static Envelope reach(List<Defect> defects) {
    Envelope all = new Envelope();
    defects.forEach(d -> all.expandToInclude(d.place().x(), d.place().y()));
    return all;
  }

  private static Envelope stated(Store store) {
    String sql = "SELECT min_x, max_x, min_y, max_y FROM gpkg_contents WHERE table_name = 'defect'";
    return store.inSession(
        session ->
            session.run(
                () -> {
                  try (ResultSet r = session.statement(sql).executeQuery()) {
                    r.next();
                    return new Envelope(
                        r.getDouble(1), r.getDouble(2), r.getDouble(3), r.getDouble(4));
                  }
                }));
  }

  /** Asks the R-tree as a GIS does: bounds first, then the geometry itself. */
  private static void assertFoundByBox(Store store, List<Defect> there, Random random) {
    for (int i = 0; i < 20; i++) {
      double minX = 475_000 + random.nextDouble() * 30_000;
      double minY = 4_585_000 + random.nextDouble() * 30_000;
      double maxX = minX + random.nextDouble() * 10_000;
      double maxY = minY + random.nextDouble() * 10_000;
      TreeSet<String> wanted = new TreeSet<>();
      for (Defect d : there) {
        Place p = d.place();
        if (p.x() >= minX && p.x() <= maxX && p.y() >= minY && p.y() <= maxY) {
          wanted.add(d.id());
        }
      }
      TreeSet<String> found = new TreeSet<>();
      store.inSession(
          session ->
              session.run(
                  () -> {
                    try (ResultSet r =
                        session
                            .statement(
                                "SELECT d.id FROM rtree_defect_geom i JOIN defect d ON d.fid ="
                                    + " i.id WHERE i.maxx >= ? AND i.minx <= ? AND i.maxy >= ? AND"
                                    + " i.miny <= ? AND ST_MinX(d.geom) BETWEEN ? AND ? AND"
                                    + " ST_MinY(d.geom) BETWEEN ? AND ?",
                                minX,
                                maxX,
                                minY,
                                maxY,
                                minX,
                                maxX,
                                minY,
                                maxY)
                            .executeQuery()) {
                      while (r.next()) {
                        found.add(r.getString(1));
                      }
                    }
                    return null;
                  }));
      assertEquals(wanted, found);
    }
    assertTrue(there.size() > 20);
  }

  private static Defect at(Defect d, Place place) {
    return new Defect(
        d.id(),
        d.kind(),
        d.severity(),
        place,
        d.lane(),
        d.lengthM(),
        d.widthM(),
        d.depthM(),
        d.foundOn(),
        d.foundBy(),
        d.photo(),
        d.status(),
        d.note());
  }
}
