package lanemend.crewdays.routing;

import java.util.Arrays;

/**
 * A kind of day with its order given up: an upper bound on what a day can earn when each stop pays
 * a price. Driving is bounded from below stop by stop: with {@code v(j)} the least leg into j and
 * {@code u(i)} the least over j of {@code leg(i, j) - v(j)}, any round trip through a set of places
 * drives at least {@code u + v} summed over them, in cost and, apart, in minutes. Waiting is left
 * out. What remains is a knapsack of stops in minutes, solved exactly with minutes rounded down.
 */
final class RelaxedDay {
  /** Steps of the knapsack in a minute. */
  private static final double GRAIN = 2;

  private final DayProblem p;
  private final int[] stops;
  private final int[] weight;
  private final double[] cost;
  private final int room;
  private final double fixed;
  private final int kind;
  private final double stretch;
  private final double limit;

  /** {@code v} and {@code u} of each stop, the depot last, in minutes and in money. */
  private final double[] inMinutes;

  private final double[] outMinutes;
  private final double[] inMoney;
  private final double[] outMoney;

  /** What a day earns at most. */
  record Best(double value, int[] stops) {}

  RelaxedDay(DayProblem p, int kind) {
    this.p = p;
    DayKind k = p.kinds()[kind];
    double[] service = p.service()[kind];
    stops =
        java.util.stream.IntStream.range(0, p.stops())
            .filter(c -> service[c] < Double.POSITIVE_INFINITY)
            .toArray();
    int[] places = Arrays.copyOf(stops, stops.length + 1);
    places[stops.length] = p.depotPlace(kind);
    this.kind = kind;
    inMinutes = into(places, 0, 1);
    outMinutes = out(places, inMinutes, 0, 1);
    inMoney = into(places, k.costPerKm(), k.costPerMinute());
    outMoney = out(places, inMoney, k.costPerKm(), k.costPerMinute());
    weight = new int[stops.length];
    cost = new double[stops.length];
    for (int i = 0; i < stops.length; i++) {
      int c = stops[i];
      weight[i] = (int) Math.floor(GRAIN * (service[c] + inMinutes[i] + outMinutes[i]));
      cost[i] = p.stopCost()[kind][c] + k.costPerMinute() * service[c] + inMoney[i] + outMoney[i];
    }
    int depot = stops.length;
    stretch = stretch(p.chance(), kind, stops, service);
    limit = Math.min(1e6, k.limitMinutes()) / stretch + 1e-6;
    room = (int) Math.floor(GRAIN * (limit - inMinutes[depot] - outMinutes[depot]));
    fixed = k.fixedCost() + inMoney[depot] + outMoney[depot];
  }

  /** {@code v}: the least leg of this price into each place. */
  private double[] into(int[] places, double perKm, double perMinute) {
    double[] into = new double[places.length];
    for (int j = 0; j < places.length; j++) {
      into[j] = Double.POSITIVE_INFINITY;
      for (int i = 0; i < places.length; i++) {
        if (i != j) {
          into[j] = Math.min(into[j], leg(places[i], places[j], perKm, perMinute));
        }
      }
    }
    return into;
  }

  /** {@code u}: the least of what a leg out of each place costs more than {@code v}. */
  private double[] out(int[] places, double[] into, double perKm, double perMinute) {
    double[] out = new double[places.length];
    for (int i = 0; i < places.length; i++) {
      out[i] = Double.POSITIVE_INFINITY;
      for (int j = 0; j < places.length; j++) {
        if (i != j && into[j] < Double.POSITIVE_INFINITY) {
          out[i] = Math.min(out[i], leg(places[i], places[j], perKm, perMinute) - into[j]);
        }
      }
    }
    return out;
  }

  private double leg(int a, int b, double perKm, double perMinute) {
    int leg = p.leg(a, b);
    return perKm * p.legs()[leg] + perMinute * p.legs()[leg + 1];
  }

