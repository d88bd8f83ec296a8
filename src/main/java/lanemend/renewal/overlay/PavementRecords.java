package lanemend.renewal.overlay;

import java.util.List;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.SurveyedDistress;

/**
 * What an agency has measured of its pavements.
 *
 * @param curves for the condition index
 */
public record PavementRecords(
    List<SurveyedDistress> survey, List<PavementLayer> layers, ConditionIndex.Curves curves) {

  /** Nothing measured yet. */
  public static final PavementRecords NONE =
      new PavementRecords(List.of(), List.of(), ConditionIndex.Curves.NONE);

  public PavementRecords {
    survey = List.copyOf(survey);
    layers = List.copyOf(layers);
  }
}
