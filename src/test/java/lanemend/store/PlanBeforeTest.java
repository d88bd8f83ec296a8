package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.HandRule;
import lanemend.inventory.Defect;
import lanemend.network.Network;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan before this one and what is settled by hand, with repairs cut into parts. */
class PlanBeforeTest {
  private static final LocalDate MONDAY = LocalDate.of(2026, 6, 1);

  @TempDir Path folder;

  private static Assignment plan(String route, String defect, LocalDate first) {
    return new Assignment(
        List.of(
            new Assignment.Day(
                first,
                "north",
                "P1",
                2,
                List.of(new Assignment.Zone(route, List.of(defect + "#1/2")))),
            new Assignment.Day(
                first.plusDays(1),
                "north",
                "P1",
                2,
                List.of(new Assignment.Zone(route, List.of(defect + "#2/2"))))));
  }

  @Test
  void thePlanBeforeIsKeptPartByPartAndComesBackWithAnUndo() {
    Invented invented = new Invented(4);
    Network network = invented.network(1, 5000, 0);
    Defect defect = invented.defects(network, 1).get(0);
    String route = defect.place().routeId();
    Assignment one = plan(route, defect.id(), MONDAY);
    Assignment two = plan(route, defect.id(), MONDAY.plusDays(7));
    HandRule pin = HandRule.pin(defect.id() + "#1/2", "z", "north", MONDAY, "school");
    try (Store store = Store.create(folder.resolve("a.gpkg"), Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "plan",
          c -> {
            c.addNetwork(network);
            c.defects().insert(defect);
            c.replaceAssignment(one);
          });
      assertEquals(List.of(), store.read(Snapshot::assignmentBefore).days());
      store.write(
          "ann",
          "plan again",
          c -> {
            c.replaceAssignment(two);
            c.handRules().insert(pin);
          });
      assertEquals(one, store.read(Snapshot::assignmentBefore));
      assertEquals(two, store.read(Snapshot::assignment));
      assertEquals(List.of(pin), store.read(s -> s.handRules().all()));
      assertEquals(List.of(), StoreCheck.check(store));
      store.write("ann", "plan a third time", c -> c.replaceAssignment(one));
      assertEquals(two, store.read(Snapshot::assignmentBefore));
    }
  }
}
