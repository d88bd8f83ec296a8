package lanemend.inventory;

import java.io.IOException;
import java.io.PrintStream;
import java.io.StringReader;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import lanemend.bench.CpuTime;
import lanemend.bench.PostgresServer;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import org.postgresql.PGConnection;

/**
 * Event tables laid over each other, beside SQL that does the same in PostgreSQL 15 and DuckDB: one
 * sweep with window functions, the value of each table at each break being the one that started
 * last. Events of one table do not overlap here, so that all three must find the same pieces.
 */
public final class SegmentBench {
  private static final int TABLES = 8;
  private static final double ROUTE_M = 20_000;
  private static final int ROUNDS = 3;
  private static final int MOST_IN_SQL = 1_000_000;

  private SegmentBench() {}

  /** Prints CSV, a row for each size and program: pieces, time and processor time, beside ours. */
  public static void run(int most, PrintStream out)
      throws IOException, InterruptedException, SQLException {
    out.println("events,program,pieces,seconds,times_ours,cpu_seconds,cpu_times_ours,cpu_us_per_event");
    for (int events = 10_000; events <= most; events *= 10) {
      Roads roads = new Roads(events);
      Times ours = ours(roads);
      say(out, events, "lanemend", ours, ours);
      if (events <= MOST_IN_SQL) {
        say(out, events, "DuckDB", duckDb(roads), ours);
        say(out, events, "PostgreSQL", postgres(roads), ours);
      }
    }
  }

  /**
   * Best of the rounds.
   *
   * @param cpuSeconds of the one thread or server process that works; not of our garbage collector
   */
  private record Times(long pieces, double seconds, double cpuSeconds) {}

  private static void say(PrintStream out, int events, String who, Times t, Times ours) {
    out.printf(
        Locale.ROOT,
        "%d,%s,%d,%.3f,%.2f,%.3f,%.2f,%.3f%n",
        events,
        who,
        t.pieces(),
        t.seconds(),
        t.seconds() / ours.seconds(),
        t.cpuSeconds(),
        t.cpuSeconds() / ours.cpuSeconds(),
        1e6 * t.cpuSeconds() / events);
    out.flush();
  }

  /** Routes of 20 km with a thousand events each in eight tables, end to end with some holes. */
  private static final class Roads {
    private final Map<String, Route> routes = new LinkedHashMap<>();
    private final Map<String, List<LinearEvent>> events = new LinkedHashMap<>();
    private final List<EventTable> tables = new ArrayList<>();
    private final int count;

    Roads(int count) {
      this.count = count;
      Random random = new Random(31);
      for (int t = 0; t < TABLES; t++) {
        tables.add(EventTable.one("t" + t));
      }
      int perTable = 1000 / TABLES;
      int left = count;
      for (int r = 0; left > 0; r++) {
        String id = "R" + r;
        routes.put(id, route(id));
        List<LinearEvent> here = new ArrayList<>();
        for (int t = 0; t < TABLES; t++) {
          double at = random.nextDouble() * 50;
          for (int i = 0; i < perTable && left > 0; i++, left--) {
            double to = at + 1 + random.nextDouble() * (ROUTE_M / perTable - 20);
            here.add(new LinearEvent("t" + t, at, to, "v" + random.nextInt(6)));
            at = random.nextInt(3) == 0 ? to + random.nextDouble() * 15 : to;
          }
        }
        events.put(id, here);
      }
    }

    private static Route route(String id) {
      return new Route(
          id,
          id,
          "",
          RoadClass.COLLECTOR,
          List.of(
              new CenterlinePart(
                  new double[] {0, ROUTE_M}, new double[] {0, 0}, new double[] {0, ROUTE_M})),
          PiecewiseMileposts.uncalibrated(ROUTE_M),
          new Edition(1, LocalDate.of(2026, 1, 1), null));
    }

    String copyRows(String routeId) {
      StringBuilder rows = new StringBuilder();
      for (LinearEvent e : events.get(routeId)) {
        rows.append(routeId.substring(1))
            .append(',')
            .append(e.table().substring(1))
            .append(',')
            .append(e.fromAlongM())
            .append(',')
            .append(e.toAlongM())
            .append(',')
            .append(e.value())
            .append('\n');
      }
      return rows.toString();
    }
  }

  private static Times ours(Roads roads) {
    Network network = new Network("", roads.routes, List.of());
    double best = Double.POSITIVE_INFINITY;
    double cpu = Double.POSITIVE_INFINITY;
    long pieces = 0;
    for (int round = 0; round < ROUNDS + 2; round++) {
      long start = System.nanoTime();
      long cpuStart = CpuTime.ofThisThread();
      pieces = Segmentation.of(network, roads.tables, roads.events).segments().size();
      cpu = Math.min(cpu, (CpuTime.ofThisThread() - cpuStart) / 1e9);
      best = Math.min(best, (System.nanoTime() - start) / 1e9);
    }
    return new Times(pieces, best, cpu);
  }

  /** How a query carries a table's value on from break to break. */
  private enum Carry {
    /** Breaks numbered by value, and the one value of each number: plain SQL. */
    GROUPS("count(b%1$d) OVER w AS g%1$d", "max(b%1$d) OVER (PARTITION BY route, g%1$d)"),
    /** The running greatest of number and value in one text: one pass in PostgreSQL. */
    GREATEST("lpad(n, 9, '0') || b%1$d AS g%1$d", "substr(max(g%1$d) OVER w, 10)"),
    /** The last value that is not null, which DuckDB has. */
    LAST("b%1$d AS g%1$d", "last_value(g%1$d IGNORE NULLS) OVER w");

