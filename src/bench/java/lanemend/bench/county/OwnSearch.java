package lanemend.bench.county;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.crewdays.CountyCase;
import lanemend.crewdays.routing.DayKind;
import lanemend.crewdays.routing.DayProblem;
import lanemend.crewdays.routing.DaySearch;
import lanemend.crewdays.routing.SearchBudget;
import lanemend.crewdays.routing.SearchProgress;
import lanemend.crewdays.routing.SearchResult;

/** The search that plans crew days. */
final class OwnSearch implements CountySolver {
  /** Fixed before any run that was reported. */
  private static final long SEED = 1;

  private record Slot(int crew, int date) {}

  @Override
  public List<CountyCase.Day> solve(CountyCase c, double seconds) {
    List<Slot> slots = new ArrayList<>();
    for (int crew = 0; crew < c.crews().length; crew++) {
      for (int date : c.crews()[crew].dates()) {
        slots.add(new Slot(crew, date));
      }
    }
    SearchResult found =
        DaySearch.solve(
            problem(c, slots), SearchBudget.seconds(seconds, SEED), SearchProgress.NONE);
    return found.days().stream()
        .map(
            d ->
                new CountyCase.Day(
                    slots.get(d.slot()).crew(),
                    slots.get(d.slot()).date(),
                    d.stops().stream().mapToInt(z -> z).toArray()))
        .toList();
  }

  private static DayProblem problem(CountyCase c, List<Slot> slots) {
    int n = c.zones();
    int places = c.places();
    double[] legs = new double[2 * places * places];
    for (int a = 0; a < places; a++) {
      for (int b = 0; b < places; b++) {
        legs[2 * (a * places + b)] = c.km()[a][b];
        legs[2 * (a * places + b) + 1] = c.minutes()[a][b];
      }
    }
    int crews = c.crews().length;
    DayKind[] kinds = new DayKind[crews];
    double[][] service = new double[crews][];
    for (int k = 0; k < crews; k++) {
      CountyCase.Crew crew = c.crews()[k];
      kinds[k] =
          new DayKind(
              crew.place() - n,
              crew.limitMinutes(),
              crew.limitTonnes(),
              c.costPerKm(),
              crew.costPerMinute(),
              crew.openingCost(),
              -1,
              null);
      int kind = k;
      service[k] =
          IntStream.range(0, n)
              .mapToDouble(z -> c.can(kind, z) ? c.service()[z] : Double.POSITIVE_INFINITY)
              .toArray();
    }
    double[][] late = new double[c.lastDate() + 1][n];
    for (int d = 0; d < late.length; d++) {
      int date = d;
      Arrays.setAll(late[d], z -> c.late(z, date));
    }
    return new DayProblem(
        n,
        places - n,
        legs,
        kinds,
        slots.stream()
            .map(s -> new DayProblem.Slot(s.date(), s.crew(), new int[] {s.crew()}))
            .toArray(DayProblem.Slot[]::new),
        service,
        new double[crews][n],
        c.tonnes(),
        late,
        DayProblem.Shared.nothing(n, late.length),
        c.skip(),
        null);
  }
}
