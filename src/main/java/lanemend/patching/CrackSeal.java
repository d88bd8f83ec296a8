package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** Cracks routed, blown clean and filled with hot sealant. */
final class CrackSeal {
  private CrackSeal() {}

  static Repair of(Defect defect, PatchSettings settings) {
    PatchSettings.CrackSettings crack = settings.crack();
    Trace trace = new Trace();
    Figure length = length(trace, defect, crack);
    Figure rate =
        trace.add(
            "sealant for each length",
            kgPerM(crack),
            Unit.KILOGRAM_PER_METER,
            "(groove width x depth + band width x thickness) x density x (1 + waste)",
            "plain geometry of the groove and band",
            in("groove width", crack.reservoirWidthM(), Unit.THICKNESS_METER),
            in("groove depth", crack.reservoirDepthM(), Unit.THICKNESS_METER),
            in("band width", crack.bandWidthM(), Unit.THICKNESS_METER),
            in("band thickness", crack.bandThicknessM(), Unit.THICKNESS_METER),
            in("density", crack.sealantKgPerM3(), Unit.KG_PER_CUBIC_METER),
            in("waste", crack.waste(), Unit.RATIO));
    trace.add(
        "sealant to melt",
        length.value() * rate.value(),
        Unit.KILOGRAM,
        "crack length x sealant for each length",
        Trace.ARITHMETIC,
        length.asInput(),
        rate.asInput());
    Steps steps = new Steps(settings);
    steps.hand(
        "rout and blow clean",
        length.value() * crack.routeMinutesPerM(),
        "length x minutes for each m",
        length.asInput(),
        in("routing 1 m", crack.routeMinutesPerM(), Unit.MINUTE));
    steps.hand(
        "seal",
        length.value() * crack.sealMinutesPerM(),
        "length x minutes for each m",
        length.asInput(),
        in("sealing 1 m", crack.sealMinutesPerM(), Unit.MINUTE));
    steps.waiting(
        "cool", crack.coolMinutes(), "fixed", in("minutes", crack.coolMinutes(), Unit.MINUTE));
    new CommonSteps(settings, steps).cleanUp(settings.hand().cleanUpMinutes());
    return new Repair(
        trace.figures(),
        steps.list(),
        EnumSet.of(Equipment.CRACK_KETTLE),
        Optional.empty(),
        List.of());
  }

  private static Figure length(Trace trace, Defect defect, PatchSettings.CrackSettings crack) {
    Figure.Input along = in("defect length", defect.lengthM(), Unit.METER);
    Figure.Input across = in("defect width", defect.widthM(), Unit.METER);
    if (defect.kind() == DefectKind.TRANSVERSE_CRACKING) {
      double cracks = 1 + Math.floor(defect.lengthM() / crack.transverseSpacingM() + 1e-9);
      return trace.add(
          "crack length",
          cracks * defect.widthM(),
          Unit.METER,
          "cracks x defect width; one crack and one more for each spacing along the road",
          Figure.COMMON_PRACTICE,
          in("cracks", cracks, Unit.COUNT),
          across,
          along,
          in("spacing", crack.transverseSpacingM(), Unit.METER));
    }
    return trace.add(
        "crack length",
        Math.max(defect.lengthM(), defect.widthM()),
        Unit.METER,
        "the longer of the defect's length and width",
        Figure.COMMON_PRACTICE,
        along,
        across);
  }

  private static double kgPerM(PatchSettings.CrackSettings crack) {
    return (crack.reservoirWidthM() * crack.reservoirDepthM()
            + crack.bandWidthM() * crack.bandThicknessM())
        * crack.sealantKgPerM3()
        * (1 + crack.waste());
  }
}
