package lanemend.renewal.overlay;

import java.util.List;
import lanemend.measure.Conversion;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.special.Erf;

/**
 * The flexible pavement equation of the AASHTO Guide for Design of Pavement Structures, 1993, part
 * II: {@code log W18 = ZR So + 9.36 log(SN + 1) - 0.20 + log(dPSI / 2.7) / (0.40 + 1094 / (SN +
 * 1)^5.19) + 2.32 log MR - 8.07}, logarithms to base 10, MR in psi.
 */
public final class FlexibleEquation {
  private static final double THINNEST = 0;
  private static final double THICKEST = 20;

  private FlexibleEquation() {}

  /**
   * What the road must carry.
   *
   * @param esals W18, 18-kip equivalent axle loads of the design lane over the design period
   * @param reliability 0.5 to below 1
   * @param overallSd So
   * @param subgradeKpa MR of the subgrade in its effective season, kPa
   * @param psiLoss serviceability at the start less that at the end
   */
  public record Demand(
      double esals, double reliability, double overallSd, double subgradeKpa, double psiLoss) {
    public Demand {
      if (!(esals > 0)
          || !(reliability >= 0.5 && reliability < 1)
          || !(overallSd >= 0)
          || !(subgradeKpa > 0)
          || !(psiLoss > 0 && psiLoss < 5)) {
        throw new IllegalArgumentException(
            "W18 %s, reliability %s, So %s, MR %s kPa, loss %s"
                .formatted(esals, reliability, overallSd, subgradeKpa, psiLoss));
      }
    }
  }

  /** ZR: the standard normal deviate that leaves {@code reliability} above it; not positive. */
  public static double deviate(double reliability) {
    return -Math.sqrt(2) * Erf.erfInv(2 * reliability - 1);
  }

  /** log10 of the loads a structural number carries. */
  public static double logLoads(double sn, double zr, Demand demand) {
    double psi = demand.subgradeKpa() / Conversion.KPA_PER_PSI;
    return zr * demand.overallSd()
        + 9.36 * Math.log10(sn + 1)
        - 0.20
        + Math.log10(demand.psiLoss() / 2.7) / (0.40 + 1094 / Math.pow(sn + 1, 5.19))
        + 2.32 * Math.log10(psi)
        - 8.07;
  }

  /**
   * The structural number (inches of it, by custom) that carries the demand.
   *
   * @throws IllegalArgumentException when the demand lies beyond SN 20
   */
  public static Figure structuralNumber(Demand demand) {
    double zr = deviate(demand.reliability());
    double wanted = Math.log10(demand.esals());
    if (logLoads(THICKEST, zr, demand) < wanted) {
      throw new IllegalArgumentException(
          "%.3g loads on a subgrade of %.0f kPa need more than SN 20: beyond the equation"
              .formatted(demand.esals(), demand.subgradeKpa()));
    }
    double sn =
        logLoads(THINNEST, zr, demand) >= wanted
            ? 0
            : new BracketingNthOrderBrentSolver(1e-10, 1e-12, 5)
                .solve(200, x -> logLoads(x, zr, demand) - wanted, THINNEST, THICKEST);
    return new Figure(
        "structural number needed",
        sn,
        Unit.RATIO,
        "log W18 = ZR So + 9.36 log(SN+1) - 0.20 + log(dPSI/2.7) / (0.40 + 1094/(SN+1)^5.19)"
            + " + 2.32 log MR - 8.07, solved for SN",
        List.of(
            new Figure.Input("W18", demand.esals(), Unit.COUNT),
            new Figure.Input("reliability", 100 * demand.reliability(), Unit.PERCENT),
            new Figure.Input("ZR", zr, Unit.RATIO),
            new Figure.Input("So", demand.overallSd(), Unit.RATIO),
            new Figure.Input("subgrade MR", demand.subgradeKpa(), Unit.KILOPASCAL),
            new Figure.Input("serviceability loss", demand.psiLoss(), Unit.RATIO)),
        "AASHTO Guide for Design of Pavement Structures 1993, part II");
  }
}
