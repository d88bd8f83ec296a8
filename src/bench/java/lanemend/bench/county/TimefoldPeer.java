package lanemend.bench.county;

import ai.timefold.solver.core.api.solver.Solver;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicPhaseConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.MoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.composite.UnionMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.ListChangeMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.ListRuinRecreateMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.ListSwapMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.SubListChangeMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.SubListSwapMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.list.kopt.KOptListMoveSelectorConfig;
import ai.timefold.solver.core.config.localsearch.LocalSearchPhaseConfig;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.LocalSearchAcceptorConfig;
import ai.timefold.solver.core.config.localsearch.decider.forager.LocalSearchForagerConfig;
import ai.timefold.solver.core.config.score.director.ScoreDirectorFactoryConfig;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.concurrent.atomic.AtomicReference;
import lanemend.crewdays.CountyCase;

/**
 * Timefold, community edition: a list variable for each crew day, an incremental score that adds up
 * only the days a move changed, construction, then late acceptance. Nearby selection and several
 * threads belong to another edition; two solvers run side by side instead, the second with ruin and
 * recreate among its moves, and the better answer counts.
 */
@SuppressWarnings("rawtypes") // the solver takes its move selectors raw
final class TimefoldPeer implements CountySolver {
  private static final int LATE = 400;
  private static final int LEAST_RUINED = 2;
  private static final int MOST_RUINED = 8;
  private static final double RUIN_WEIGHT = 0.02;

  @Override
  public List<CountyCase.Day> solve(CountyCase c, double seconds) {
    return Portfolio.best(
        c, List.of(search(c, config(seconds, 1, moves())), search(c, config(seconds, 2, ruins()))));
  }

  private static Portfolio.Search search(CountyCase c, SolverConfig config) {
    return () -> {
      Solver<CrewDays> solver = SolverFactory.<CrewDays>create(config).buildSolver();
      AtomicReference<CrewDays> best = new AtomicReference<>(CrewDays.empty(c));
      solver.addEventListener(e -> best.set(e.getNewBestSolution()));
      try {
        return solver.solve(CrewDays.empty(c)).days();
      } catch (NoSuchElementException e) {
        // Ruin and recreate of 1.32.0 ends so when its time runs out amid a move.
        return best.get().days();
      }
    };
  }

  private static List<MoveSelectorConfig> moves() {
    List<MoveSelectorConfig> moves = new ArrayList<>();
    moves.add(new ListChangeMoveSelectorConfig());
    moves.add(new ListSwapMoveSelectorConfig());
    moves.add(new SubListChangeMoveSelectorConfig());
    moves.add(new SubListSwapMoveSelectorConfig());
    moves.add(new KOptListMoveSelectorConfig());
    return moves;
  }

  private static List<MoveSelectorConfig> ruins() {
    List<MoveSelectorConfig> moves = moves();
    ListRuinRecreateMoveSelectorConfig ruin =
        new ListRuinRecreateMoveSelectorConfig()
            .withMinimumRuinedCount(LEAST_RUINED)
            .withMaximumRuinedCount(MOST_RUINED);
    ruin.setFixedProbabilityWeight(RUIN_WEIGHT);
    moves.add(ruin);
    return moves;
  }

  private static SolverConfig config(double seconds, long seed, List<MoveSelectorConfig> moves) {
    LocalSearchPhaseConfig local =
        new LocalSearchPhaseConfig()
            .withMoveSelectorConfig(new UnionMoveSelectorConfig().withMoveSelectorList(moves))
            .withAcceptorConfig(new LocalSearchAcceptorConfig().withLateAcceptanceSize(LATE))
            .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1));
    return new SolverConfig()
        .withSolutionClass(CrewDays.class)
        .withEntityClasses(CrewDays.Slot.class, CrewDays.Zone.class)
        .withScoreDirectorFactory(
            new ScoreDirectorFactoryConfig()
                .withIncrementalScoreCalculatorClass(CrewDaysScore.class))
        .withRandomSeed(seed)
        .withPhases(new ConstructionHeuristicPhaseConfig(), local)
        .withTerminationConfig(
            new TerminationConfig().withSpentLimit(Duration.ofMillis(Math.round(seconds * 1_000))));
  }
}
