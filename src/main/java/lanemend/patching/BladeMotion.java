package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * How often and how far the grader runs.
 *
 * @param effectiveM width a pass covers
 * @param acrossPasses passes side by side over the mat's width
 * @param spreadPasses carrying mix, over all lifts
 * @param finishPasses the last, shaping ones
 * @param distanceM of one pass
 */
record BladeMotion(
    double effectiveM,
    double acrossPasses,
    double spreadPasses,
    double finishPasses,
    double distanceM) {

  static BladeMotion of(Trace trace, BladeMat mat, Figure lifts, PatchSettings settings) {
    PatchSettings.Blade blade = settings.blade();
    Figure effective =
        trace.add(
            "effective blade width",
            effectiveWidth(blade.moldboardM(), blade.carryAngleDegrees(), blade.overlapM()),
            Unit.METER,
            "blade length x cos(angle from square) - overlap",
            Trace.GEOMETRY,
            in("blade length", blade.moldboardM(), Unit.METER),
            in("angle from square", blade.carryAngleDegrees(), Unit.DEGREE),
            in("overlap", blade.overlapM(), Unit.METER));
    Figure across =
        trace.add(
            "passes side by side",
            Math.max(1, Math.ceil(mat.cover().widthM() / effective.value() - 1e-9)),
            Unit.COUNT,
            "mat width with feather / effective blade width, rounded up",
            Trace.GEOMETRY,
            in("mat width", mat.cover().widthM(), Unit.METER),
            effective.asInput());
    double spread = 2 * across.value() * lifts.value();
    Figure passes =
        trace.add(
            FigureName.PASSES,
            spread + across.value(),
            Unit.COUNT,
            "lifts x 2 (out to the shoulder and back) x passes side by side + one finishing round",
            Figure.COMMON_PRACTICE,
            lifts.asInput(),
            across.asInput());
    Figure distance =
        trace.add(
            "length of a pass",
            mat.cover().lengthM() + 2 * (blade.dumpOverrunM() + blade.turnOutM()),
            Unit.METER,
            "patch with tapers + 2 x (dumped beyond the tack + turn-out room)",
            Figure.COMMON_PRACTICE,
            in("patch with tapers", mat.cover().lengthM(), Unit.METER),
            in("beyond the tack", blade.dumpOverrunM(), Unit.METER),
            in("turn-out room", blade.turnOutM(), Unit.METER));
    return new BladeMotion(
        effective.value(), across.value(), spread, passes.value() - spread, distance.value());
  }

  /** Width a blade at an angle cleans, less the overlap; at least a tenth of the blade. */
  static double effectiveWidth(double bladeM, double degreesFromSquare, double overlapM) {
    double width = bladeM * Math.cos(Math.toRadians(degreesFromSquare)) - overlapM;
    if (!(width > bladeM / 10)) {
      throw new IllegalArgumentException(
          "a blade of "
              + bladeM
              + " m at "
              + degreesFromSquare
              + " degrees with "
              + overlapM
              + " m overlap covers next to nothing; a smaller angle or overlap is expected");
    }
    return width;
  }

  double spreadMinutes(PatchSettings.Blade blade) {
    return minutes(spreadPasses, blade.spreadKmh(), blade);
  }

  double finishMinutes(PatchSettings.Blade blade) {
    return minutes(finishPasses, blade.finishKmh(), blade);
  }

  /** Forward passes, the way back on short runs, and a turn or stop after each. */
  double minutes(double passes, double kmh, PatchSettings.Blade blade) {
    double forward = GraderTime.minutes(passes, distanceM, kmh, blade.efficiency());
    double backing =
        backs(blade)
            ? GraderTime.minutes(passes, distanceM, blade.reverseKmh(), blade.efficiency())
            : 0;
    return forward + backing + passes * blade.turnMinutes();
  }

  Figure.Input[] inputs(double passes, double kmh, PatchSettings.Blade blade) {
    return new Figure.Input[] {
      in("passes P", passes, Unit.COUNT),
      in("distance of a pass D", distanceM, Unit.METER),
      in("speed S", kmh, Unit.KM_PER_HOUR),
      in("backing speed", backs(blade) ? blade.reverseKmh() : 0, Unit.KM_PER_HOUR),
      in("efficiency E", blade.efficiency(), Unit.RATIO),
      in("turn", blade.turnMinutes(), Unit.MINUTE)
    };
  }

  private boolean backs(PatchSettings.Blade blade) {
    return distanceM <= blade.backUpToM();
  }
}
