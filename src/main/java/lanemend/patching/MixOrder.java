package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.List;
import java.util.Optional;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * From compacted volume to the mix that is ordered, hauled and dumped.
 *
 * @param compacted volume in place
 * @param drawn tonnes by the drawing, allowances included
 * @param order tonnes to order, {@code drawn} times what was learned of the mix used
 * @param loose volume as dumped
 * @param loads truck loads
 */
record MixOrder(Figure compacted, Figure drawn, Figure order, Figure loose, Figure loads) {
  private static final String BY_DRAWING = "mix by the drawing";
  private static final String NAVY = "NAVEDTRA 14080 p. 8-31, waste factor (read)";

  /**
   * Adds density, neat mass, allowances, order, loose volume and loads to {@code trace}.
   *
   * @param overrunShare mix dumped beyond the patch, as a share of what lies in it; 0 where none is
   */
  static MixOrder of(Trace trace, Figure compacted, double overrunShare, PatchSettings settings) {
    MaterialSettings material = settings.material();
    Figure neat =
        trace.add(
            "mix in place",
            compacted.value() * material.mixKgPerM3() / 1000,
            Unit.TONNE,
            "compacted volume x density",
            "L W D 145 / 2000 in ft and tons, as NAVEDTRA 14080 p. 8-31 with 146 (read)",
            compacted.asInput(),
            in("density", material.mixKgPerM3(), Unit.KG_PER_CUBIC_METER));
    Optional<LearnedFactor> learned = settings.learned().one(LearnedFactor.Measure.MIX);
    String name = learned.isPresent() ? BY_DRAWING : FigureName.MIX;
    Figure drawn = drawn(trace, name, neat, overrunShare, material.mixWaste());
    Figure order =
        learned
            .map(f -> trace.add(Steps.times(named(drawn), f.factor(), f.source())))
            .orElse(drawn);
    Figure loose =
        trace.add(
            "loose volume",
            order.value() * 1000 / material.mixKgPerM3() * material.looseFactor(),
            Unit.CUBIC_METER,
            "mix to order / density x loose factor",
            "Asphalt paving handbook section 7.5: 2.5 in loose for 2 in compacted (read)",
            order.asInput(),
            in("density", material.mixKgPerM3(), Unit.KG_PER_CUBIC_METER),
            in("loose factor", material.looseFactor(), Unit.RATIO));
    Figure loads =
        trace.add(
            FigureName.LOADS,
            Math.ceil(order.value() / settings.truck().payloadTonnes()),
            Unit.COUNT,
            "mix to order / payload, rounded up",
            Trace.ARITHMETIC,
            order.asInput(),
            in("payload", settings.truck().payloadTonnes(), Unit.TONNE));
    return new MixOrder(compacted, drawn, order, loose, loads);
  }

  private static Figure drawn(
      Trace trace, String name, Figure neat, double overrunShare, double waste) {
    Figure.Input wasted = in("waste", waste, Unit.RATIO);
    if (overrunShare == 0) {
      return trace.add(
          name,
          neat.value() * (1 + waste),
          Unit.TONNE,
          "mix in place x (1 + waste)",
          NAVY,
          neat.asInput(),
          wasted);
    }
    Figure overrun =
        trace.add(
            "mix dumped beyond the tack",
            neat.value() * overrunShare,
            Unit.TONNE,
            "mix in place x length beyond the tack / tacked length",
            Figure.COMMON_PRACTICE,
            neat.asInput(),
            in("share", overrunShare, Unit.RATIO));
    return trace.add(
        name,
        neat.value() * (1 + waste) + overrun.value(),
        Unit.TONNE,
        "mix in place x (1 + waste) + mix dumped beyond the tack",
        NAVY,
        neat.asInput(),
        wasted,
        overrun.asInput());
  }

  private static Figure named(Figure drawn) {
    return new Figure(
        FigureName.MIX,
        drawn.value(),
        drawn.unit(),
        BY_DRAWING,
        List.of(drawn.asInput()),
        Trace.ARITHMETIC);
  }

  /** Lifts of at most {@code maxLiftM}. */
  static Figure lifts(Trace trace, double depthM, double maxLiftM) {
    return trace.add(
        FigureName.LIFTS,
        // A depth of exactly 3 lifts must not become 4 by a rounding error in the last digit.
        Math.max(1, Math.ceil(depthM / maxLiftM - 1e-9)),
        Unit.COUNT,
        "deepest compacted thickness / thickest lift, rounded up",
        Figure.COMMON_PRACTICE,
        in("deepest compacted thickness", depthM, Unit.THICKNESS_METER),
        in("thickest lift", maxLiftM, Unit.THICKNESS_METER));
  }
}
