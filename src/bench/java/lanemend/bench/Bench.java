package lanemend.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import lanemend.bench.county.CountyBench;
import lanemend.cli.KilledPrograms;
import lanemend.inventory.SegmentBench;
import lanemend.network.LocateBench;
import lanemend.network.SnapBench;
import lanemend.network.TrackBench;
import lanemend.renewal.RenewalBench;
import lanemend.web.desk.FuzzBench;
import lanemend.web.desk.WebBench;
import lanemend.web.load.LoadBench;
import lanemend.store.KillBench;

/** Runs one benchmark by its first word; files are the user's, none are kept in the project. */
public final class Bench {
  private static final String USAGE =
      """
      benchmarks:
        routing FOLDER SECONDS   every VRPLIB .vrp file of a folder; CSV instance,cost,routes,seconds
        renewal WHAT             size, recover, nulls, planted or hindcast on simulated counties; CSV
        county SIZES SECONDS [SOLVERS]   invented counties of so many defects, such as 50,200, through
                                 lanemend,or-tools,jsprit,timefold; CSV, a row a solver; "exact" must
                                 be named: it proves the least cost of 50 and takes minutes
        replan STORE TIMES       urgent repairs and moves by hand in a store's plan; CSV, a row a change
        haul STORE PLACES        driving between random places of a store's roads; CSV, a row a round
        track STORE DRIVES       simulated patrols on a store's roads, by error and fix spacing; CSV
        locate SECONDS           along to point and back beside JTS (JMH); SECONDS each, 24 of them
        snap MILES POINTS        points to the nearest road beside PostGIS; CSV, a row a way
        segment EVENTS           event tables laid over each other beside DuckDB and PostgreSQL, up to
                                 EVENTS in steps of ten from 10,000; CSV, a row a size and program
        kill TIMES               a program that writes a store, killed so often; CSV, where the kills fell
        kill-desk TIMES          the desk killed while users write; what they were told must be there
        kill-commands TIMES      imports and edits killed; each must be there whole or not at all
        load FOLDER DEFECTS USERS MINUTES [THINK_MS]   people at one desk over loopback, reading and
                                 writing; CSV by kind of request, then the log against what each was told
        fuzz REQUESTS SEED       requests made at random from the OpenAPI description, for each role and
                                 nobody; CSV, a row a status, then what was answered wrong
        web FOLDER DEFECTS       the desk's first page in Chromium, a county of so many made there; CSV
      """;

  private Bench() {}

  /** See the usage text. */
  public static void main(String[] args)
      throws IOException, InterruptedException, SQLException {
    if (args.length >= 3 && args[0].equals("routing")) {
      RoutingBench.run(Path.of(args[1]), Double.parseDouble(args[2]), System.out);
    } else if (args.length == 2 && args[0].equals("renewal")) {
      RenewalBench.run(args[1], System.out);
    } else if (args.length >= 3 && args[0].equals("county")) {
      String only = args.length > 3 ? args[3] : "";
      CountyBench.run(args[1], Double.parseDouble(args[2]), only, System.out);
    } else if (args.length == 3 && args[0].equals("replan")) {
      ReplanBench.run(Path.of(args[1]), Integer.parseInt(args[2]), System.out);
    } else if (args.length >= 3 && args[0].equals("haul")) {
      HaulBench.run(Path.of(args[1]), Integer.parseInt(args[2]), System.out);
    } else if (args.length == 3 && args[0].equals("track")) {
      TrackBench.run(Path.of(args[1]), Integer.parseInt(args[2]), System.out);
    } else if (args.length == 2 && args[0].equals("locate")) {
      LocateBench.run(Double.parseDouble(args[1]));
    } else if (args.length == 3 && args[0].equals("snap")) {
      SnapBench.run(Double.parseDouble(args[1]), Integer.parseInt(args[2]), System.out);
    } else if (args.length == 2 && args[0].equals("segment")) {
      SegmentBench.run(Integer.parseInt(args[1]), System.out);
    } else if (args.length == 2 && args[0].equals("kill")) {
      KillBench.run(Integer.parseInt(args[1]), System.out);
    } else if (args.length == 2 && args[0].startsWith("kill-")) {
      KilledPrograms killed =
          new KilledPrograms(java.nio.file.Files.createTempDirectory("lanemend-kill"), 7);
      int times = Integer.parseInt(args[1]);
      if (args[0].equals("kill-desk")) {
        killed.desks(times, System.out);
      } else {
        killed.commands(times, System.out);
      }
    } else if (args.length >= 5 && args[0].equals("load")) {
      LoadBench.run(
          Path.of(args[1]),
          Integer.parseInt(args[2]),
          Integer.parseInt(args[3]),
          Double.parseDouble(args[4]),
          args.length > 5 ? Double.parseDouble(args[5]) : 1_000,
          System.out);
    } else if (args.length == 3 && args[0].equals("fuzz")) {
      FuzzBench.run(Integer.parseInt(args[1]), Long.parseLong(args[2]), System.out);
    } else if (args.length == 3 && args[0].equals("web")) {
      WebBench.run(Path.of(args[1]), Integer.parseInt(args[2]), System.out);
    } else {
      System.err.print(USAGE);
      System.exit(2);
    }
  }
}
