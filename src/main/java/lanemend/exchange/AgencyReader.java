package lanemend.exchange;

import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Crew;
import lanemend.crewdays.EquipmentUnit;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.patching.Equipment;
import lanemend.patching.Treatment;

/**
 * The agency's settings file. Taken whole or not at all: a plan from half the settings would be
 * wrong without looking so. Every fault is named with its line and field. {@link AgencyWriter} is
 * the way back.
 */
public final class AgencyReader {
  private static final double MOST_M = 100_000;

  private final JsonProblems problems;
  private final ProjectedCrs crs;

  private AgencyReader(String file, ProjectedCrs crs) {
    this.problems = new JsonProblems(file);
    this.crs = crs;
  }

  /**
   * Reads a file.
   *
   * @param crs the network's; yards and plants are given in longitude and latitude
   * @throws ExchangeException with everything that is wrong
   */
  public static Agency read(Path file, ProjectedCrs crs) {
    return new AgencyReader(RowSource.nameOf(file), crs).agency(JsonValue.read(file));
  }

  /**
   * Reads text, for instance that of the store.
   *
   * @param name stands for the file in messages
   * @throws ExchangeException with everything that is wrong
   */
  public static Agency parse(String name, String json, ProjectedCrs crs) {
    return new AgencyReader(name, crs).agency(JsonValue.parse(name, json));
  }

  private Agency agency(JsonValue root) {
    JsonFields f = new JsonFields(root, problems);
    String name = f.text("name");
    UnitSystem units = f.word("units", Units.class).system;
    List<Yard> yards = f.objects("yards", this::yard);
    List<Plant> plants = new ArrayList<>(f.objects("plants", this::plant));
    if (f.has("stockpiles")) {
      plants.addAll(f.objects("stockpiles", this::stockpile));
    }
    Set<String> yardIds = new HashSet<>();
    unique(f, "yards", yards, Yard::id, yardIds);
    unique(f, "plants", plants, Plant::id, new HashSet<>());
    List<Crew> crews = f.objects("crews", c -> crew(c, yardIds));
    unique(f, "crews", crews, Crew::id, new HashSet<>());
    List<EquipmentUnit> equipment = f.objects("equipment", AgencyReader::unit);
    unique(f, "equipment", equipment, EquipmentUnit::id, new HashSet<>());
    JsonFields p = f.object("plan");
    PlanSettings plan = plan(p);
    p.done();
    // Read by PatchOverrides and RenewalRulesReader; here they only have to be known.
    f.has("patching");
    f.has("renewal");
    f.done();
    needed(f, "yards", yards);
    needed(f, "crews", crews);
    problems.check();
    return new Agency(name, units, yards, plants, crews, equipment, plan);
  }

  /** The words of the file for {@link UnitSystem}. */
  private enum Units {
    US(UnitSystem.US_CUSTOMARY),
    METRIC(UnitSystem.METRIC);

    private final UnitSystem system;

    Units(UnitSystem system) {
      this.system = system;
    }
  }

  private void needed(JsonFields f, String field, List<?> list) {
    if (list.isEmpty() && problems.none()) {
      f.wrong(field, "at least one");
    }
  }

  private static <T> void unique(
      JsonFields f, String field, List<T> all, Function<T, String> id, Set<String> seen) {
    for (T t : all) {
      if (!id.apply(t).isEmpty() && !seen.add(id.apply(t))) {
        f.wrong(field, "each id once (" + id.apply(t) + " stands twice)");
      }
    }
  }

  private double[] at(JsonFields f) {
    double lon = f.number("longitude", -180, 180);
    double lat = f.number("latitude", -90, 90);
    try {
      return crs.project(lon, lat);
    } catch (IllegalArgumentException e) {
      f.wrong("longitude", "a place near the road network");
      return new double[2];
    }
  }

  private Yard yard(JsonFields f) {
    double[] at = at(f);
    return new Yard(f.text("id"), f.text("name"), at[0], at[1]);
  }

  private Plant plant(JsonFields f) {
    double[] at = at(f);
    Plant plant =
        new Plant(
            f.text("id"),
            f.text("name"),
            at[0],
            at[1],
            f.time("opens"),
            f.time("closes"),
            f.either("daily_tons", Conversion.T_PER_SHORT_TON, "daily_tonnes", 1, 1e6),
            f.number("load_minutes", 0, 600),
            f.number("mix_window_minutes", 0, 100_000),
            perUnit(f, "price_per_ton", Conversion.T_PER_SHORT_TON, "price_per_tonne"));
    if (problems.none() && !plant.opens().isBefore(plant.closes())) {
      f.wrong("closes", "a time after opens");
    }
    return plant;
  }