  /**
   * By how much the wanted probability stretches a day's minutes at least. The quantile of a
   * lognormal sum is {@code mean x exp(q s - s s / 2)}; it grows with s up to q and is back at the
   * value of {@code s0} only at {@code 2 q - s0}, where s0 is the spread of the common factor
   * alone.
   */
  private static double stretch(DayChance chance, int kind, int[] stops, double[] service) {
    if (chance == null) {
      return 1;
    }
    double common = chance.daySpread() * chance.daySpread();
    double widest = chance.driveSpread() * chance.driveSpread();
    for (int c : stops) {
      widest = Math.max(widest, chance.variance()[kind][c] / (service[c] * service[c]));
    }
    double least = Math.sqrt(Math.log1p(common));
    double most = Math.sqrt(Math.log1p((1 + common) * widest + common));
    double q = chance.quantile();
    return least <= q && most <= 2 * q - least
        ? Math.max(1, Math.exp(q * least - least * least / 2))
        : 1;
  }

  int kind() {
    return kind;
  }

  /** The best day at these prices, or null when none earns more than {@code floor}. */
  Best best(int date, double[] price, double floor) {
    Knapsack sack = fill(date, price, floor);
    return sack == null ? null : new Best(sack.value(), sack.stops());
  }

  /** The knapsack at these prices, or null when it holds no more than {@code floor}. */
  Knapsack fill(int date, double[] price, double floor) {
    int n = 0;
    int[] item = new int[stops.length];
    double[] gain = new double[stops.length];
    double[] late = p.late()[date];
    double all = 0;
    for (int i = 0; i < stops.length; i++) {
      int c = stops[i];
      gain[i] = price[c] - cost[i] - late[c];
      if (gain[i] > 0 && weight[i] <= room) {
        item[n++] = i;
        all += gain[i];
      }
    }
    if (n == 0 || room < 0 || all - fixed <= floor) {
      return null;
    }
    Knapsack sack = new Knapsack(n, item, gain);
    return sack.value() <= floor ? null : sack;
  }

  /** Minutes of driving and work that a day which waits so long may have at most. */
  double limit(double wait) {
    return limit - wait / stretch;
  }

  double limit() {
    return limit;
  }

  /**
   * What may be earned at most after a stop, on the way back to the depot.
   *
   * @param at which of the kind's stops
   * @param minutes left when the stop is done, waits apart
   * @return minus infinity when the day could not end in time
   */
  double restAtMost(Knapsack sack, int at, double minutes) {
    double left = minutes - outMinutes[at] - inMinutes[stops.length];
    return left < 0
        ? Double.NEGATIVE_INFINITY
        : sack.most[Math.min(room, (int) (GRAIN * left))] - outMoney[at] - inMoney[stops.length];
  }

  /** The stops that pay, put into the minutes of a day. */
  final class Knapsack {
    private final int n;
    private final int[] item;

    /** What each of the kind's stops earns, whether it pays or not. */
    private final double[] gain;

    private final boolean[][] took;

    /** What is earned at most by half minutes of room, the day's fixed cost apart. */
    private final double[] most = new double[room + 1];

    private Knapsack(int n, int[] item, double[] gain) {
      this.n = n;
      this.item = item;
      this.gain = gain;
      took = new boolean[n][];
      for (int j = 0; j < n; j++) {
        int w = weight[item[j]];
        double g = gain[item[j]];
        took[j] = new boolean[room + 1];
        for (int t = room; t >= w; t--) {
          double with = most[t - w] + g;
          if (with > most[t]) {
            most[t] = with;
            took[j][t] = true;
          }
        }
      }
    }

    double value() {
      return most[room] - fixed;
    }

    /** Every stop the kind can do. */
    int size() {
      return stops.length;
    }

    int stop(int i) {
      return RelaxedDay.this.stops[i];
    }

    /** No day with this stop earns more. */
    double with(int i) {
      return weight[i] <= room
          ? gain[i] + most[room - weight[i]] - fixed
          : Double.NEGATIVE_INFINITY;
    }

    /** What a stop earns when no drive is counted. */
    double own(int i) {
      return gain[i] + inMoney[i] + outMoney[i];
    }

    int[] stops() {
      int[] chosen = new int[n];
      int size = 0;
      int t = room;
      for (int j = n - 1; j >= 0; j--) {
        if (took[j][t]) {
          chosen[size++] = stop(item[j]);
          t -= weight[item[j]];
        }
      }
      return Arrays.copyOf(chosen, size);
    }
  }
}
