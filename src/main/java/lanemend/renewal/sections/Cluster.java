package lanemend.renewal.sections;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * A stretch with more repairs than its families and ages explain, or one that somebody asked about.
 *
 * @param rank 1 for the route's strongest
 * @param expected repairs of the families, scaled to the county's total
 * @param score the scan's likelihood ratio, over the window's dispersion where frailty is chance
 * @param pValue chance that the strongest window of a random route scores as high; not a number
 *     where a person chose the stretch, since no chance is known of that
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

  /** A stretch that a person chose: counted, not tested. */
  public static Cluster byHand(
      String routeId, double fromAlongM, double toAlongM, int repairs, double expected) {
    return new Cluster(
        routeId, 0, fromAlongM, toAlongM, repairs, expected, Double.NaN, Double.NaN, false);
  }

  /** False for a stretch that a person chose. */
  public boolean tested() {
    return !Double.isNaN(pValue);
  }

  /** How the flag came to be. */
  public Figure figure() {
    if (!tested()) {
      return new Figure(
          "repairs against expected",
          repairs / expected,
          Unit.RATIO,
          "repairs / expected of its families and ages; chosen by hand, so not tested",
          List.of(
              new Figure.Input("repairs", repairs, Unit.COUNT),
              new Figure.Input("expected", expected, Unit.RATIO),
              new Figure.Input("length", toAlongM - fromAlongM, Unit.ROAD_METER)),
          "docs/renewal.md");
    }
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
