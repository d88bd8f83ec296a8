package lanemend.bench.county;

import com.google.ortools.Loader;
import com.google.ortools.linearsolver.MPConstraint;
import com.google.ortools.linearsolver.MPObjective;
import com.google.ortools.linearsolver.MPSolver;
import com.google.ortools.linearsolver.MPSolverParameters;
import com.google.ortools.linearsolver.MPVariable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.PriorityQueue;
import lanemend.crewdays.CountyCase;

/**
 * The least cost of a small case, proven. Every set of zones a crew can do in a day is listed with
 * its cheapest order ({@link DaySets}); which day does which set is a set-partitioning program. Its
 * linear relaxation is solved by column generation (Barnhart et al. 1998, Operations Research 46),
 * days that cannot be in an answer better than the one at hand are struck by their reduced cost,
 * the relaxation of the rest is cut by triples of zones (Jepsen et al. 2008, Operations Research
 * 56: of three zones at most one set holds two) and struck again, and what is left goes to
 * OR-Tools' integer solver.
 *
 * <p>Not one of the solvers compared: it takes what time it needs.
 */
final class ExactAnswer implements CountySolver {
  /** Columns taken in for each crew day in a round. */
  private static final int PER_SLOT = 6;

  private static final double EPS = 1e-6;

  /** So few columns the integer solver takes at once. */
  private static final int FEW = 2_000;

  /** Triples taken in a round, and by how much they are broken at least. */
  private static final int TRIPLES = 60;

  private static final double BROKEN = 0.02;

  private record Slot(int crew, int date) {}

  /** A set on a crew day. */
  private record Column(int slot, int set, double price) {}

  private CountyCase c;
  private List<Slot> slots;
  private DaySets[] sets;

  @Override
  public List<CountyCase.Day> solve(CountyCase county, double seconds) {
    Loader.loadNativeLibraries();
    c = county;
    slots = new ArrayList<>();
    sets = new DaySets[c.crews().length];
    for (int crew = 0; crew < sets.length; crew++) {
      sets[crew] = DaySets.of(c, crew);
      for (int date : c.crews()[crew].dates()) {
        slots.add(new Slot(crew, date));
      }
    }
    List<CountyCase.Day> known = new OwnSearch().solve(c, seconds);
    double cost = Evaluator.of(c, known).cost();
    Prices prices = relaxed(known);
    List<Column> left = columnsBelow(prices, cost - prices.bound());
    System.err.printf(
        Locale.ROOT,
        "%d sets; known %.2f, linear bound %.2f, %d columns left%n",
        Arrays.stream(sets).mapToLong(DaySets::size).sum(),
        cost,
        prices.bound(),
        left.size());
    left = cut(left, cost);
    Program program = new Program("SCIP", List.of());
    left.forEach(program::add);
    program.solve();
    System.err.printf(
        Locale.ROOT,
        "no answer costs less than %.2f (solver's own bound %.2f)%n",
        program.objective().value(),
        program.objective().bestBound());
    return program.answer();
  }

  /** Cuts and strikes until no triple is broken; what may still be in a better answer. */
  private List<Column> cut(List<Column> all, double cost) {
    List<Column> left = all;
    List<int[]> triples = new ArrayList<>();
    while (true) {
      Program program = new Program("GLOP", triples);
      left.forEach(program::add);
      program.solve();
      List<int[]> broken = program.brokenTriples();
      left = program.columnsBelow(cost);
      System.err.printf(
          Locale.ROOT,
          "%d triples: bound %.2f, %d columns left, %d triples broken%n",
          triples.size(),
          program.objective().value(),
          left.size(),
          broken.size());
      if (broken.isEmpty() || left.size() < FEW) {
        return left;
      }
      triples.addAll(broken);
    }
  }

  /** Duals of the relaxation and the bound they prove, whatever the solver's rounding. */
  private record Prices(double[] zone, double bound) {}

  private Prices relaxed(List<CountyCase.Day> known) {
    Program program = new Program("GLOP", List.of());
    for (CountyCase.Day day : known) {
      int slot = slots.indexOf(new Slot(day.crew(), day.date()));
      int set = sets[day.crew()].indexOf(day.zones());
      program.add(new Column(slot, set, price(slot, set)));
    }
    Prices best = new Prices(new double[c.zones()], Double.NEGATIVE_INFINITY);
    while (true) {
      program.solve();
      double[] zone = program.zonePrices();
      Arrays.setAll(zone, z -> Math.min(zone[z], c.skip()[z]));
      double[] slot = program.slotPrices();
      List<Column> found = new ArrayList<>();
      double bound = Arrays.stream(zone).sum();
      for (int s = 0; s < slots.size(); s++) {
        List<Column> cheapest = cheapest(s, zone);
        bound += cheapest.isEmpty() ? 0 : Math.min(0, reduced(cheapest.get(0), zone));
        for (Column one : cheapest) {
          if (reduced(one, zone) < slot[s] - EPS) {
            found.add(one);
          }
        }
      }
      if (bound > best.bound()) {
        best = new Prices(zone, bound);
      }
      if (found.isEmpty() || program.objective().value() - best.bound() < EPS) {
        return best;
      }
      found.forEach(program::add);
    }
  }

