package lanemend.network;

import java.io.IOException;
import java.io.PrintStream;
import java.io.StringReader;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import lanemend.bench.CpuTime;
import lanemend.bench.PostgresServer;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;

/**
 * Points to the nearest road and the place on it, on a generated network, beside PostGIS (nearest
 * by index, then ST_LineLocatePoint) with the same lines and points; one thread each.
 */
public final class SnapBench {
  private static final double M_PER_MILE = 1609.344;
  private static final int VERTICES = 100;
  private static final double STEP_M = 100;
  private static final double OFF_ROAD_M = 15;

  /** How far ours looks; PostGIS's nearest needs no bound. */
  private static final double REACH_M = 50;

  private static final int ROUNDS = 5;

  private final Map<String, Route> routes = new LinkedHashMap<>();
  private final double[] x;
  private final double[] y;

  private SnapBench(double miles, int points) {
    Winding winding = new Winding(21);
    Random random = new Random(22);
    int count = (int) Math.ceil(miles * M_PER_MILE / (VERTICES * STEP_M));
    // As dense as a county's roads: about a kilometre of road to the square kilometre.
    double side = Math.sqrt(miles * M_PER_MILE * 1000);
    double far = 0;
    for (int i = 0; i < count; i++) {
      double x0 = 500_000 + random.nextDouble() * side;
      double y0 = 4_000_000 + random.nextDouble() * side;
      CenterlinePart line = winding.line(x0, y0, VERTICES, STEP_M);
      routes.put("R" + i, winding.route("R" + i, line));
      far += line.toAlong();
    }
    x = new double[points];
    y = new double[points];
    List<Route> all = List.copyOf(routes.values());
    for (int i = 0; i < points; i++) {
      CenterlinePart line = all.get(random.nextInt(count)).parts().get(0);
      double[] at = Piece.at(line, random.nextDouble() * far / count);
      x[i] = at[0] + (random.nextDouble() - 0.5) * 2 * OFF_ROAD_M;
      y[i] = at[1] + (random.nextDouble() - 0.5) * 2 * OFF_ROAD_M;
    }
  }

  /**
   * Prints CSV, a row for each way of snapping: processor microseconds a point (best of the rounds), how much
   * longer than ours, and how often the same road was found.
   */
  public static void run(double miles, int points, PrintStream out)
      throws IOException, InterruptedException, SQLException {
    SnapBench bench = new SnapBench(miles, points);
    try (PostgresServer server = PostgresServer.start();
        Connection c = server.connect()) {
      bench.load(c);
      bench.measure(c, out);
    }
  }

  private void load(Connection c) throws SQLException, IOException {
    try (Statement s = c.createStatement()) {
      s.execute("CREATE EXTENSION postgis");
      s.execute("CREATE TABLE road (id int, line geometry(LineString))");
      s.execute("CREATE TABLE place (n int, point geometry(Point))");
    }
    CopyManager copy = c.unwrap(PGConnection.class).getCopyAPI();
    StringBuilder rows = new StringBuilder();
    int id = 0;
    for (Route r : routes.values()) {
      CenterlinePart line = r.parts().get(0);
      rows.append(id++).append("\tLINESTRING(");
      for (int i = 0; i < line.size(); i++) {
        rows.append(i == 0 ? "" : ",").append(line.x(i)).append(' ').append(line.y(i));
      }
      rows.append(")\n");
      if (rows.length() > 1_000_000) {
        copy.copyIn("COPY road FROM STDIN", new StringReader(rows.toString()));
        rows.setLength(0);
      }
    }
    copy.copyIn("COPY road FROM STDIN", new StringReader(rows.toString()));
    rows.setLength(0);
    for (int i = 0; i < x.length; i++) {
      rows.append(i).append("\tPOINT(").append(x[i]).append(' ').append(y[i]).append(")\n");
    }
    copy.copyIn("COPY place FROM STDIN", new StringReader(rows.toString()));
    try (Statement s = c.createStatement()) {
      // Two ways to store a road: whole, and in pieces of eight segments, whose boxes hug it.
      s.execute("CREATE INDEX ON road USING gist (line)");
      s.execute(
          "CREATE TABLE piece AS SELECT id, i AS first, ST_MakeLine(ARRAY(SELECT ST_PointN(line, k)"
              + " FROM generate_series(i, least(i + 8, ST_NPoints(line))) k)) AS line FROM road,"
              + " generate_series(1, ST_NPoints(line) - 1, 8) i");
      s.execute("CREATE INDEX ON piece USING gist (line)");
      s.execute("VACUUM ANALYZE");
    }
  }

