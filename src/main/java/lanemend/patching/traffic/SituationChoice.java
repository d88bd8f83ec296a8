package lanemend.patching.traffic;

import java.util.List;

/**
 * The typical situation a zone is planned for.
 *
 * @param reason why this one
 * @param source edition and figure
 * @param others that may apply instead, each with the condition
 */
public record SituationChoice(
    Situation situation, String reason, String source, List<Other> others) {

  /** Another situation and when it would be right. */
  public record Other(Situation situation, String when) {}

  public SituationChoice {
    others = List.copyOf(others);
  }
}
