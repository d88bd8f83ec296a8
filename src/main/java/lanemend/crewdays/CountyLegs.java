package lanemend.crewdays;

import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Place;

/**
 * Driving between yards, plants and work places at truck speed. Bases are the agency's yards, then
 * its plants.
 */
final class CountyLegs {
  /** Kilometres and minutes of every pair must fit one array. */
  private static final int MOST_PLACES = 32_767;

  final Haul.Legs out;
  final Haul.Legs back;
  final Haul.Legs bases;

  /**
   * Kilometres and minutes as the search wants them, work places, then yards; null until asked for.
   * The one table among work places: it is by far the largest.
   */
  private final double[] packed;

  private final int yards;
  private final List<Haul.Place> work;
  private final double factor;

  private CountyLegs(
      Haul.Legs out,
      Haul.Legs back,
      Haul.Legs bases,
      double[] packed,
      int yards,
      List<Haul.Place> work,
      double factor) {
    this.out = out;
    this.back = back;
    this.bases = bases;
    this.packed = packed;
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
    Haul.Legs keptOut = new Haul.Legs(columns(out.minutes(), rows), columns(out.km(), rows));
    Haul.Legs keptBack = new Haul.Legs(rows(back.minutes(), rows), rows(back.km(), rows));
    double[] packed = packed(haul, kept, keptOut, keptBack);
    return new CountyLegs(keptOut, keptBack, bases, packed, yards, kept, factor);
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

  /** Kilometres and minutes as the search wants them: work places, then yards. */
  double[] packed() {
    return packed;
  }

  /** Minutes from one work place to another. */
  double minutesBetween(int from, int to) {
    return packed[2 * (from * (work.size() + yards) + to) + 1];
  }

  /** Kilometres from one work place to another. */
  double kmBetween(int from, int to) {
    return packed[2 * (from * (work.size() + yards) + to)];
  }

  private double[] packed(Haul haul, List<Haul.Place> kept, Haul.Legs keptOut, Haul.Legs keptBack) {
    int n = kept.size();
    int places = n + yards;
    if (places > MOST_PLACES) {
      throw new TooManyZonesException(n, MOST_PLACES - yards);
    }
    double[] legs = new double[2 * places * places];
    haul.each(
        kept,
        kept,
        (from, minutes, km) -> {
          int row = 2 * from * places;
          for (int to = 0; to < n; to++) {
            legs[row + 2 * to] = to == from ? 0 : km[to];
            legs[row + 2 * to + 1] = to == from ? 0 : minutes[to] / factor;
          }
        });
    for (int y = 0; y < yards; y++) {
      for (int z = 0; z < n; z++) {
        put(legs, 2 * ((n + y) * places + z), keptOut, y, z);
        put(legs, 2 * (z * places + n + y), keptBack, z, y);
      }
      for (int other = 0; other < yards; other++) {
        if (other != y) {
          put(legs, 2 * ((n + y) * places + n + other), bases, y, other);
        }
      }
    }
    return legs;
  }

  private static void put(double[] packed, int at, Haul.Legs legs, int from, int to) {
    packed[at] = legs.km()[from][to];
    packed[at + 1] = legs.minutes()[from][to];
  }
}
