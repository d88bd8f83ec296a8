package lanemend.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import lanemend.crewdays.Assignment;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.network.CalibrationPost;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.Route;

/**
 * Writes all kinds of edits into a store without end, to be killed. Before each commit it says what
 * the store will hold then, and after it that it is done.
 */
final class WritingChild {
  private static final int MOST_DEFECTS = 900;
  private static final List<String> TABLES =
      Tables.ALL.stream()
          .filter(t -> t.logged() || t.equals(Tables.IMPORT_RUN))
          .map(Table::name)
          .toList();

  private final Store store;
  private final Path folder;
  private final long seed;
  private final Random random;
  private final Invented invented;

  private WritingChild(Store store, Path folder, long seed) {
    this.store = store;
    this.folder = folder;
    this.seed = seed;
    this.random = new Random(seed);
    this.invented = new Invented(seed);
  }

  /** {@code FILE FOLDER SEED}: the store, and where its copies and new stores go. */
  public static void main(String[] args) {
    try (Store store = Store.open(Path.of(args[0]))) {
      say("opened 0");
      WritingChild child = new WritingChild(store, Path.of(args[1]), Long.parseLong(args[2]));
      for (int n = 1; ; n++) {
        child.next(n);
      }
    }
  }

  /** Every row, and how long the log is: what a reader can tell two moments apart by. */
  static String state(Connection connection) throws SQLException {
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery("SELECT count(*), max(edit) FROM change_log")) {
      r.next();
      return Fingerprint.of(connection, TABLES, Set.of()).sha256()
          + ","
          + r.getLong(1)
          + ","
          + r.getLong(2);
    }
  }

  private static void say(String line) {
    System.out.println(line);
    System.out.flush();
  }

  private void next(int n) {
    int kind = random.nextInt(27);
    if (kind == 0) {
      StoreBackup.copy(store.file(), folder.resolve("copy-" + seed + "-" + n + ".gpkg"));
    } else if (kind == 1) {
      Store.create(folder.resolve("new-" + seed + "-" + n + ".gpkg"), Invented.Utm15.CRS).close();
    } else {
      store.write(
          "child",
          "edit " + n,
          change -> {
            say("begun " + n);
            edit(change, n, kind);
            change
                .session()
                .run(
                    () -> {
                      say("state " + n + " " + state(change.session().connection()));
                      return null;
                    });
          });
      say("done " + n);
    }
  }

  private void edit(Change change, int n, int kind) {
    switch (kind % 9) {
      case 0 -> road(change, n);
      case 1 -> posts(change);
      case 2, 3 -> importDefects(change, n);
      case 4 -> plan(change);
      case 5 -> decisions(change);
      case 6 -> facts(change, n);
      case 7 -> undo(change);
      default -> fewDefects(change, n);
    }
  }

  /** Takes the write before back, whatever it was. */
  private static void undo(Change change) {
    long last =
        change
            .session()
            .run(
                () -> {
                  try (ResultSet r =
                      change
                          .session()
                          .statement("SELECT max(edit) FROM change_log")
                          .executeQuery()) {
                    r.next();
                    return r.getLong(1);
                  }
                });
    if (last > 1) {
      Undo.of(change, last);
    }
  }

  private void road(Change change, int n) {
    Route made = invented.route("K " + seed + "-" + n, 2000, n % 3 == 0, n % 2 == 0);
    change.addRoute(made);
  }

  private void posts(Change change) {
    List<Route> routes = List.copyOf(change.soFar().network().routes().values());
    for (int i = 0; i < 3; i++) {
      Route r = routes.get(random.nextInt(routes.size()));
      double from = random.nextInt(40);
      List<CalibrationPost> posts =
          List.of(
              CalibrationPost.at(0, from),
              CalibrationPost.at(r.lengthM() / 3, from + r.lengthM() / 5000),
              CalibrationPost.at(r.lengthM(), from + r.lengthM() / 1600));
      change.updateRoute(
          change.soFar().route(r.id()).orElseThrow(),
          new Route(
              r.id(),
              r.name(),
              r.direction(),
              r.roadClass(),
              r.parts(),
              PiecewiseMileposts.of(posts, r.lengthM()),
              r.edition()));
    }
  }

  private void importDefects(Change change, int n) {
    Network network = change.soFar().network();
    int rows = 30 + random.nextInt(200);
    change.defects().insertAll(invented.defects(network, "D" + seed + "-" + n + "-", rows));
    change.recordImport(new ImportRun("defects", "d" + n + ".csv", rows, rows, List.of()));
  }

  private static Set<String> bound(Change change) {
    Set<String> bound = new HashSet<>();
    change.held().all().forEach(h -> bound.add(h.defectId()));
    change
        .soFar()
        .assignment()
        .days()
        .forEach(d -> d.zones().forEach(z -> bound.addAll(z.defectIds())));
    return bound;
  }

  private void plan(Change change) {
    List<Assignment.Zone> zones = new ArrayList<>();
    Set<String> held = new HashSet<>();
    change.held().all().forEach(h -> held.add(h.defectId()));
    for (Stored<Defect> row : change.defects().stored()) {
      Defect d = row.value();
      if (zones.size() < 25 && random.nextInt(6) == 0 && !held.contains(d.id())) {
        zones.add(new Assignment.Zone(d.place().routeId(), List.of(d.id())));
        change.defects().update(row, d.withStatus(DefectStatus.PLANNED));
      }
    }
    LocalDate day = LocalDate.of(2026, 6, 1 + random.nextInt(28));
    change.replaceAssignment(
        new Assignment(List.of(new Assignment.Day(day, "north", "P1", 2, zones))));
  }

  private void decisions(Change change) {
    change.held().deleteAll();
    change.decisions().deleteAll();
    change.decisions().insertAll(invented.decisions(change.soFar().network()));
    String section = change.decisions().all().get(0).decision().sectionId();
    Set<String> bound = bound(change);
    change.defects().stored().stream()
        .filter(d -> !bound.contains(d.value().id()))
        .limit(5)
        .forEach(
            row -> {
              change.held().insert(new HeldDefect(row.value().id(), section, "overlaid in 2027"));
              change
                  .defects()
                  .update(row, row.value().withStatus(DefectStatus.DEFERRED_TO_OVERLAY));
            });
  }

  private void facts(Change change, int n) {
    change.attributes().deleteAll();
    change.attributes().insertAll(invented.attributes(change.soFar().network(), 4));
    change.putSetting("agency", "{\"n\":" + n + "}");
  }

  /** Reports work done, and takes rows out while there are many. */
  private void fewDefects(Change change, int n) {
    Set<String> bound = bound(change);
    List<Stored<Defect>> all = change.defects().stored();
    int many = Math.max(10, all.size() - MOST_DEFECTS);
    for (Stored<Defect> row : all) {
      if (many > 0 && !bound.contains(row.value().id()) && random.nextInt(2) == 0) {
        many--;
        if (all.size() > MOST_DEFECTS) {
          change.defects().delete(row);
        } else {
          change.defects().update(row, row.value().withStatus(DefectStatus.DONE));
        }
      }
    }
    change.putSetting("last", String.valueOf(n));
  }
}
