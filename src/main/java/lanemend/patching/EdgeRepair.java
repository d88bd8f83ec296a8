package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** A broken edge cut back to sound mat, rebuilt, and backed with shoulder stone. */
final class EdgeRepair {
  private static final String PLACE = "place mix";
  private static final String ROLL = "roll mix";

  private EdgeRepair() {}

  static Repair of(Defect defect, PatchSettings settings) {
    PatchSettings.EdgeSettings edge = settings.edge();
    Trace trace = new Trace();
    Cut cut = Cut.atEdge(trace, defect, settings.outline().edgeMarginM(), edge.leastDepthM());
    MixOrder mix = MixOrder.of(trace, cut.volume(trace), 0, settings);
    Figure lifts = MixOrder.lifts(trace, cut.depthM(), settings.hand().liftM());
    double sawn = cut.lengthM() + 2 * cut.widthM();
    TackSpray.of(
        trace,
        cut.areaM2() + sawn * cut.depthM(),
        "sawn asphalt, bottom and three sides",
        TackSpray.residual(settings.material().milledSurface(), defect.severity()),
        settings.material());
    backing(trace, cut, settings);
    Steps steps = new Steps(settings);
    CommonSteps common = new CommonSteps(settings, steps);
    common.sawAndClear(sawn, cut.areaM2());
    common.sweep(cut.lengthM(), cut.widthM());
    Set<Equipment> equipment =
        EnumSet.of(Equipment.PAVEMENT_SAW, Equipment.LOADER, Equipment.ROLLER, Equipment.BROOM);
    common.tack(cut, equipment);
    steps.machine(
        PLACE,
        mix.drawn().value() / edge.placeMixTonnesPerHour() * 60,
        "mix / placing output",
        Figure.COMMON_PRACTICE,
        mix.drawn().asInput(),
        in("placing output", edge.placeMixTonnesPerHour(), Unit.TONNE_PER_HOUR));
    RollPattern.of(
            trace, cut.lengthM(), cut.widthM(), cut.depthM() / lifts.value(), settings.roller())
        .step(ROLL, steps, lifts.value());
    steps.hand(
        "back the edge",
        cut.lengthM() * edge.backMinutesPerM(),
        "length x minutes for each m",
        in("length", cut.lengthM(), Unit.METER),
        in("backing 1 m", edge.backMinutesPerM(), Unit.MINUTE));
    common.cleanUp(settings.clean().cleanUpMinutes());
    HandPatch.laydownRate(trace, mix, steps.minutesOf(Set.of(PLACE, ROLL)));
    return new Repair(
        trace.figures(),
        steps.list(),
        equipment,
        Optional.empty(),
        List.of("Leave the shoulder stone no higher than the mat, so that water runs off."));
  }

  private static void backing(Trace trace, Cut cut, PatchSettings settings) {
    double density = settings.material().baseKgPerM3();
    double width = settings.edge().backingM();
    trace.add(
        "shoulder stone to order",
        // A wedge: full depth at the new edge, nothing at the outside.
        cut.lengthM()
            * width
            * cut.depthM()
            / 2
            * density
            / 1000
            * (1 + settings.material().mixWaste()),
        Unit.TONNE,
        "length x width x depth / 2 x density x (1 + waste)",
        "wedge by geometry; 135 lb/ft3 from memory",
        in("length", cut.lengthM(), Unit.METER),
        in("width", width, Unit.METER),
        in("depth", cut.depthM(), Unit.THICKNESS_METER),
        in("density", density, Unit.KG_PER_CUBIC_METER),
        in("waste", settings.material().mixWaste(), Unit.RATIO));
  }
}
