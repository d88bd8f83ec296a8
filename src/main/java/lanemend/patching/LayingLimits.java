package lanemend.patching;

import static lanemend.measure.Conversion.M_PER_IN;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * Coldest air and surface a repair is laid at; the surface is dry at any temperature. A thin lift
 * cools before it is rolled, so it needs the warmer day. What the mix supplier and the agency's
 * specification say goes first.
 *
 * @param thinLiftM thickest lift of the first step (1 in), at {@code thinC} (55 F); steps to 2, 3,
 *     4 in and more with 45, 40, 35 and 32 F: the table a Georgia paving contractor posts, of lift
 *     thickness and least temperature (read)
 * @param tackC emulsion tack: 50 F in the shade and rising (an emulsion makers' association, read)
 * @param sealC emulsion and chips: 60 F; under 55 to 60 F the asphalt does not hold the stone (read
 *     on a page after a seal-coat manual)
 * @param crackC hot sealant: 40 F pavement (FHWA crack-sealing manual, from memory)
 */
public record LayingLimits(
    double thinLiftM,
    double thinC,
    double secondLiftM,
    double secondC,
    double thirdLiftM,
    double thirdC,
    double fourthLiftM,
    double fourthC,
    double thickestC,
    double tackC,
    double sealC,
    double crackC) {
  private static final String MIX_SOURCE =
      "table of lift thickness and least temperature posted by a Georgia paving contractor (read)";

  static LayingLimits standard() {
    return new LayingLimits(
        M_PER_IN,
        celsius(55),
        2 * M_PER_IN,
        celsius(45),
        3 * M_PER_IN,
        celsius(40),
        4 * M_PER_IN,
        celsius(35),
        celsius(32),
        celsius(50),
        celsius(60),
        celsius(40));
  }

  private static double celsius(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }

  /** Least temperature for hot mix in lifts of this compacted thickness. */
  public double mixC(double liftM) {
    double lift = liftM - 1e-9;
    if (lift <= thinLiftM) {
      return thinC;
    }
    if (lift <= secondLiftM) {
      return secondC;
    }
    if (lift <= thirdLiftM) {
      return thirdC;
    }
    return lift <= fourthLiftM ? fourthC : thickestC;
  }

  /**
   * Least temperatures of a repair, each a figure whose name begins with {@link
   * FigureName#LEAST_TEMPERATURE}; none where nothing is laid.
   *
   * @param worked figures of the repair worked out before
   */
  List<Figure> figures(Treatment treatment, List<Figure> worked) {
    Trace trace = new Trace();
    switch (treatment) {
      case BLADE_PATCH, HAND_PATCH, DIG_OUT_AND_REBUILD, EDGE_REPAIR -> {
        named(worked, FigureName.LIFTS).ifPresent(lifts -> mix(trace, lifts));
        named(worked, FigureName.TACK)
            .filter(tack -> tack.value() > 0)
            .ifPresent(
                tack ->
                    limit(trace, "tack", tackC, "emulsion makers' association, tack page (read)"));
      }
      case SURFACE_TREATMENT ->
          limit(trace, "emulsion and chips", sealC, "page after a seal-coat manual (read)");
      case CRACK_TREATMENT ->
          limit(trace, "sealant", crackC, "FHWA crack-sealing manual (from memory)");
      case DEFER_TO_OVERLAY -> {}
    }
    return trace.figures();
  }

  private static Optional<Figure> named(List<Figure> figures, String name) {
    return figures.stream().filter(f -> f.name().equals(name)).findFirst();
  }

  private void mix(Trace trace, Figure lifts) {
    double lift = lifts.inputs().get(0).value() / lifts.value();
    trace.add(
        FigureName.LEAST_TEMPERATURE + "hot mix",
        mixC(lift),
        Unit.DEGREE_CELSIUS,
        "air and surface, by the compacted thickness of a lift",
        MIX_SOURCE,
        Trace.in("lift", lift, Unit.THICKNESS_METER));
  }

  private static void limit(Trace trace, String what, double leastC, String source) {
    trace.add(
        FigureName.LEAST_TEMPERATURE + what,
        leastC,
        Unit.DEGREE_CELSIUS,
        "air and surface, as set for the agency",
        source);
  }
}
