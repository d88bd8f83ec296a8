package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;

/**
 * An invented county of eight straight roads of five miles whose repairs fall evenly by chance, but
 * for SR 3 from milepost 2.0 to 2.8, where they fall eight times as often.
 */
public final class WeakRoad {
  private static final int ROADS = 8;
  private static final double PER_LANE_CELL = 0.4;

  private WeakRoad() {}

  /** The work folder of that county, for tests of other folders. */
  public static Path work(Path folder) throws IOException {
    return county(folder).work();
  }

  /** Roads, posts' distances by length, attributes, agency, defects and repairs, all imported. */
  static Shell county(Path folder) throws IOException {
    Files.createDirectories(folder);
    Shell shell = new Shell(folder.resolve("work"));
    bring(shell, folder, "roads", roads());
    bring(shell, folder, "attributes", attributes());
    bring(shell, folder, "patches", patches());
    bring(shell, folder, "defects", defects());
    Path agency = Files.writeString(folder.resolve("agency.json"), AGENCY);
    assertEquals(ExitCode.DONE, shell.run("import", "agency", agency.toString()).code());
    return shell;
  }

  private static void bring(Shell shell, Path folder, String kind, String csv) throws IOException {
    Path file = Files.writeString(folder.resolve(kind + ".csv"), csv);
    Shell.Outcome said = shell.run("import", kind, file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
  }

  private static String roads() {
    StringBuilder csv = new StringBuilder("route,class,speed,lanes,wkt\n");
    StringBuilder link = new StringBuilder();
    for (int i = 1; i <= ROADS; i++) {
      double lat = 40 + 0.02 * i;
      csv.append(line("SR %d,collector,55,2,\"LINESTRING(-100 %.2f, -99.905 %.2f)\"", i, lat, lat));
      link.append(i == 1 ? "" : ", ").append(String.format(Locale.ROOT, "-100 %.2f", lat));
    }
    return csv.append(",local,35,2,\"LINESTRING(").append(link).append(")\"\n").toString();
  }

  /** The last road's second half was surfaced nobody knows when. */
  private static String attributes() {
    StringBuilder csv = new StringBuilder("route,milepost_from,milepost_to,name,value\n");
    for (int i = 1; i <= ROADS; i++) {
      csv.append(line("SR %d,0,,surface,hot mix", i)).append(line("SR %d,0,,aadt,800", i));
      csv.append(line("SR %d,0,%s,last_surfacing,2008", i, i == ROADS ? "2.5" : ""));
    }
    return csv.toString();
  }

  private static String patches() {
    Random random = new Random(5);
    StringBuilder csv = new StringBuilder("id,work,route,milepost,lane,done_on,tons,cost\n");
    int id = 0;
    for (int i = 1; i <= ROADS; i++) {
      for (int cell = 0; cell < 50; cell++) {
        for (String lane : new String[] {"R1", "L1"}) {
          boolean weak = i == 3 && cell >= 20 && cell < 28;
          for (int year = 2016; year < 2026; year++) {
            if (random.nextDouble() < PER_LANE_CELL / 10 * (weak ? 8 : 1)) {
              double tons = 0.5 + random.nextInt(40) / 10.0;
              csv.append(
                  line(
                      "P%d,hand_patch,SR %d,%.2f,%s,%d-%02d-10,%.1f,%.2f",
                      ++id,
                      i,
                      0.1 * cell + 0.05,
                      lane,
                      year,
                      1 + random.nextInt(12),
                      tons,
                      200 + 150 * tons));
            }
          }
        }
      }
    }
    return csv.toString();
  }

  /** D1 to D3 lie on the weak stretch, as does D4, which somebody put off; D5 and D6 do not. */
  private static String defects() {
    StringBuilder csv =
        new StringBuilder(
            "id,route,milepost,lane,kind,severity,length_ft,width_ft,depth_in,found_on,status\n");
    String pothole = "D%d,SR 3,%.2f,R1,pothole,high,3,2,2,2026-04-01,%s";
    csv.append(line(pothole, 1, 2.1, "open")).append(line(pothole, 2, 2.4, "open"));
    csv.append(line(pothole, 3, 2.7, "open"));
    csv.append(line(pothole, 4, 2.5, "deferred_to_overlay"));
    csv.append(line(pothole, 5, 1.2, "open")).append(line(pothole, 6, 4.2, "open"));
    return csv.toString();
  }

  private static String line(String format, Object... values) {
    return String.format(Locale.ROOT, format, values) + "\n";
  }

  private static final String AGENCY =
      """
      {
        "name": "Straight County (invented)", "units": "us",
        "yards": [{"id": "Y1", "name": "Yard", "longitude": -99.99, "latitude": 40.04}],
        "plants": [
          {"id": "P1", "name": "Plant", "longitude": -99.98, "latitude": 40.06,
           "opens": "06:30", "closes": "17:00", "daily_tons": 400, "load_minutes": 6,
           "mix_window_minutes": 120, "price_per_ton": 85}],
        "crews": [
          {"id": "C1", "name": "Crew", "yard": "Y1", "shift_start": "07:00", "shift_hours": 10,
           "trucks": 3, "cost_per_hour": 400,
           "does": ["hand_patch", "blade_patch", "dig_out_and_rebuild", "edge_repair",
                    "crack_treatment", "surface_treatment"]}],
        "equipment": [],
        "plan": {
          "first_day": "2026-05-04", "calendar_days": 30,
          "workdays": ["monday", "tuesday", "wednesday", "thursday"], "blackout": [],
          "due_days": {"high": 30, "medium": 60, "low": 90},
          "due_factor": {"freeway": 0.5, "arterial": 0.75, "collector": 1, "local": 1.5},
          "max_zone_ft": {"freeway": 5280, "arterial": 5280, "collector": 5280, "local": 2640},
          "truck_payload_tons": 14, "truck_speed_factor": 0.85, "dump_minutes": 5,
          "truck_cost_per_hour": 95, "cost_per_mile": 3.2, "delay_cost_per_vehicle_hour": 22,
          "late_per_day": 40, "currency": "USD"},
        "renewal": {
          "records_from": "2016-01-01", "records_to": "2026-01-01",
          "yearly_budgets": [300000, 300000, 300000],
          "cost_per_repair": 3000, "repair_price_per_ton": 300,
          "overlay_fixed_cost": 5000, "overlay_price_per_ton": 60, "subgrade_psi": 9000}
      }
      """;
}
