package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HexFormat;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.network.Network;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.io.ParseException;

class ChangeLogTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  @TempDir Path folder;
  private Path file;
  private Defect defect;

  @BeforeEach
  void aStoreWithOneDefect() {
    file = folder.resolve("a.gpkg");
    Invented invented = new Invented(11);
    Network network = invented.network(1, 3000, 0);
    defect = invented.defects(network, 1).get(0);
    try (Store store = Store.create(file, Invented.Utm15.CRS)) {
      store.write(
          "ann",
          "import d.csv",
          c -> {
            c.addNetwork(network);
            c.defects().insert(defect);
          });
    }
  }

  @Test
  void everyChangeOfARowIsLoggedWithBeforeAndAfter() throws IOException, ParseException {
    try (Store store = Store.open(file)) {
      Stored<Defect> read = store.read(s -> s.defects().find("D-1")).orElseThrow();
      store.write(
          "ben",
          "crew reported",
          c -> c.defects().update(read, StoreTest.with(defect, DefectStatus.DONE)));
      Stored<Defect> now = store.read(s -> s.defects().find("D-1")).orElseThrow();
      store.write("ann", "typed by mistake", c -> c.defects().delete(now));

      List<LoggedChange> history = store.read(s -> s.history("defect", "D-1"));

      assertEquals(
          List.of("insert", "update", "delete"),
          history.stream().map(LoggedChange::action).toList());
      assertEquals(List.of("ann", "ben", "ann"), history.stream().map(LoggedChange::who).toList());
      assertEquals("crew reported", history.get(1).why());
      assertEquals(List.of(1L, 2L, 3L), history.stream().map(LoggedChange::edit).toList());
      assertNull(history.get(0).before());
      assertNull(history.get(2).after());
      JsonNode before = JSON.readTree(history.get(1).before());
      JsonNode after = JSON.readTree(history.get(1).after());
      assertEquals("open", before.get("status").asText());
      assertEquals("done", after.get("status").asText());
      assertEquals(1, before.get("version").asLong());
      assertEquals(2, after.get("version").asLong());
      // To the last bit, or an undo would shift the defect.
      assertEquals(defect.lengthM(), before.get("length_m").asDouble());
      assertEquals(defect.place().fromAlongM(), before.get("from_along_m").asDouble());
      Envelope drawn = GeoBlob.bounds(HexFormat.of().parseHex(before.get("geom").asText()));
      assertEquals(defect.place().x(), drawn.getMinX());
      assertTrue(before.get("cost") == null);
    }
  }

  @Test
  void whatAnotherProgramChangesIsLoggedAndMakesOurReadingStale() throws Exception {
    Stored<Defect> read;
    try (Store store = Store.open(file)) {
      read = store.read(s -> s.defects().find("D-1")).orElseThrow();
    }
    try (Connection c = anotherProgram();
        Statement s = c.createStatement()) {
      s.execute("UPDATE defect SET note = 'seen in the GIS' WHERE id = 'D-1'");
    }
    try (Store store = Store.open(file)) {
      Stored<Defect> now = store.read(s -> s.defects().find("D-1")).orElseThrow();
      assertEquals("seen in the GIS", now.value().note());
      assertEquals(2, now.version());
      LoggedChange last = store.read(s -> s.history("defect", "D-1")).get(1);
      assertEquals("another program", last.who());
      assertEquals(0, last.edit());
      assertThrows(
          StaleRowException.class,
          () -> store.write("ann", "status", c -> c.defects().update(read, defect)));
      assertEquals(List.of(), StoreCheck.check(store));
    }
  }

  /** A writer that knows the standard (its R-tree triggers call ST_IsEmpty) but not Lanemend. */
  private Connection anotherProgram() throws SQLException {
    Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
    SpatialFunctions.addTo(c);
    return c;
  }

  @Test
  void aValueNoReaderUnderstandsIsRefusedWhereItIsWritten() throws Exception {
    try (Connection c = anotherProgram();
        Statement s = c.createStatement()) {
      for (String odd :
          List.of(
              "kind = 'hole'",
              "lane = 'middle'",
              "found_on = '2026-02-30'",
              "found_on = 'yesterday'",
              "length_m = 'long'",
              "length_m = NULL",
              "from_along_m = 1e308 * 10",
              "to_along_m = from_along_m - 1")) {
        SQLException refused =
            assertThrows(
                SQLException.class,
                () -> s.execute("UPDATE defect SET " + odd + " WHERE id = 'D-1'"),
                odd);
        assertTrue(refused.getMessage().contains("SQLITE_CONSTRAINT_"), refused.getMessage());
      }
    }
  }
}