  private void measure(Connection c, PrintStream out) throws SQLException {
    Locator locator = new Locator(new Network("", routes, List.of()));
    double ours = Double.POSITIVE_INFINITY;
    double[] peers = new double[4];
    Arrays.fill(peers, Double.POSITIVE_INFINITY);
    int[] same = new int[4];
    String[] found = new String[x.length];
    for (int round = 0; round < ROUNDS; round++) {
      ours = Math.min(ours, ours(locator, found));
      peers[0] = Math.min(peers[0], one(c, "road", found, same, 0));
      peers[1] = Math.min(peers[1], one(c, "piece", found, same, 1));
      peers[2] = Math.min(peers[2], all(c, "road", found, same, 2));
      peers[3] = Math.min(peers[3], all(c, "piece", found, same, 3));
    }
    out.println("miles,points,way,us_per_point,times_ours,same_road");
    String size =
        Math.round(routes.values().stream().mapToDouble(Route::lengthM).sum() / M_PER_MILE)
            + ","
            + x.length;
    out.printf(Locale.ROOT, "%s,lanemend candidates,%.2f,1,%n", size, ours);
    String[] names = {
      "PostGIS prepared whole roads",
      "PostGIS prepared pieces",
      "PostGIS one join whole roads",
      "PostGIS one join pieces"
    };
    for (int i = 0; i < names.length; i++) {
      out.printf(
          Locale.ROOT,
          "%s,%s,%.2f,%.1f,%.4f%n",
          size,
          names[i],
          peers[i],
          peers[i] / ours,
          (double) same[i] / x.length);
    }
  }

  private double ours(Locator locator, String[] found) {
    long start = CpuTime.ofThisThread();
    for (int i = 0; i < x.length; i++) {
      List<Candidate> near = locator.candidates(x[i], y[i], REACH_M, SnapHint.NONE);
      found[i] = near.isEmpty() ? "" : near.get(0).place().routeId();
    }
    return micros(CpuTime.ofThisThread() - start);
  }

  private double micros(long nanos) {
    return nanos / 1e3 / x.length;
  }

  /** A prepared statement for each point, as a program asks while a crew drives. */
  private double one(Connection c, String table, String[] found, int[] same, int way)
      throws SQLException {
    same[way] = 0;
    try (PreparedStatement p =
        c.prepareStatement(
            "SELECT id, ST_LineLocatePoint(line, q) FROM (SELECT ST_Point(?, ?) AS q) a, LATERAL"
                + " (SELECT id, line FROM "
                + table
                + " ORDER BY line <-> a.q LIMIT 1) b")) {
      long start = CpuTime.ofServer(c);
      for (int i = 0; i < x.length; i++) {
        p.setDouble(1, x[i]);
        p.setDouble(2, y[i]);
        try (ResultSet r = p.executeQuery()) {
          r.next();
          same[way] += found[i].equals("R" + r.getInt(1)) ? 1 : 0;
        }
      }
      return micros(CpuTime.ofServer(c) - start);
    }
  }

  /** All points in one join inside the server: no trips between programs. */
  private double all(Connection c, String table, String[] found, int[] same, int way)
      throws SQLException {
    same[way] = 0;
    try (Statement s = c.createStatement()) {
      long start = CpuTime.ofServer(c);
      try (ResultSet r =
          s.executeQuery(
              "SELECT n, id, ST_LineLocatePoint(line, point) FROM place, LATERAL (SELECT id, line"
                  + " FROM "
                  + table
                  + " ORDER BY line <-> point LIMIT 1) b")) {
        while (r.next()) {
          same[way] += found[r.getInt(1)].equals("R" + r.getInt(2)) ? 1 : 0;
        }
      }
      return micros(CpuTime.ofServer(c) - start);
    }
  }
}
