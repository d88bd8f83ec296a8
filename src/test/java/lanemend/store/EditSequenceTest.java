package lanemend.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.LongStream;
import lanemend.inventory.Defect;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.edit.EventFate;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.edit.EditKind;
import lanemend.network.edit.RoadEdit;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Random edits of random roads, one a day: nothing is lost, and each can be taken back. */
class EditSequenceTest {
  private static final LocalDate FIRST = LocalDate.of(2027, 1, 1);
  private static final int EDITS = 8;

  @TempDir Path folder;

  /** {@code -Dlanemend.edits=200} tries more roads. */
  static LongStream seeds() {
    return LongStream.rangeClosed(1, Integer.getInteger("lanemend.edits", 6));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void afterAnyEditsEveryEventIsOnItsRoadOrOnTheReviewListAndUndoRestoresEveryRow(long seed)
      throws SQLException {
    Path file = folder.resolve("a.gpkg");
    RandomEdits random = new RandomEdits(seed);
    try (Store store = Store.create(file, Invented.Utm15.CRS)) {
      fill(store, seed);
      assertEquals(List.of(), StoreCheck.check(store));
      Set<EditKind> made = new TreeSet<>();
      for (int i = 0; i < EDITS; i++) {
        LocalDate on = FIRST.plusDays(i);
        RoadEdit edit = store.read(s -> random.next(s, on));
        made.add(edit.kind());
        Map<String, List<String>> before = TableDump.of(file);
        List<String> seen = store.read(s -> seen(s.onDay(on.minusDays(1))));
        List<EventFate> foreseen = store.read(s -> s.foresee(edit));
        List<EventFate> fates = new ArrayList<>();
        store.write("ann", edit.what(), c -> fates.addAll(c.edit(edit)));
        Map<String, List<String>> after = TableDump.of(file);
        String about = "seed " + seed + ", edit " + i + ": " + edit.what();

        // a try says what the edit then does
        assertEquals(foreseen, fates, about);
        // every event is on its road or on the review list, and the store hangs together
        assertEquals(List.of(), StoreCheck.check(store), about);
        assertEquals(List.of(), lost(store), about);
        assertEquals(count(before, "defect"), count(after, "defect"), about);
        assertEquals(count(before, "finding"), count(after, "finding"), about);
        assertEquals(count(before, "patch"), count(after, "patch"), about);
        // the day before the edit looks as it did
        assertEquals(seen, store.read(s -> seen(s.onDay(on.minusDays(1)))), about);

        // undo restores every row, and so does undoing the undo
        long number = last(store);
        store.undo(number, "ben");
        assertSame(before, TableDump.of(file), about + ", undone");
        assertEquals(List.of(), StoreCheck.check(store), about + ", undone");
        store.undo(last(store), "ben");
        assertSame(after, TableDump.of(file), about + ", done again");
      }
      assertTrue(made.size() >= 3, "kinds tried: " + made);
    }
  }

  private static void fill(Store store, long seed) {
    Invented invented = new Invented(seed);
    Network network = invented.network(4, 4000, 1);
    store.write(
        "ann",
        "import",
        c -> {
          c.addNetwork(network);
          c.defects().insertAll(invented.defects(network, 60));
          c.findings().insertAll(invented.findings(network, 20));
          c.patches().insertAll(invented.patches(network, 40));
          c.attributes().insertAll(invented.attributes(network, 5));
          c.decisions().insertAll(invented.decisions(network));
          network.routes().values().forEach(r -> c.layers().insertAll(layers(r)));
        });
  }

  /** Cores every 400 m. */
  private static List<PavementLayer> layers(Route r) {
    List<PavementLayer> layers = new ArrayList<>();
    for (double at = 0; at + 400 < r.lengthM(); at += 400) {
      layers.add(
          new PavementLayer(
              r.id() + " " + at,
              r.id(),
              at,
              at + 400,
              PavementLayer.Course.ASPHALT,
              0.1,
              2010,
              PavementLayer.Source.CORE));
    }
    return layers;
  }

  private static long last(Store store) {
    List<WriteDone> writes = store.read(s -> s.writes());
    return writes.get(writes.size() - 1).edit();
  }

  private static int count(Map<String, List<String>> dump, String table) {
    return dump.get(table).size();
  }

  private static void assertSame(
      Map<String, List<String>> expected, Map<String, List<String>> found, String about) {
    for (String table : expected.keySet()) {
      assertEquals(expected.get(table), found.get(table), about + ": " + table);
    }
    assertEquals(expected.keySet(), found.keySet(), about);
  }

  /** Open defects and findings that are neither on a road of today nor on the review list. */
  private static List<String> lost(Store store) {
    return store.read(
        s -> {
          DayView today = s.onDay(LocalDate.of(2030, 1, 1));
          Map<String, ReviewEntry> listed = new TreeMap<>();
          s.review().all().stream()
              .filter(ReviewEntry::open)
              .forEach(e -> listed.put(e.table() + " " + e.key(), e));
          List<String> lost = new ArrayList<>();
          Map<String, Defect> on = new TreeMap<>();
          today.defects().forEach(d -> on.put(d.id(), d));
          for (Defect d : s.defects().all()) {
            if (!on.containsKey(d.id()) && !listed.containsKey("defect " + d.id())) {
              lost.add(d.id());
            }
          }
          for (Defect d : on.values()) {
            Place p = d.place();
            RoadLine line = new RoadLine(today.network().route(p.routeId()).orElseThrow().parts());
            double[] at = line.at(p.middleAlongM());
            boolean on1 =
                p.fromAlongM() >= -1e-6
                    && p.toAlongM() <= line.toAlong() + 1e-6
                    && Math.hypot(at[0] - p.x(), at[1] - p.y()) < 0.01;
            if (!on1) {
              lost.add(d.id() + " off " + p.routeId());
            }
          }
          return lost;
        });
  }

  /** All that a day shows, to a hundredth of a millimetre. */
  private static List<String> seen(DayView view) {
    List<String> seen = new ArrayList<>();
    view.network()
        .routes()
        .values()
        .forEach(
            r ->
                seen.add(
                    r.id()
                        + " "
                        + r.edition().number()
                        + " "
                        + r.lengthM()
                        + r.mileposts().posts()));
    view.defects().forEach(d -> seen.add(d.id() + " " + d.lane().code() + text(d.place())));
    view.findings().forEach(f -> seen.add(f.id() + " " + f.side() + text(f.place())));
    view.patches().forEach(p -> seen.add(p.id() + " " + p.lane() + text(p.place())));
    view.attributes().stream()
        .sorted(
            Comparator.comparing(RoadAttribute::routeId)
                .thenComparing(RoadAttribute::name)
                .thenComparingDouble(RoadAttribute::fromAlongM))
        .forEach(
            a ->
                seen.add(a.routeId() + a.name() + a.value() + a.fromAlongM() + " " + a.toAlongM()));
    view.layers().forEach(l -> seen.add(l.toString()));
    view.decisions().forEach(d -> seen.add(d.routeId() + d.decision()));
    return seen;
  }

  private static String text(Place p) {
    return String.format(
        Locale.ROOT,
        " %s %.5f %.5f %.5f %.5f %s",
        p.routeId(),
        p.fromAlongM(),
        p.toAlongM(),
        p.x(),
        p.y(),
        p.entered());
  }
}