    private final String grouped;
    private final String held;

    Carry(String grouped, String held) {
      this.grouped = grouped;
      this.held = held;
    }
  }

  /**
   * Every table as a column: at a start its value, at an end an empty text, else as before; then
   * the breaks at which nothing changes go.
   */
  private static String sql(Carry carry) {
    List<String> values = new ArrayList<>();
    List<String> groups = new ArrayList<>();
    List<String> held = new ArrayList<>();
    List<String> changed = new ArrayList<>();
    for (int t = 0; t < TABLES; t++) {
      // At a break where one event ends and another starts, the start is what holds.
      values.add("max(CASE WHEN tab = %1$d THEN coalesce(value, '') END) AS b%1$d".formatted(t));
      groups.add(("b%1$d, " + carry.grouped).formatted(t));
      held.add(("nullif(" + carry.held + ", '') AS v%1$d").formatted(t));
      changed.add("v%1$d IS DISTINCT FROM lag(v%1$d) OVER w".formatted(t));
    }
    String window =
        " WINDOW w AS (PARTITION BY route ORDER BY place ROWS BETWEEN UNBOUNDED PRECEDING AND"
            + " CURRENT ROW)";
    return "WITH ends AS ("
        + "SELECT route, from_m AS place, tab, value FROM event"
        + " UNION ALL SELECT route, to_m, tab, NULL FROM event"
        + " UNION ALL SELECT DISTINCT route, 0.0::float8, -1, NULL FROM event"
        + (" UNION ALL SELECT DISTINCT route, " + ROUTE_M + "::float8, -1, NULL FROM event), ")
        + ("breaks AS (SELECT route, place, " + String.join(", ", values))
        + " FROM ends GROUP BY route, place), "
        + "numbered AS (SELECT *, CAST(row_number() OVER w AS text) AS n FROM breaks"
        + (window + "), ")
        + ("grouped AS (SELECT route, place, " + String.join(", ", groups) + " FROM numbered")
        + (window + "), ")
        + ("held AS (SELECT route, place, " + String.join(", ", held) + " FROM grouped")
        + (window + "), ")
        + ("cut AS (SELECT *, (" + String.join(" OR ", changed) + " OR lag(place) OVER w IS NULL)")
        + (" AS starts FROM held" + window + "), ")
        + "kept AS (SELECT *, lead(place) OVER (PARTITION BY route ORDER BY place) AS until"
        + (" FROM cut WHERE starts OR place = " + ROUTE_M + ")")
        + " SELECT count(*), sum(until - place), sum(length(concat("
        + "v0, v1, v2, v3, v4, v5, v6, v7))) FROM kept WHERE until IS NOT NULL";
  }

  private static Times query(Connection c, Carry carry, int events, Clock clock)
      throws SQLException {
    int rounds = events < MOST_IN_SQL ? ROUNDS : 1;
    double best = Double.POSITIVE_INFINITY;
    double cpu = Double.POSITIVE_INFINITY;
    long pieces = 0;
    for (int round = 0; round < rounds; round++) {
      long start = System.nanoTime();
      long cpuStart = clock.nanos();
      try (Statement s = c.createStatement();
          ResultSet r = s.executeQuery(sql(carry))) {
        r.next();
        pieces = r.getLong(1);
      }
      cpu = Math.min(cpu, (clock.nanos() - cpuStart) / 1e9);
      best = Math.min(best, (System.nanoTime() - start) / 1e9);
    }
    return new Times(pieces, best, cpu);
  }

  @FunctionalInterface
  private interface Clock {
    long nanos() throws SQLException;
  }

  private static Times better(Times a, Times b) {
    if (a.pieces() != b.pieces()) {
      throw new IllegalStateException("two queries found " + a + " and " + b);
    }
    return a.seconds() <= b.seconds() ? a : b;
  }

  private static Times duckDb(Roads roads) throws SQLException, IOException {
    Path csv = Files.createTempFile("lanemend-events", ".csv");
    try (Connection c = DriverManager.getConnection("jdbc:duckdb:");
        Statement s = c.createStatement()) {
      try (Writer w = Files.newBufferedWriter(csv)) {
        for (String id : roads.events.keySet()) {
          w.write(roads.copyRows(id));
        }
      }
      s.execute("SET threads = 1");
      s.execute(
          "CREATE TABLE event (route int, tab int, from_m float8, to_m float8, value text)");
      s.execute("COPY event FROM '" + csv + "' (HEADER false)");
      return better(query(c, Carry.GROUPS, roads.count, CpuTime::ofThisThread), query(c, Carry.LAST, roads.count, CpuTime::ofThisThread));
    } finally {
      Files.delete(csv);
    }
  }

  private static Times postgres(Roads roads)
      throws SQLException, IOException, InterruptedException {
    try (PostgresServer server = PostgresServer.start();
        Connection c = server.connect();
        Statement s = c.createStatement()) {
      s.execute(
          "CREATE TABLE event (route int, tab int, from_m float8, to_m float8, value text)");
      for (String id : roads.events.keySet()) {
        c.unwrap(PGConnection.class)
            .getCopyAPI()
            .copyIn("COPY event FROM STDIN (FORMAT csv)", new StringReader(roads.copyRows(id)));
      }
      s.execute("CREATE INDEX ON event (route, from_m)");
      s.execute("VACUUM ANALYZE event");
      return better(query(c, Carry.GROUPS, roads.count, () -> CpuTime.ofServer(c)), query(c, Carry.GREATEST, roads.count, () -> CpuTime.ofServer(c)));
    }
  }
}