  /** The few columns of a crew day that pay best, the best first. */
  private List<Column> cheapest(int slot, double[] zone) {
    double[] gain = gains(slot, zone);
    DaySets of = sets[slots.get(slot).crew()];
    PriorityQueue<double[]> few =
        new PriorityQueue<>((a, b) -> Double.compare(b[0], a[0]));
    for (int set = 0; set < of.size(); set++) {
      double value = of.cost(set) - of.sum(set, gain);
      if (few.size() < PER_SLOT || value < few.peek()[0]) {
        few.add(new double[] {value, set});
        if (few.size() > PER_SLOT) {
          few.poll();
        }
      }
    }
    List<Column> found = new ArrayList<>();
    while (!few.isEmpty()) {
      int set = (int) few.poll()[1];
      found.add(0, new Column(slot, set, price(slot, set)));
    }
    return found;
  }

  /**
   * Columns that may be in an answer that costs less than the known one: with bound L, prices p and
   * a slot's cheapest reduced cost m (at most 0), a column whose reduced cost exceeds m by the gap
   * or more cannot.
   */
  private List<Column> columnsBelow(Prices prices, double gap) {
    List<Column> left = new ArrayList<>();
    for (int s = 0; s < slots.size(); s++) {
      double[] gain = gains(s, prices.zone());
      DaySets of = sets[slots.get(s).crew()];
      double least = 0;
      for (int set = 0; set < of.size(); set++) {
        least = Math.min(least, of.cost(set) - of.sum(set, gain));
      }
      for (int set = 0; set < of.size(); set++) {
        if (of.cost(set) - of.sum(set, gain) - least <= gap + EPS) {
          left.add(new Column(s, set, price(s, set)));
        }
      }
    }
    return left;
  }

  /** What a zone pays on a crew day: its price less its lateness. */
  private double[] gains(int slot, double[] zone) {
    double[] gain = new double[c.zones()];
    Arrays.setAll(gain, z -> zone[z] - c.late(z, slots.get(slot).date()));
    return gain;
  }

  private double reduced(Column column, double[] zone) {
    DaySets of = sets[slots.get(column.slot()).crew()];
    return column.price() - of.sum(column.set(), zone);
  }

  private double price(int slot, int set) {
    double[] late = new double[c.zones()];
    Arrays.setAll(late, z -> c.late(z, slots.get(slot).date()));
    DaySets of = sets[slots.get(slot).crew()];
    return of.cost(set) + of.sum(set, late);
  }

  /** How many sets' worth of a triple a set holds: one where it has two or three of its zones. */
  private static boolean holds(int[] triple, int[] zones) {
    int both = 0;
    for (int z : zones) {
      both += z == triple[0] || z == triple[1] || z == triple[2] ? 1 : 0;
    }
    return both >= 2;
  }

  /** Each zone once or left out, each crew day at most one set, each triple at most once. */
  private final class Program {
    private final MPSolver solver;
    private final MPConstraint[] zoneRows = new MPConstraint[c.zones()];
    private final MPConstraint[] slotRows = new MPConstraint[slots.size()];
    private final List<Column> columns = new ArrayList<>();
    private final List<MPVariable> variables = new ArrayList<>();
    private final boolean whole;
    private final List<int[]> triples;
    private final List<MPConstraint> tripleRows = new ArrayList<>();

    Program(String name, List<int[]> triples) {
      this.triples = List.copyOf(triples);
      solver = MPSolver.createSolver(name);
      whole = !name.equals("GLOP");
      objective().setMinimization();
      for (int i = 0; i < triples.size(); i++) {
        tripleRows.add(solver.makeConstraint(Double.NEGATIVE_INFINITY, 1));
      }
      for (int s = 0; s < slotRows.length; s++) {
        slotRows[s] = solver.makeConstraint(Double.NEGATIVE_INFINITY, 1);
      }
      for (int z = 0; z < zoneRows.length; z++) {
        zoneRows[z] = solver.makeConstraint(1, 1);
        MPVariable leftOut = variable();
        objective().setCoefficient(leftOut, c.skip()[z]);
        zoneRows[z].setCoefficient(leftOut, 1);
      }
    }

