package lanemend.bench.county;

import com.graphhopper.jsprit.core.algorithm.VehicleRoutingAlgorithm;
import com.graphhopper.jsprit.core.algorithm.box.Jsprit;
import com.graphhopper.jsprit.core.algorithm.listener.IterationEndsListener;
import com.graphhopper.jsprit.core.algorithm.termination.TimeTermination;
import com.graphhopper.jsprit.core.problem.Location;
import com.graphhopper.jsprit.core.problem.VehicleRoutingProblem;
import com.graphhopper.jsprit.core.problem.cost.AbstractForwardVehicleRoutingTransportCosts;
import com.graphhopper.jsprit.core.problem.cost.VehicleRoutingActivityCosts;
import com.graphhopper.jsprit.core.problem.driver.Driver;
import com.graphhopper.jsprit.core.problem.job.Job;
import com.graphhopper.jsprit.core.problem.job.Service;
import com.graphhopper.jsprit.core.problem.solution.VehicleRoutingProblemSolution;
import com.graphhopper.jsprit.core.problem.solution.route.VehicleRoute;
import com.graphhopper.jsprit.core.problem.solution.route.activity.TourActivity;
import com.graphhopper.jsprit.core.problem.vehicle.Vehicle;
import com.graphhopper.jsprit.core.problem.vehicle.VehicleImpl;
import com.graphhopper.jsprit.core.problem.vehicle.VehicleTypeImpl;
import com.graphhopper.jsprit.core.util.Solutions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Collectors;
import lanemend.crewdays.CountyCase;

/** jsprit with its regret insertion and all its ruins, on two threads. */
final class JspritPeer implements CountySolver {
  /** Minutes from one date to the next. */
  private static final double DATE = 1_440;

  private static final double PER_TONNE = 1_000;

  private static final int THREADS = 2;

  /** It looks at the clock between iterations only; after so many times its time it is stopped. */
  private static final double PATIENCE = 5;

  /** Calls of the cost function between looks at the clock. */
  private static final int CLOCK_STEP = 1 << 14;

  private static final class OutOfPatience extends RuntimeException {
    private static final long serialVersionUID = 1;
  }

  @Override
  public List<CountyCase.Day> solve(CountyCase c, double seconds) {
    VehicleRoutingProblem problem = problem(c, System.nanoTime() + (long) (PATIENCE * seconds * 1e9));
    // jsprit's own threads would outlive a run that is stopped and keep the program from ending.
    ExecutorService pool = Executors.newFixedThreadPool(THREADS);
    VehicleRoutingAlgorithm algorithm =
        Jsprit.Builder.newInstance(problem)
            .setExecutorService(pool, THREADS)
            .setProperty(Jsprit.Parameter.FAST_REGRET, "true")
            .setProperty(Jsprit.Parameter.VEHICLE_SWITCH, "false")
            .setObjectiveFunction(s -> cost(c, s))
            .buildAlgorithm();
    algorithm.setMaxIterations(Integer.MAX_VALUE);
    TimeTermination enough = new TimeTermination(Math.round(seconds * 1_000));
    algorithm.setPrematureAlgorithmTermination(enough);
    algorithm.addListener(enough);
    List<List<CountyCase.Day>> best = new ArrayList<>();
    algorithm.addListener(
        (IterationEndsListener)
            (i, p, solutions) -> best.add(0, days(Solutions.bestOf(solutions))));
    try {
      return days(Solutions.bestOf(algorithm.searchSolutions()));
    } catch (OutOfPatience e) {
      return best.isEmpty() ? List.of() : best.get(0);
    } finally {
      pool.shutdownNow();
    }
  }

  private static VehicleRoutingProblem problem(CountyCase c, long stopAt) {
    VehicleRoutingProblem.Builder builder =
        VehicleRoutingProblem.Builder.newInstance()
            .setFleetSize(VehicleRoutingProblem.FleetSize.FINITE)
            .setRoutingCost(new Drives(c, stopAt))
            .setActivityCosts(new Work(c));
    for (int i = 0; i < c.crews().length; i++) {
      CountyCase.Crew crew = c.crews()[i];
      VehicleTypeImpl type =
          VehicleTypeImpl.Builder.newInstance("crew " + i)
              .addCapacityDimension(0, (int) (crew.limitTonnes() * PER_TONNE))
              .setFixedCost(crew.openingCost())
              .setCostPerDistance(c.costPerKm())
              .setCostPerTransportTime(crew.costPerMinute())
              .setCostPerServiceTime(crew.costPerMinute())
              .build();
      for (int date : crew.dates()) {
        VehicleImpl.Builder vehicle =
            VehicleImpl.Builder.newInstance(i + "/" + date)
                .setType(type)
                .setStartLocation(Location.newInstance(crew.place()))
                .setEarliestStart(DATE * date)
                .setLatestArrival(DATE * date + crew.limitMinutes());
        skills(crew.skills()).forEach(vehicle::addSkill);
        builder.addVehicle(vehicle.build());
      }
    }
    for (int z = 0; z < c.zones(); z++) {
      builder.addJob(job(c, z));
    }
    return builder.build();
  }

