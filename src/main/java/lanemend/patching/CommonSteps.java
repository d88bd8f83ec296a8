package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.Set;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** Steps that several treatments share. */
final class CommonSteps {
  private final PatchSettings settings;
  private final Steps steps;

  CommonSteps(PatchSettings settings, Steps steps) {
    this.settings = settings;
    this.steps = steps;
  }

  void sweep(double lengthM, double widthM) {
    PatchSettings.Clean clean = settings.clean();
    double passes = Math.ceil(widthM / clean.broomM() - 1e-9) * clean.broomPasses();
    steps.machine(
        "sweep",
        GraderTime.minutes(passes, lengthM, clean.broomKmh(), clean.efficiency()),
        GraderTime.FORMULA,
        GraderTime.SOURCE,
        GraderTime.inputs(passes, lengthM, clean.broomKmh(), clean.efficiency()));
  }

  /** Spraying by distributor and waiting for the emulsion to break. */
  void distributorTack(double lengthM, double widthM) {
    PatchSettings.Clean clean = settings.clean();
    double runs = Math.ceil(widthM / clean.barM() - 1e-9);
    double spray = runs * lengthM / (clean.sprayKmh() * 1000 / 60);
    double wait =
        settings.material().tackMaterial() == TackMaterial.EMULSION ? clean.breakMinutes() : 0;
    steps.waiting(
        "tack and break",
        runs * clean.tackSpotMinutes() + spray + wait,
        "runs x (placing + length / speed) + wait for the emulsion to break",
        in("runs", runs, Unit.COUNT),
        in("placing", clean.tackSpotMinutes(), Unit.MINUTE),
        in("length", lengthM, Unit.METER),
        in("speed", clean.sprayKmh(), Unit.KM_PER_HOUR),
        in("wait", wait, Unit.MINUTE));
  }

  /**
   * Tack by wand or brush, or by distributor where the area is too large for that; the machine used
   * joins {@code equipment}.
   */
  void tack(Cut cut, Set<Equipment> equipment) {
    PatchSettings.HandWork hand = settings.hand();
    if (cut.areaM2() > hand.sprayedUpToM2()) {
      distributorTack(cut.lengthM(), cut.widthM());
      equipment.add(Equipment.DISTRIBUTOR);
    } else {
      steps.waiting(
          "tack and break",
          hand.tackMinutes(),
          "by wand or brush, with the wait",
          in("minutes", hand.tackMinutes(), Unit.MINUTE));
    }
  }

  void dump(String name, Figure loads) {
    double each = settings.truck().spotAndDumpMinutes();
    steps.machine(
        name,
        loads.value() * each,
        "loads x (spot and dump)",
        Figure.COMMON_PRACTICE,
        loads.asInput(),
        in("spot and dump", each, Unit.MINUTE));
  }

  /** Sawing round a cut and lifting the piece out. */
  void sawAndClear(double cutM, double areaM2) {
    PatchSettings.HandWork hand = settings.hand();
    steps.hand(
        "cut and clean",
        cutM * hand.sawMinutesPerM() + areaM2 * hand.clearMinutesPerM2(),
        "cut x minutes for each m + area x minutes for each m2",
        in("cut", cutM, Unit.METER),
        in("sawing 1 m", hand.sawMinutesPerM(), Unit.MINUTE),
        in("area", areaM2, Unit.SQUARE_METER),
        in("clearing 1 m2", hand.clearMinutesPerM2(), Unit.MINUTE));
  }

  void cleanUp(double minutes) {
    steps.hand("clean up", minutes, "fixed", in("minutes", minutes, Unit.MINUTE));
  }
}
