package lanemend.renewal.repairs;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * What one cell's own history says beside its family's.
 *
 * @param repairs seen
 * @param familyExpected repairs an average cell of its family would have had in the same years
 * @param multiplier the cell's rate as a multiple of its family's, shrunk: {@code (kappa + n) /
 *     (kappa + mu)}
 * @param familyWeight share of the multiplier that is the family's 1, {@code kappa / (kappa + mu)};
 *     the rest is the cell's own n / mu
 */
public record CellOutlook(
    int repairs, double familyExpected, double multiplier, double familyWeight) {

  /** The shrinkage as an engineer reads it. */
  public Figure figure() {
    return new Figure(
        "rate against the family",
        multiplier,
        Unit.RATIO,
        "w 1 + (1 - w) repairs / expected",
        List.of(
            new Figure.Input("weight of the family, w", familyWeight, Unit.RATIO),
            new Figure.Input("repairs", repairs, Unit.COUNT),
            new Figure.Input("expected of the family", familyExpected, Unit.RATIO)),
        "gamma-Poisson empirical Bayes (Gaver and O'Muircheartaigh 1987); see docs/renewal.md");
  }
}
