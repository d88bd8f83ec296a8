package lanemend.crewdays;

import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Place;

/**
 * Driving between yards, plants and work places at truck speed. Bases are the agency's yards, then
 * its plants.
 */
final class CountyLegs {
  final Haul.Legs out;
  final Haul.Legs back;
  final Haul.Legs bases;

  /** Between work places; null until asked for, because it is the largest. */
  final Haul.Legs between;

  private final int yards;

  private CountyLegs(Haul.Legs out, Haul.Legs back, Haul.Legs bases, Haul.Legs between, int yards) {
    this.out = out;
    this.back = back;
    this.bases = bases;
    this.between = between;
    this.yards = yards;
  }

  /** Legs between the bases and these places, and among the places when {@code all}. */
  static CountyLegs of(Haul haul, Agency agency, List<Place> places, boolean all) {
    List<Haul.Place> bases = new ArrayList<>();
    for (Yard yard : agency.yards()) {
      bases.add(new Haul.Place("yard " + yard.name(), yard.x(), yard.y(), "", 0));
    }
    for (Plant plant : agency.plants()) {
      bases.add(new Haul.Place("plant " + plant.name(), plant.x(), plant.y(), "", 0));
    }
    List<Haul.Place> work = new ArrayList<>();
    for (Place place : places) {
      work.add(
          new Haul.Place(
              place.routeId(), place.x(), place.y(), place.routeId(), place.middleAlongM()));
    }
    double factor = agency.plan().truckSpeedFactor();
    return new CountyLegs(
        slowed(haul.between(bases, work), factor),
        slowed(haul.between(work, bases), factor),
        slowed(haul.between(bases, bases), factor),
        all ? slowed(haul.between(work, work), factor) : null,
        agency.yards().size());
  }

  /** Trucks take longer than the legal speed says. */
  private static Haul.Legs slowed(Haul.Legs legs, double factor) {
    double[][] minutes = new double[legs.minutes().length][];
    for (int i = 0; i < minutes.length; i++) {
      minutes[i] = legs.minutes()[i].clone();
      for (int j = 0; j < minutes[i].length; j++) {
        minutes[i][j] /= factor;
      }
    }
    return new Haul.Legs(minutes, legs.km());
  }

  /** Row of a plant among the bases. */
  int plantBase(int plant) {
    return yards + plant;
  }

  /** Kilometres and minutes as the search wants them: zones, then yards. */
  double[] packed() {
    int zones = between.minutes().length;
    int places = zones + yards;
    double[] legs = new double[2 * places * places];
    for (int a = 0; a < places; a++) {
      for (int b = 0; b < places; b++) {
        int i = 2 * (a * places + b);
        legs[i] = a == b ? 0 : pick(a, b, zones, true);
        legs[i + 1] = a == b ? 0 : pick(a, b, zones, false);
      }
    }
    return legs;
  }

  private double pick(int a, int b, int zones, boolean km) {
    Haul.Legs legs;
    if (a < zones) {
      legs = b < zones ? between : back;
    } else {
      legs = b < zones ? out : bases;
    }
    double[][] table = km ? legs.km() : legs.minutes();
    return table[a < zones ? a : a - zones][b < zones ? b : b - zones];
  }
}
