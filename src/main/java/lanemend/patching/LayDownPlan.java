package lanemend.patching;

import java.util.List;
import lanemend.measure.Figure;

/**
 * How a blade patch is laid, for the operator.
 *
 * @param figures windrow section, dump start, lifts, share before the finish lift, turn-out room,
 *     taper length, roller passes, each traced
 * @param instructions in the order of the work, plain sentences that name the figures
 */
public record LayDownPlan(List<Figure> figures, List<String> instructions) {
  public LayDownPlan {
    figures = List.copyOf(figures);
    instructions = List.copyOf(instructions);
  }
}