    private MPVariable variable() {
      return whole ? solver.makeIntVar(0, 1, "") : solver.makeNumVar(0, 1, "");
    }

    MPObjective objective() {
      return solver.objective();
    }

    void add(Column column) {
      MPVariable used = variable();
      objective().setCoefficient(used, column.price());
      slotRows[column.slot()].setCoefficient(used, 1);
      int[] zones = zones(column);
      for (int z : zones) {
        zoneRows[z].setCoefficient(used, 1);
      }
      for (int i = 0; i < tripleRows.size(); i++) {
        if (holds(triples.get(i), zones)) {
          tripleRows.get(i).setCoefficient(used, 1);
        }
      }
      columns.add(column);
      variables.add(used);
    }

    void solve() {
      MPSolverParameters exactly = new MPSolverParameters();
      exactly.setDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, 0);
      MPSolver.ResultStatus status = solver.solve(exactly);
      if (status != MPSolver.ResultStatus.OPTIMAL) {
        throw new IllegalStateException("the program was not solved: " + status);
      }
    }

    private int[] zones(Column column) {
      return sets[slots.get(column.slot()).crew()].order(column.set());
    }

    /** The triples broken most. */
    List<int[]> brokenTriples() {
      List<int[]> used = new ArrayList<>();
      List<Double> share = new ArrayList<>();
      for (int i = 0; i < columns.size(); i++) {
        if (variables.get(i).solutionValue() > EPS) {
          used.add(zones(columns.get(i)));
          share.add(variables.get(i).solutionValue());
        }
      }
      record Broken(int[] triple, double by) {}
      List<Broken> broken = new ArrayList<>();
      for (int a = 0; a < c.zones(); a++) {
        for (int b = a + 1; b < c.zones(); b++) {
          for (int d = b + 1; d < c.zones(); d++) {
            int[] triple = {a, b, d};
            double sum = 0;
            for (int i = 0; i < used.size(); i++) {
              sum += holds(triple, used.get(i)) ? share.get(i) : 0;
            }
            if (sum > 1 + BROKEN) {
              broken.add(new Broken(triple, sum));
            }
          }
        }
      }
      broken.sort((x, y) -> Double.compare(y.by(), x.by()));
      return broken.stream().limit(TRIPLES).map(Broken::triple).toList();
    }

    /** Columns that may be in an answer cheaper than this cost, by this program's duals. */
    List<Column> columnsBelow(double cost) {
      double[] zone = zonePrices();
      double[] triple =
          tripleRows.stream().mapToDouble(row -> Math.min(0, row.dualValue())).toArray();
      double bound = Arrays.stream(triple).sum();
      for (int z = 0; z < zone.length; z++) {
        zone[z] = Math.min(zone[z], c.skip()[z]);
        bound += zone[z];
      }
      double[] reduced = new double[columns.size()];
      double[] least = new double[slotRows.length];
      for (int i = 0; i < reduced.length; i++) {
        Column column = columns.get(i);
        reduced[i] = reduced(column, zone);
        for (int t = 0; t < triple.length; t++) {
          reduced[i] -= triple[t] < 0 && holds(triples.get(t), zones(column)) ? triple[t] : 0;
        }
        least[column.slot()] = Math.min(least[column.slot()], reduced[i]);
      }
      bound += Arrays.stream(least).sum();
      List<Column> left = new ArrayList<>();
      for (int i = 0; i < reduced.length; i++) {
        if (bound + reduced[i] - least[columns.get(i).slot()] <= cost + EPS) {
          left.add(columns.get(i));
        }
      }
      return left;
    }

    double[] zonePrices() {
      return Arrays.stream(zoneRows).mapToDouble(MPConstraint::dualValue).toArray();
    }

    double[] slotPrices() {
      return Arrays.stream(slotRows).mapToDouble(MPConstraint::dualValue).toArray();
    }

    List<CountyCase.Day> answer() {
      List<CountyCase.Day> days = new ArrayList<>();
      for (int i = 0; i < columns.size(); i++) {
        if (variables.get(i).solutionValue() > 0.5) {
          Slot slot = slots.get(columns.get(i).slot());
          int[] zones = sets[slot.crew()].order(columns.get(i).set());
          days.add(new CountyCase.Day(slot.crew(), slot.date(), zones));
        }
      }
      return days;
    }
  }
}
