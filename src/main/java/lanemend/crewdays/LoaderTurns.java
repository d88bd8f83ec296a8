package lanemend.crewdays;

import java.util.EnumSet;
import java.util.Set;
import lanemend.patching.Equipment;
import lanemend.patching.Treatment;

/**
 * Waiting at a plant's loader, with every truck of the agency that may come there that day allowed
 * for: a day's times then hold whatever the other crews do. The loader is the one server of a
 * finite-source queue, the trucks its sources, each away for the road, the dump and the laying of a
 * load. In the morning one truck of each other crew stands in front.
 */
final class LoaderTurns {
  /** Treatments that take mix from a plant or a stockpile. */
  private static final Set<Treatment> WITH_MIX =
      EnumSet.of(
          Treatment.BLADE_PATCH,
          Treatment.HAND_PATCH,
          Treatment.DIG_OUT_AND_REBUILD,
          Treatment.EDGE_REPAIR);

  private final Agency agency;

  LoaderTurns(Agency agency) {
    this.agency = agency;
  }

  /** Other crews' trucks that may load at the plant on a day on which this crew has its own. */
  int otherTrucks(Crew crew, Plant plant, int own) {
    int most = 0;
    for (Crew other : agency.crews()) {
      most += loads(other, crew, plant) ? other.trucks() : 0;
    }
    long pool = agency.equipment().stream().filter(u -> u.kind() == Equipment.HAUL_TRUCK).count();
    return pool == 0 ? most : (int) Math.max(0, Math.min(most, pool - own));
  }

  /** Minutes the crew's first truck waits at the plant in the morning. */
  double morningMinutes(Crew crew, Plant plant, int own) {
    long crews = agency.crews().stream().filter(c -> loads(c, crew, plant)).count();
    return plant.loadMinutes() * Math.min(crews, otherTrucks(crew, plant, own));
  }

  private static boolean loads(Crew other, Crew crew, Plant plant) {
    return !other.equals(crew)
        && other.trucks() > 0
        && other.does().stream().anyMatch(t -> WITH_MIX.contains(t) && plant.serves().contains(t));
  }

  /**
   * Mean minutes a truck waits for its turn at the loader.
   *
   * @param trucks that come to it, all crews'
   * @param awayMinutes of one truck from leaving the loader until it is back
   */
  static double waitMinutes(int trucks, double loadMinutes, double awayMinutes) {
    if (trucks <= 1 || !(loadMinutes > 0) || awayMinutes == Double.POSITIVE_INFINITY) {
      return 0;
    }
    return new MachineRepairQueue(trucks, 1, 1 / awayMinutes, 1 / loadMinutes).waitMinutes();
  }
}
