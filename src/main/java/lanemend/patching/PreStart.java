package lanemend.patching;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What is looked at on each machine before it starts (common practice, no source). The maker's
 * manual and the agency's own list come first.
 */
public final class PreStart {
  private static final List<String> ANY_MACHINE =
      List.of(
          "Walk round it: leaks, loose or broken parts, people and things under or behind it",
          "Engine oil, coolant, hydraulic oil and fuel levels",
          "Lights, beacon, horn and backing alarm work",
          "Seat belt, mirrors and windows clean and whole",
          "Service and parking brakes hold");

  private static final Map<Equipment, List<String>> OWN = own();

  private PreStart() {}

  /** The checks of one machine, in the order of a walk round it. */
  public static List<String> checks(Equipment equipment) {
    return OWN.get(equipment);
  }

  private static Map<Equipment, List<String>> own() {
    Map<Equipment, List<String>> checks = new EnumMap<>(Equipment.class);
    riddenMachines(checks);
    smallMachines(checks);
    return checks;
  }

  private static void riddenMachines(Map<Equipment, List<String>> checks) {
    ridden(
        checks,
        Equipment.MOTOR_GRADER,
        "Cutting edge and end bits: wear, bolts tight, straight enough to finish with",
        "Circle, drawbar and moldboard slides: play within the maker's limit",
        "Tires: cuts, pressure the same side to side",
        "Articulation joint and its lock; nobody between the wheels",
        "Blade raises, tilts, turns and shifts through its whole travel");
    ridden(
        checks,
        Equipment.DISTRIBUTOR,
        "Tank gauge read, load ticket matches, hatch closed",
        "Burner, flues and fire extinguisher; liquid above the flues before any heating",
        "Spray bar height, nozzle angle and every nozzle open",
        "Thermometer reads; hoses and joints dry");
    ridden(
        checks,
        Equipment.BROOM,
        "Bristles long and even enough, core turns freely",
        "Water for dust full, nozzles open",
        "Guards and drive in place");
    ridden(
        checks,
        Equipment.ROLLER,
        "Drum clean and round, scrapers touch, or tires sound and at one pressure",
        "Water tank full, spray bars wet the whole drum",
        "Vibration off; roll-over bar upright and pinned");
    ridden(
        checks,
        Equipment.LOADER,
        "Bucket edge, pins and quick coupler locked",
        "Tires: cuts, pressure, wheel nuts",
        "Articulation lock off, nobody in the joint");
    ridden(
        checks,
        Equipment.HAUL_TRUCK,
        "Bed clean, release agent on it, tarp whole and closing",
        "Tailgate latches and chains; tires, wheel nuts, brakes, air pressure",
        "Bed goes up and down; nobody near it, no wires above where it will be raised");
  }

  private static void smallMachines(Map<Equipment, List<String>> checks) {
    checks.put(
        Equipment.PLATE_COMPACTOR,
        List.of(
            "Engine oil and fuel; air filter clean",
            "Base plate not cracked, bolts tight, handle damper whole",
            "Water tank full so that mix does not stick",
            "Belt guard on; hearing protection at hand"));
    checks.put(
        Equipment.PAVEMENT_SAW,
        List.of(
            "Blade right for asphalt, not cracked, nut tight, turns the right way",
            "Guard on and down; water to both sides of the blade",
            "Fuel and oil; belts",
            "Buried lines called in and marked; eye and ear protection at hand"));
    checks.put(
        Equipment.CRACK_KETTLE,
        List.of(
            "Heating-oil level, sealant level, no water in the tank",
            "Both thermometers agree; shut-off and agitator work",
            "Hose and wand without cracks or kinks; wand guard on",
            "Burner, propane joints checked with soap; fire extinguisher charged",
            "Hitch, safety chains, lights"));
    checks.put(
        Equipment.ARROW_BOARD,
        List.of(
            "Every lamp lights in every mode; dims at night",
            "Batteries charged or fuel for the whole shift",
            "Raises, locks and stands level; hitch and chains"));
  }

  private static void ridden(
      Map<Equipment, List<String>> checks, Equipment machine, String... own) {
    List<String> all = new ArrayList<>(ANY_MACHINE);
    all.addAll(List.of(own));
    checks.put(machine, List.copyOf(all));
  }
}
