package lanemend.renewal.sections;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * A stretch with more repairs than its families and ages explain.
 *
 * @param rank 1 for the route's strongest
 * @param expected repairs of the families, scaled to the county's total
 * @param score the scan's likelihood ratio, over the window's dispersion where frailty is chance
 * @param pValue chance that the strongest window of a random route scores as high
 * @param flagged passes the false-discovery line
 */
public record Cluster(
    String routeId,
    int rank,
    double fromAlongM,
    double toAlongM,
    int repairs,
    double expected,
    double score,
    double pValue,
    boolean flagged) {

  /** How the flag came to be. */
  public Figure figure() {
    return new Figure(
        "repairs against expected",
        repairs / expected,
        Unit.RATIO,
        "repairs / expected of its families and ages; p by random routes",
        List.of(
            new Figure.Input("repairs", repairs, Unit.COUNT),
            new Figure.Input("expected", expected, Unit.RATIO),
            new Figure.Input("length", toAlongM - fromAlongM, Unit.ROAD_METER),
            new Figure.Input("p-value", pValue, Unit.RATIO)),
        "Kulldorff 1997 scan statistic, Benjamini and Hochberg 1995; docs/renewal.md");
  }
}