  private Plant stockpile(JsonFields f) {
    double[] at = at(f);
    return Plant.stockpile(
        f.text("id"),
        f.text("name"),
        at[0],
        at[1],
        f.either("tons", Conversion.T_PER_SHORT_TON, "tonnes", 1, 1e6),
        f.number("load_minutes", 0, 600),
        perUnit(f, "price_per_ton", Conversion.T_PER_SHORT_TON, "price_per_tonne"),
        f.words("serves", Treatment.class));
  }

  private Crew crew(JsonFields f, Set<String> yardIds) {
    String yard = f.text("yard");
    if (!yard.isEmpty() && !yardIds.contains(yard)) {
      f.wrong("yard", "the id of a yard");
    }
    double minutes = f.number("shift_hours", 0.5, 24) * 60;
    if (Math.abs(minutes - Math.rint(minutes)) > 1e-6) {
      f.wrong("shift_hours", "hours that make whole minutes");
    }
    return new Crew(
        f.text("id"),
        f.text("name"),
        yard,
        f.time("shift_start"),
        (int) Math.rint(minutes),
        f.whole("trucks", 0, 100),
        f.money("cost_per_hour"),
        f.words("does", Treatment.class),
        f.dates("days_off"));
  }

  private static EquipmentUnit unit(JsonFields f) {
    return new EquipmentUnit(
        f.text("id"), f.word("kind", Equipment.class), f.dates("out_of_service"));
  }

  private PlanSettings plan(JsonFields f) {
    Map<Severity, Integer> dueDays = new EnumMap<>(Severity.class);
    f.numbersBy("due_days", Severity.class, 1, 0, 10_000)
        .forEach((severity, days) -> dueDays.put(severity, (int) Math.rint(days)));
    Set<DayOfWeek> workdays = new LinkedHashSet<>(f.words("workdays", DayOfWeek.class));
    if (workdays.isEmpty() && problems.none()) {
      f.wrong("workdays", "at least one day, such as monday");
    }
    return new PlanSettings(
        f.date("first_day"),
        f.whole("calendar_days", 1, 3_660),
        Set.copyOf(workdays),
        Set.copyOf(f.dates("blackout")),
        Map.copyOf(dueDays),
        Map.copyOf(f.numbersBy("due_factor", RoadClass.class, 1, 0, 1_000)),
        Map.copyOf(zones(f)),
        f.either("truck_payload_tons", Conversion.T_PER_SHORT_TON, "truck_payload_tonnes", 1, 100),
        f.number("truck_speed_factor", 0.05, 2),
        f.number("dump_minutes", 0, 600),
        f.money("truck_cost_per_hour"),
        perUnit(f, "cost_per_mile", Conversion.M_PER_MILE / 1_000, "cost_per_km"),
        f.money("delay_cost_per_vehicle_hour"),
        f.money("late_per_day"),
        currency(f),
        WorkRulesReader.finish(f),
        WorkRulesReader.season(f));
  }

  private static Map<RoadClass, Double> zones(JsonFields f) {
    if (f.has("max_zone_ft") && f.has("max_zone_m")) {
      f.wrong("max_zone_m", "only one of max_zone_ft and max_zone_m");
    }
    return f.has("max_zone_m")
        ? f.numbersBy("max_zone_m", RoadClass.class, 1, 1, MOST_M)
        : f.numbersBy(
            "max_zone_ft", RoadClass.class, Conversion.M_PER_FT, 1, MOST_M / Conversion.M_PER_FT);
  }

  /** A price per US unit or per metric unit, as the latter. */
  private static BigDecimal perUnit(JsonFields f, String us, double metricPerUs, String metric) {
    double price = f.either(us, 1 / metricPerUs, metric, 1, 1e9);
    return new BigDecimal(price, new MathContext(12)).stripTrailingZeros();
  }

  private static String currency(JsonFields f) {
    String code = f.text("currency").toUpperCase(Locale.ROOT);
    if (!code.isEmpty() && !code.matches("[A-Z]{3}")) {
      f.wrong("currency", "a three-letter code such as USD");
    }
    return code;
  }
}
