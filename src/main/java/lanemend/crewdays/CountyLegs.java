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
  private final List<Haul.Place> work;
  private final double factor;

  private CountyLegs(
      Haul.Legs out,
      Haul.Legs back,
      Haul.Legs bases,
      Haul.Legs between,
      int yards,
      List<Haul.Place> work,
      double factor) {
    this.out = out;
    this.back = back;
    this.bases = bases;
    this.between = between;
    this.yards = yards;
    this.work = work;
    this.factor = factor;
  }

  /** Legs between the bases and these places. */
  static CountyLegs of(Haul haul, Agency agency, List<Place> places) {
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
        null,
        agency.yards().size(),
        work,
        factor);
  }

  /** Only these places, in this order, with the legs among them. */
  CountyLegs among(Haul haul, int[] rows) {
    List<Haul.Place> kept = new ArrayList<>();
    for (int row : rows) {
      kept.add(work.get(row));
    }
    return new CountyLegs(
        new Haul.Legs(columns(out.minutes(), rows), columns(out.km(), rows)),
        new Haul.Legs(rows(back.minutes(), rows), rows(back.km(), rows)),
        bases,
        slowed(haul.between(kept, kept), factor),
        yards,
        kept,
        factor);
  }

  private static double[][] rows(double[][] table, int[] rows) {
    double[][] kept = new double[rows.length][];
    for (int i = 0; i < rows.length; i++) {
      kept[i] = table[rows[i]];
    }
    return kept;
  }

  private static double[][] columns(double[][] table, int[] columns) {
    double[][] kept = new double[table.length][columns.length];
    for (int i = 0; i < table.length; i++) {
      for (int j = 0; j < columns.length; j++) {
        kept[i][j] = table[i][columns[j]];
      }
    }
    return kept;
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
