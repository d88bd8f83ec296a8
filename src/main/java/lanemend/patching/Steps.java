package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import lanemend.measure.Figure;
import lanemend.measure.Figure.Input;
import lanemend.measure.Unit;

/** Steps of one repair in the order of the work, each with its spread. */
final class Steps {
  private final PatchSettings.Spread spread;
  private final List<WorkStep> steps = new ArrayList<>();

  Steps(PatchSettings.Spread spread) {
    this.spread = spread;
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
    Figure figure = new Figure(name, minutes, Unit.MINUTE, formula, List.of(inputs), source);
    steps.add(new WorkStep(name, figure, minutes * share, false));
    return this;
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
