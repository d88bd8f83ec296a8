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

  /** By work place, the drive to the next of its day; null where all pairs are known. */
  private final Next next;

  private final int yards;
  private final List<Haul.Place> work;
  private final double factor;

  private CountyLegs(
      Haul.Legs out,
      Haul.Legs back,
      Haul.Legs bases,
      double[] packed,
      Next next,
      int yards,
      List<Haul.Place> work,
      double factor) {
    this.out = out;
    this.back = back;
    this.bases = bases;
    this.packed = packed;
    this.next = next;
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
        null,
        agency.yards().size(),
        work,
        factor);
  }

  /** Only these places, in this order, with the legs among them. */
  CountyLegs among(Haul haul, int[] rows) {
    return among(haul, rows, Stage.quiet());
  }

  /** The same, with somebody who hears how far it is. */
  CountyLegs among(Haul haul, int[] rows, Stage stage) {
    List<Haul.Place> kept = new ArrayList<>();
    for (int row : rows) {
      kept.add(work.get(row));
    }
    Haul.Legs keptOut = new Haul.Legs(columns(out.minutes(), rows), columns(out.km(), rows));
    Haul.Legs keptBack = new Haul.Legs(rows(back.minutes(), rows), rows(back.km(), rows));
    double[] packed = packed(haul, kept, keptOut, keptBack, stage);
    return new CountyLegs(keptOut, keptBack, bases, packed, null, yards, kept, factor);
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

  /** Minutes from one work place to another; to the next of its day where only those are known. */
  double minutesBetween(int from, int to) {
    return next != null ? next.minutes[from] : packed[2 * (from * (work.size() + yards) + to) + 1];
  }

  /** Kilometres from one work place to another; as {@link #minutesBetween}. */
  double kmBetween(int from, int to) {
    return next != null ? next.km[from] : packed[2 * (from * (work.size() + yards) + to)];
  }

  private record Next(double[] minutes, double[] km) {}

  /**
   * With the legs from each work place to the next of its day and no others: a large plan's table
   * of all pairs takes a long time and much memory.
   *
   * @param days work places of each day in order, each in one day at most
   */
  CountyLegs along(Haul haul, List<List<Integer>> days) {
    Next legs = new Next(new double[work.size()], new double[work.size()]);
    days.parallelStream()
        .filter(day -> day.size() > 1)
        .forEach(
            day ->
                haul.each(
                    day.stream().limit(day.size() - 1L).map(work::get).toList(),
                    day.stream().skip(1).map(work::get).toList(),
                    (nth, minutes, km) -> {
                      legs.minutes[day.get(nth)] = minutes[nth] / factor;
                      legs.km[day.get(nth)] = km[nth];
                    }));
    return new CountyLegs(out, back, bases, null, legs, yards, work, factor);
  }

  private double[] packed(
      Haul haul, List<Haul.Place> kept, Haul.Legs keptOut, Haul.Legs keptBack, Stage stage) {
    int n = kept.size();
    int places = n + yards;
    if (places > MOST_PLACES) {
      throw new TooManyZonesException(n, MOST_PLACES - yards);
    }
    double[] legs = new double[2 * places * places];
    stage.chunks(
        n,
        (low, high) ->
            haul.each(
                kept.subList(low, high),
                kept,
                (nth, minutes, km) -> {
                  int from = low + nth;
                  int row = 2 * from * places;
                  for (int to = 0; to < n; to++) {
                    legs[row + 2 * to] = to == from ? 0 : km[to];
                    legs[row + 2 * to + 1] = to == from ? 0 : minutes[to] / factor;
                  }
                }));
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
