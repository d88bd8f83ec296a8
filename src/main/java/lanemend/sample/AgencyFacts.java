package lanemend.sample;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/**
 * The invented agency: two yards, three crews, their shared machines and trucks for each district,
 * a plant for each three, a stockpile, one plan to make. The standard county is one district.
 */
final class AgencyFacts {
  static final String FIRST_DAY = "2026-05-04";
  static final int CALENDAR_DAYS = 56;

  private static final int DISTRICTS_OF_A_PLANT = 3;

  /** State roads along which districts have their yards and plants. */
  private static final List<String> BACKBONE =
      List.of(StateRoads.MAIN, StateRoads.CROSS, StateRoads.NORTH, StateRoads.SOUTH);

  /** Steps of this share of a length keep clear of each other however many there are. */
  private static final double GOLDEN = 0.618034;

  private final Roads roads;
  private final int districts;
  private final ObjectNode root = JsonNodeFactory.instance.objectNode();

  private AgencyFacts(Roads roads, int districts) {
    this.roads = roads;
    this.districts = districts;
  }

  /** The agency file's content. */
  static ObjectNode write(Roads roads, int districts) {
    AgencyFacts a = new AgencyFacts(roads, districts);
    a.root.put("name", Terrain.COUNTY + " Road Department (invented)").put("units", "us");
    a.yards();
    a.plants();
    a.stockpile();
    a.crews();
    a.equipment();
    a.plan();
    a.renewal();
    return a.root;
  }

  /** Beside a state route, some way from a town's middle. */
  private LonLat beside(String route, Pt near) {
    List<Pt> line = roads.of(route).get(0).draft().points();
    int i = Curves.nearest(line, near);
    return LonLat.of(line.get(i).step(Curves.heading(line, i) - StrictMath.PI / 2, 55));
  }

  private void yards() {
    ArrayNode yards = root.putArray("yards");
    Terrain t = roads.terrain();
    Pt seat = t.town("Ombrel").middle();
    Pt north = t.town("Pellwick").middle();
    place(yards.addObject(), "Y1", "Ombrel yard", beside(StateRoads.CROSS, seat.plus(1_500, 0)));
    place(yards.addObject(), "Y2", "Pellwick yard", beside(StateRoads.NORTH, north.plus(900, 0)));
    for (int d = 1; d < districts; d++) {
      String road = BACKBONE.get(d % BACKBONE.size());
      place(yards.addObject(), "Y" + (2 * d + 1), "Yard A of district " + (d + 1), spread(road, d));
      String other = BACKBONE.get((d + 1) % BACKBONE.size());
      place(
          yards.addObject(), "Y" + (2 * d + 2), "Yard B of district " + (d + 1), spread(other, d));
    }
  }

  /** Beside a state road, at another share of its length for each district. */
  private LonLat spread(String road, int district) {
    List<Pt> line = roads.of(road).get(0).draft().points();
    double share = 0.5 + district * GOLDEN;
    int i = (int) ((share - StrictMath.floor(share)) * (line.size() - 2)) + 1;
    return beside(road, line.get(i));
  }

  private static ObjectNode place(ObjectNode node, String id, String name, LonLat at) {
    return node.put("id", id)
        .put("name", name)
        .put("longitude", at.lon())
        .put("latitude", at.lat());
  }

  private void plants() {
    ArrayNode plants = root.putArray("plants");
    int count = (districts + DISTRICTS_OF_A_PLANT - 1) / DISTRICTS_OF_A_PLANT;
    int dailyTons = 260 * districts / count;
    Pt near = roads.terrain().at(0.70, 0.5);
    plant(plants, "P1", "Slatefork hot mix plant", beside(StateRoads.CROSS, near), dailyTons);
    for (int i = 1; i < count; i++) {
      String road = BACKBONE.get((i + 2) % BACKBONE.size());
      plant(plants, "P" + (i + 1), "Hot mix plant " + (i + 1), spread(road, 2 * i + 1), dailyTons);
    }
  }

  private static void plant(ArrayNode plants, String id, String name, LonLat at, int dailyTons) {
    place(plants.addObject(), id, name, at)
        .put("opens", "06:30")
        .put("closes", "16:00")
        .put("daily_tons", dailyTons)
        .put("load_minutes", 7)
        .put("mix_window_minutes", 100)
        .put("price_per_ton", 92);
  }

  private void stockpile() {
    ObjectNode pile = root.putArray("stockpiles").addObject();
    Pt seat = roads.terrain().town("Ombrel").middle();
    place(pile, "S1", "Ombrel cold mix stockpile", beside(StateRoads.CROSS, seat.plus(1_500, 0)))
        .put("tons", 60)
        .put("load_minutes", 5)
        .put("price_per_ton", 138);
    texts(pile.putArray("serves"), "hand_patch", "edge_repair");
  }

  private void crews() {
    ArrayNode crews = root.putArray("crews");
    for (int d = 0; d < districts; d++) {
      String which = d == 0 ? "" : " " + (d + 1);
      blade(crews, "C" + (3 * d + 1), "Blade crew" + which, "Y" + (2 * d + 1));
      mixed(crews, "C" + (3 * d + 2), "North crew" + which, "Y" + (2 * d + 2));
      hand(crews, "C" + (3 * d + 3), "Hand and crack crew" + which, "Y" + (2 * d + 1));
    }
  }

  private static void blade(ArrayNode crews, String id, String name, String yard) {
    crew(
        crews,
        id,
        name,
        yard,
        4,
        1_150,
        "2026-05-15",
        "blade_patch",
        "dig_out_and_rebuild",
        "surface_treatment");
  }

