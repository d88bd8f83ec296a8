package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * How the roller covers one lift of a mat.
 *
 * @param strips side by side
 * @param trips runs over the length of the mat for one lift
 * @param minutes for one lift
 */
record RollPattern(double strips, double trips, double minutes, Figure output) {

  static RollPattern of(Trace trace, TaperedMat mat, double liftM, PatchSettings.Roller roller) {
    return of(trace, mat.lengthM(), mat.widthM(), liftM, roller);
  }

  static RollPattern of(
      Trace trace, double lengthM, double widthM, double liftM, PatchSettings.Roller roller) {
    double effective = roller.drumM() - roller.overlapM();
    Figure strips =
        trace.add(
            "roller strips",
            Math.max(1, Math.ceil((widthM - roller.overlapM()) / effective - 1e-9)),
            Unit.COUNT,
            "(width - overlap) / (drum - overlap), rounded up",
            Trace.GEOMETRY,
            in("width", widthM, Unit.METER),
            in("drum", roller.drumM(), Unit.METER),
            in("overlap", roller.overlapM(), Unit.METER));
    Figure output =
        trace.add(
            "roller output",
            RollerOutput.compactedM3PerHour(
                effective, roller.kmh(), liftM, roller.efficiency(), roller.passes()),
            Unit.CUBIC_METER_PER_HOUR,
            RollerOutput.FORMULA,
            RollerOutput.SOURCE,
            in("drum less overlap W", effective, Unit.METER),
            in("speed S", roller.kmh(), Unit.KM_PER_HOUR),
            in("lift L", liftM, Unit.THICKNESS_METER),
            in("efficiency E", roller.efficiency(), Unit.RATIO),
            in("passes P", roller.passes(), Unit.COUNT));
    double trips = strips.value() * roller.passes();
    // The roller covers whole strips, so it rolls their width and not the mat's.
    double rolledM3 = strips.value() * effective * lengthM * liftM;
    double minutes = rolledM3 / output.value() * 60 + trips * roller.reversalMinutes();
    return new RollPattern(strips.value(), trips, minutes, output);
  }

  void step(String name, Steps steps, double lifts) {
    steps.machine(
        name,
        lifts * minutes,
        "lifts x (volume under the strips / roller output + reversals)",
        RollerOutput.SOURCE,
        in("lifts", lifts, Unit.COUNT),
        output.asInput(),
        in("trips for a lift", trips, Unit.COUNT),
        in("minutes for a lift", minutes, Unit.MINUTE));
  }
}
