package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.measure.Figure;
import lanemend.measure.Figure.Input;
import lanemend.measure.Unit;

/** Steps of one repair in the order of the work, each with its spread. */
final class Steps {
  private static final String LEARNED = "learned factor";

  private final PatchSettings.Spread spread;
  private final Optional<LearnedFactor> learned;
  private final List<WorkStep> steps = new ArrayList<>();

  /** Steps by settings that are narrowed to the repair's treatment. */
  Steps(PatchSettings settings) {
    spread = settings.spread();
    learned = settings.learned().one(LearnedFactor.Measure.MINUTES);
  }

  Steps machine(String name, double minutes, String formula, String source, Input... inputs) {
    return add(name, minutes, spread.machine(), formula, source, inputs);
  }

  Steps hand(String name, double minutes, String formula, Input... inputs) {
    return add(name, minutes, spread.hand(), formula, Figure.COMMON_PRACTICE, inputs);
  }

  Steps waiting(String name, double minutes, String formula, Input... inputs) {
    return add(name, minutes, spread.waiting(), formula, Figure.COMMON_PRACTICE, inputs);
  }

  private Steps add(
      String name, double minutes, double share, String formula, String source, Input... inputs) {
    Figure designed = new Figure(name, minutes, Unit.MINUTE, formula, List.of(inputs), source);
    Figure figure = learned.map(f -> times(designed, f.factor(), f.source())).orElse(designed);
    steps.add(new WorkStep(name, figure, figure.value() * share, false));
    return this;
  }

  /** A figure multiplied by a factor that done work gave. */
  static Figure times(Figure designed, double factor, String source) {
    List<Input> inputs = new ArrayList<>(designed.inputs());
    inputs.add(new Input(LEARNED, factor, Unit.RATIO));
    return new Figure(
        designed.name(),
        designed.value() * factor,
        designed.unit(),
        "(" + designed.formula() + ") x " + LEARNED,
        inputs,
        designed.source() + "; " + source);
  }

  /** Minutes of the steps with these names. */
  double minutesOf(Set<String> names) {
    return steps.stream()
        .filter(s -> names.contains(s.name()))
        .mapToDouble(s -> s.minutes().value())
        .sum();
  }

  List<WorkStep> list() {
    return List.copyOf(steps);
  }
}