  private static void mixed(ArrayNode crews, String id, String name, String yard) {
    crew(
        crews,
        id,
        name,
        yard,
        3,
        940,
        "2026-05-22",
        "blade_patch",
        "hand_patch",
        "edge_repair",
        "surface_treatment");
  }

  private static void hand(ArrayNode crews, String id, String name, String yard) {
    crew(
        crews,
        id,
        name,
        yard,
        2,
        520,
        "2026-05-29",
        "hand_patch",
        "edge_repair",
        "crack_treatment");
  }

  private static void crew(
      ArrayNode crews,
      String id,
      String name,
      String yard,
      int trucks,
      int costPerHour,
      String dayOff,
      String... does) {
    ObjectNode crew =
        crews
            .addObject()
            .put("id", id)
            .put("name", name)
            .put("yard", yard)
            .put("shift_start", "07:00")
            .put("shift_hours", 10)
            .put("trucks", trucks)
            .put("cost_per_hour", costPerHour);
    texts(crew.putArray("does"), does);
    texts(crew.putArray("days_off"), dayOff);
  }

  private static void texts(ArrayNode array, String... values) {
    for (String v : values) {
      array.add(v);
    }
  }

  private void equipment() {
    ArrayNode machines = root.putArray("equipment");
    for (int d = 0; d < districts; d++) {
      machine(machines, "G" + (2 * d + 1), "motor_grader");
      machine(machines, "G" + (2 * d + 2), "motor_grader", "2026-05-13", "2026-05-14");
      machine(machines, "T" + (2 * d + 1), "distributor");
      machine(machines, "T" + (2 * d + 2), "distributor", "2026-05-20");
      for (int i = 3 * d + 1; i <= 3 * d + 3; i++) {
        machine(machines, "B" + i, "broom");
        machine(machines, "R" + i, "roller");
        machine(machines, "L" + i, "loader");
        machine(machines, "A" + i, "arrow_board");
        machine(machines, "V" + i, "plate_compactor");
      }
      machine(machines, "S" + (2 * d + 1), "pavement_saw");
      machine(machines, "S" + (2 * d + 2), "pavement_saw");
      for (int i = 8 * d + 1; i <= 8 * d + 8; i++) {
        machine(machines, "H" + i, "haul_truck");
      }
      machine(machines, "K" + (d + 1), "crack_kettle", "2026-06-01", "2026-06-02");
    }
  }

  private static void machine(ArrayNode machines, String id, String kind, String... out) {
    ObjectNode m = machines.addObject().put("id", id).put("kind", kind);
    texts(m.putArray("out_of_service"), out);
  }

  private void plan() {
    ObjectNode plan = root.putObject("plan");
    plan.put("first_day", FIRST_DAY).put("calendar_days", CALENDAR_DAYS);
    texts(plan.putArray("workdays"), "monday", "tuesday", "wednesday", "thursday", "friday");
    texts(plan.putArray("blackout"), "2026-05-25");
    plan.putObject("due_days").put("high", 55).put("medium", 80).put("low", 150);
    plan.putObject("due_factor")
        .put("freeway", 0.8)
        .put("arterial", 0.9)
        .put("collector", 1.0)
        .put("local", 1.2);
    plan.putObject("max_zone_ft")
        .put("freeway", 5_280)
        .put("arterial", 3_960)
        .put("collector", 2_640)
        .put("local", 2_640);
    plan.put("truck_payload_tons", 14)
        .put("truck_speed_factor", 0.9)
        .put("dump_minutes", 5)
        .put("truck_cost_per_hour", 105)
        .put("cost_per_mile", 4.2)
        .put("delay_cost_per_vehicle_hour", 24)
        .put("late_per_day", 180)
        .put("currency", "USD")
        .put("finish_probability", 0.85);
    season(plan.putObject("season"));
  }

  /** A forecast reaches the first ten days; after it the month's usual weather counts. */
  private static void season(ObjectNode season) {
    season.put("hot_mix_from", "04-15").put("hot_mix_to", "10-20").put("least_air_f", 50);
    season.put("rain_probability_lost", 0.6).put("rain_in_lost", 0.2);
    season.put("on_time_probability", 0.8);
    ObjectNode usual = season.putObject("usual");
    month(usual, "april", 0.25, 54);
    month(usual, "may", 0.15, 63);
    month(usual, "june", 0.1, 73);
    month(usual, "july", 0.1, 81);
    month(usual, "august", 0.1, 79);
    month(usual, "september", 0.15, 68);
    month(usual, "october", 0.25, 55);
  }

  private static void month(ObjectNode usual, String name, double lost, int airF) {
    usual.putObject(name).put("lost_day_probability", lost).put("air_f", airF);
  }

  /** The bands are those of the truth; a repair costs what the crews' own hours come to. */
  private void renewal() {
    ObjectNode renewal = root.putObject("renewal");
    renewal.put("records_from", "2016-01-01").put("records_to", "2026-01-01");
    renewal.putArray("traffic_bands").add(500).add(2_500);
    ArrayNode budgets = renewal.putArray("yearly_budgets");
    for (int year = 0; year < 5; year++) {
      budgets.add(400_000);
    }
    renewal
        .put("cost_per_repair", 1_500)
        .put("repair_price_per_ton", 240)
        .put("overlay_fixed_cost", 20_000)
        .put("overlay_price_per_ton", 95)
        .put("milling_price_per_yd2_in", 1)
        .put("overlay_life_years", 15)
        .put("discount_rate", 0.03)
        .put("analysis_years", 20)
        .put("min_project_miles", 0.5);
  }
}
