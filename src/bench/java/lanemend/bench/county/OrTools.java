package lanemend.bench.county;

import com.google.ortools.Loader;
import com.google.ortools.constraintsolver.Assignment;
import com.google.ortools.constraintsolver.FirstSolutionStrategy;
import com.google.ortools.constraintsolver.LocalSearchMetaheuristic;
import com.google.ortools.constraintsolver.RoutingDimension;
import com.google.ortools.constraintsolver.RoutingIndexManager;
import com.google.ortools.constraintsolver.RoutingModel;
import com.google.ortools.constraintsolver.RoutingSearchParameters;
import com.google.ortools.constraintsolver.main;
import com.google.protobuf.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import lanemend.crewdays.CountyCase;

/**
 * OR-Tools routing. It searches on one thread, so two models run side by side with different first
 * solutions and the better answer counts; building the models is not counted in its time.
 */
final class OrTools implements CountySolver {
  /** Time is in hundredths of a minute. */
  private static final double PER_MINUTE = 100;

  /** Time from one date to the next: long beside a shift, so that minutes hardly count as late. */
  private static final long DATE = 100_000_000;

  /** Cost of one unit of money: a day late then costs a whole number for each unit of time. */
  private static final double PER_MONEY = 1e8;

  /** A day of 24 hours in units of time. */
  private static final long LONGEST_SHIFT = 144_000;

  private static final double PER_TONNE = 1_000;

  private record Slot(int crew, int date) {}

  @Override
  public List<CountyCase.Day> solve(CountyCase c, double seconds) {
    Loader.loadNativeLibraries();
    FirstSolutionStrategy.Value[] first = {
      FirstSolutionStrategy.Value.PATH_CHEAPEST_ARC,
      FirstSolutionStrategy.Value.PARALLEL_CHEAPEST_INSERTION
    };
    return Portfolio.best(
        c, Arrays.stream(first).map(f -> new Built(c).search(f, seconds)).toList());
  }

  private static final class Built {
    private final CountyCase c;
    private final List<Slot> slots = new ArrayList<>();
    private final RoutingIndexManager manager;
    private final RoutingModel model;

    Built(CountyCase c) {
      this.c = c;
      for (int crew = 0; crew < c.crews().length; crew++) {
        for (int date : c.crews()[crew].dates()) {
          slots.add(new Slot(crew, date));
        }
      }
      int[] yard = slots.stream().mapToInt(s -> c.crews()[s.crew()].place()).toArray();
      manager = new RoutingIndexManager(c.places(), slots.size(), yard, yard);
      model = new RoutingModel(manager);
      costs();
      times();
      tonnes();
      crewsAndSkips();
    }

    /** Kilometres and minutes of an arc, by the crew's rate; the zone left is served on it. */
    private void costs() {
      Map<Double, Integer> byRate = new HashMap<>();
      for (int v = 0; v < slots.size(); v++) {
        CountyCase.Crew crew = c.crews()[slots.get(v).crew()];
        int evaluator =
            byRate.computeIfAbsent(
                crew.costPerMinute(),
                rate ->
                    model.registerTransitMatrix(
                        matrix(
                            (a, b) ->
                                PER_MONEY
                                    * (c.km()[a][b] * c.costPerKm()
                                        + rate * (served(a) + c.minutes()[a][b])))));
        model.setArcCostEvaluatorOfVehicle(evaluator, v);
        model.setFixedCostOfVehicle(Math.round(PER_MONEY * crew.openingCost()), v);
      }
    }

    private double served(int place) {
      return place < c.zones() ? c.service()[place] : 0;
    }

    private interface Arc {
      double value(int from, int to);
    }

    private long[][] matrix(Arc arc) {
      long[][] matrix = new long[c.places()][c.places()];
      for (int a = 0; a < matrix.length; a++) {
        for (int b = 0; b < matrix.length; b++) {
          matrix[a][b] = a == b ? 0 : (long) Math.ceil(Math.min(1e14, arc.value(a, b)));
        }
      }
      return matrix;
    }

    private void times() {
      int transit =
          model.registerTransitMatrix(
              matrix((a, b) -> PER_MINUTE * (served(a) + c.minutes()[a][b])));
      model.addDimension(transit, 0, DATE * (c.lastDate() + 2L), false, "time");
      RoutingDimension time = model.getMutableDimension("time");
      for (int v = 0; v < slots.size(); v++) {
        long start = DATE * slots.get(v).date();
        long limit = (long) (PER_MINUTE * c.crews()[slots.get(v).crew()].limitMinutes());
        time.cumulVar(model.start(v)).setRange(start, start);
        time.cumulVar(model.end(v)).setRange(start, start + limit);
      }
      for (int z = 0; z < c.zones(); z++) {
        if (c.due()[z] < c.lastDate()) {
          long perTime = Math.round(c.latePerDay()[z] * PER_MONEY / DATE);
          time.setCumulVarSoftUpperBound(
              manager.nodeToIndex(z), DATE * c.due()[z] + LONGEST_SHIFT, perTime);
        }
      }
    }

    private void tonnes() {
      long[] load = new long[c.places()];
      for (int z = 0; z < c.zones(); z++) {
        load[z] = (long) Math.ceil(c.tonnes()[z] * PER_TONNE - 1e-9);
      }
      long[] limits =
          slots.stream()
              .mapToLong(s -> (long) (c.crews()[s.crew()].limitTonnes() * PER_TONNE))
              .toArray();
      model.addDimensionWithVehicleCapacity(
          model.registerUnaryTransitVector(load), 0, limits, true, "tonnes");
    }

    private void crewsAndSkips() {
      for (int z = 0; z < c.zones(); z++) {
        int zone = z;
        int[] can =
            IntStream.range(0, slots.size())
                .filter(v -> c.can(slots.get(v).crew(), zone))
                .toArray();
        long index = manager.nodeToIndex(z);
        if (can.length < slots.size()) {
          model.setAllowedVehiclesForIndex(can, index);
        }
        model.addDisjunction(new long[] {index}, Math.round(PER_MONEY * c.skip()[z]));
      }
    }

    Portfolio.Search search(FirstSolutionStrategy.Value first, double seconds) {
      RoutingSearchParameters parameters =
          main.defaultRoutingSearchParameters().toBuilder()
              .setFirstSolutionStrategy(first)
              .setLocalSearchMetaheuristic(LocalSearchMetaheuristic.Value.GUIDED_LOCAL_SEARCH)
              .setTimeLimit(Duration.newBuilder().setSeconds(Math.round(seconds)).build())
              .build();
      return () -> {
        Assignment found = model.solveWithParameters(parameters);
        return found == null ? List.of() : days(found);
      };
    }

    private List<CountyCase.Day> days(Assignment found) {
      List<CountyCase.Day> days = new ArrayList<>();
      for (int v = 0; v < slots.size(); v++) {
        List<Integer> zones = new ArrayList<>();
        long index = found.value(model.nextVar(model.start(v)));
        while (!model.isEnd(index)) {
          zones.add(manager.indexToNode(index));
          index = found.value(model.nextVar(index));
        }
        days.add(
            new CountyCase.Day(
                slots.get(v).crew(),
                slots.get(v).date(),
                zones.stream().mapToInt(z -> z).toArray()));
      }
      return days;
    }
  }
}