  @SuppressWarnings("unchecked") // jsprit's builder is handed out raw
  private static Service job(CountyCase c, int zone) {
    Service.Builder<Service> job =
        Service.Builder.newInstance("" + zone)
            .setLocation(Location.newInstance(zone))
            .setServiceTime(c.service()[zone])
            .addSizeDimension(0, (int) Math.ceil(c.tonnes()[zone] * PER_TONNE));
    skills(c.skills()[zone]).forEach(job::addRequiredSkill);
    return job.build();
  }

  private static List<String> skills(int bits) {
    List<String> skills = new ArrayList<>();
    for (int i = 0; i < 31; i++) {
      if ((bits >> i & 1) != 0) {
        skills.add("treatment " + i);
      }
    }
    return skills;
  }

  private static double cost(CountyCase c, VehicleRoutingProblemSolution s) {
    double skipped =
        s.getUnassignedJobs().stream()
            .mapToDouble(j -> c.skip()[Integer.parseInt(j.getId())])
            .sum();
    return skipped + Evaluator.daysCost(c, days(s));
  }

  private static List<CountyCase.Day> days(VehicleRoutingProblemSolution s) {
    List<CountyCase.Day> days = new ArrayList<>();
    for (VehicleRoute route : s.getRoutes()) {
      String[] crewAndDate = route.getVehicle().getId().split("/", -1);
      days.add(
          new CountyCase.Day(
              Integer.parseInt(crewAndDate[0]),
              Integer.parseInt(crewAndDate[1]),
              route.getTourActivities().getActivities().stream()
                  .map(a -> ((TourActivity.JobActivity) a).getJob())
                  .map(Job::getId)
                  .mapToInt(Integer::parseInt)
                  .toArray()));
    }
    return days;
  }

  /** Drives by the case's tables. */
  private static final class Drives extends AbstractForwardVehicleRoutingTransportCosts {
    private final CountyCase c;
    private final long stopAt;
    private int calls;

    Drives(CountyCase c, long stopAt) {
      this.c = c;
      this.stopAt = stopAt;
    }

    /** Calls may be lost among threads; the clock is looked at often enough all the same. */
    private void look() {
      if (++calls % CLOCK_STEP == 0 && System.nanoTime() > stopAt) {
        throw new OutOfPatience();
      }
    }

    @Override
    public double getDistance(Location from, Location to, double departure, Vehicle vehicle) {
      return c.km()[from.getIndex()][to.getIndex()];
    }

    @Override
    public double getTransportTime(
        Location from, Location to, double departure, Driver driver, Vehicle vehicle) {
      return c.minutes()[from.getIndex()][to.getIndex()];
    }

    @Override
    public double getTransportCost(
        Location from, Location to, double departure, Driver driver, Vehicle vehicle) {
      look();
      double perMinute =
          vehicle == null
              ? c.crews()[0].costPerMinute()
              : vehicle.getType().getVehicleCostParams().perTransportTimeUnit;
      return c.km()[from.getIndex()][to.getIndex()] * c.costPerKm()
          + c.minutes()[from.getIndex()][to.getIndex()] * perMinute;
    }
  }

  /** Work by the crew's rate, and lateness by date. */
  private static final class Work implements VehicleRoutingActivityCosts {
    private final CountyCase c;

    Work(CountyCase c) {
      this.c = c;
    }

    @Override
    public double getActivityCost(
        TourActivity activity, double arrival, Driver driver, Vehicle vehicle) {
      if (vehicle == null || !(activity instanceof TourActivity.JobActivity)) {
        return 0;
      }
      int zone = activity.getLocation().getIndex();
      return c.service()[zone] * vehicle.getType().getVehicleCostParams().perServiceTimeUnit
          + c.late(zone, (int) (arrival / DATE));
    }

    @Override
    public double getActivityDuration(
        TourActivity activity, double arrival, Driver driver, Vehicle vehicle) {
      return activity.getOperationTime();
    }
  }
}
