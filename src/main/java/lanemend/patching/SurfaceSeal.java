package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** Emulsion and chips over a sound but dry or finely cracked surface. */
final class SurfaceSeal {
  private SurfaceSeal() {}

  static Repair of(Defect defect, PatchSettings settings) {
    PatchSettings.SealSettings seal = settings.seal();
    Trace trace = new Trace();
    double lengthM = defect.lengthM() + 2 * seal.marginM();
    double widthM = defect.widthM() + 2 * seal.marginM();
    Figure area =
        trace.add(
            "sealed area",
            lengthM * widthM,
            Unit.SQUARE_METER,
            "(defect length + 2 margins) x (defect width + 2 margins)",
            Trace.GEOMETRY,
            in("defect length", defect.lengthM(), Unit.METER),
            in("defect width", defect.widthM(), Unit.METER),
            in("margin", seal.marginM(), Unit.METER));
    trace.add(
        "seal emulsion to spray",
        area.value() * seal.emulsionLitersPerM2(),
        Unit.LITER,
        "area x rate",
        Figure.COMMON_PRACTICE,
        area.asInput(),
        in("rate", seal.emulsionLitersPerM2(), Unit.LITER_PER_SQUARE_METER));
    Figure chips =
        trace.add(
            "chips to order",
            area.value() * seal.chipsKgPerM2() / 1000 * (1 + seal.waste()),
            Unit.TONNE,
            "area x rate x (1 + waste)",
            Figure.COMMON_PRACTICE,
            area.asInput(),
            in("rate", seal.chipsKgPerM2(), Unit.KILOGRAM_PER_SQUARE_METER),
            in("waste", seal.waste(), Unit.RATIO));
    return new Repair(
        trace.figures(),
        steps(lengthM, widthM, chips, settings),
        EnumSet.of(Equipment.DISTRIBUTOR, Equipment.BROOM, Equipment.ROLLER),
        Optional.empty(),
        List.of("Do not seal a wet surface or with rain or a cold night coming."));
  }

  private static List<WorkStep> steps(
      double lengthM, double widthM, Figure chips, PatchSettings settings) {
    PatchSettings.SealSettings seal = settings.seal();
    PatchSettings.Clean clean = settings.clean();
    Steps steps = new Steps(settings);
    CommonSteps common = new CommonSteps(settings, steps);
    common.sweep(lengthM, widthM);
    double runs = Math.ceil(widthM / clean.barM() - 1e-9);
    steps.machine(
        "spray emulsion",
        runs * clean.tackSpotMinutes() + runs * lengthM / (seal.sprayKmh() * 1000 / 60),
        "runs x (placing + length / speed)",
        Figure.COMMON_PRACTICE,
        in("runs", runs, Unit.COUNT),
        in("placing", clean.tackSpotMinutes(), Unit.MINUTE),
        in("length", lengthM, Unit.METER),
        in("speed", seal.sprayKmh(), Unit.KM_PER_HOUR));
    steps.hand(
        "spread chips",
        chips.value() * seal.spreadMinutesPerTonne(),
        "chips x minutes for each tonne",
        chips.asInput(),
        in("spreading 1 t", seal.spreadMinutesPerTonne(), Unit.MINUTE));
    rollChips(steps, lengthM, widthM, settings.roller());
    steps.waiting(
        "cure", seal.cureMinutes(), "fixed", in("minutes", seal.cureMinutes(), Unit.MINUTE));
    common.cleanUp(clean.cleanUpMinutes());
    return steps.list();
  }

  private static void rollChips(
      Steps steps, double lengthM, double widthM, PatchSettings.Roller roller) {
    double effective = roller.drumM() - roller.overlapM();
    double strips = Math.max(1, Math.ceil((widthM - roller.overlapM()) / effective - 1e-9));
    double trips = strips * roller.passes();
    steps.machine(
        "roll",
        GraderTime.minutes(trips, lengthM, roller.kmh(), roller.efficiency())
            + trips * roller.reversalMinutes(),
        "P D / (S E) + reversals",
        GraderTime.SOURCE,
        GraderTime.inputs(trips, lengthM, roller.kmh(), roller.efficiency()));
  }
}
