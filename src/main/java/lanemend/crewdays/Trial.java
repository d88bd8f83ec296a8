package lanemend.crewdays;

import java.math.BigDecimal;
import java.util.List;

/**
 * What a change made by hand would give.
 *
 * @param broken each limit it would break, a sentence each; empty when it is possible
 * @param costBefore of the plan, by the agency's rates
 * @param costAfter of the plan with the change, limits apart; null when it has no cost, as where
 *     there is no road or the crew does not work
 * @param assignment the plan with the change; null when it is not possible
 */
public record Trial(
    List<String> broken, BigDecimal costBefore, BigDecimal costAfter, Assignment assignment) {
  public Trial {
    broken = List.copyOf(broken);
  }

  public boolean possible() {
    return broken.isEmpty();
  }
}
