package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** A squared cut filled by shovel and rake and compacted under a plate. */
final class HandPatch {
  private static final String PLACE = "place and rake";
  private static final String COMPACT = "compact";

  private HandPatch() {}

  static Repair of(Defect defect, PatchSettings settings) {
    PatchSettings.HandWork hand = settings.hand();
    Trace trace = new Trace();
    Cut cut =
        Cut.of(trace, defect, settings.outline().handMarginM(), hand.leastDepthM(), "hand patch");
    MixOrder mix = MixOrder.of(trace, cut.volume(trace), 0, settings);
    Figure lifts = MixOrder.lifts(trace, cut.depthM(), hand.liftM());
    TackSpray.of(
        trace,
        cut.areaM2() + cut.perimeterM() * cut.depthM(),
        "sawn asphalt, bottom and sides",
        TackSpray.residual(settings.material().milledSurface(), defect.severity()),
        settings.material());
    Steps steps = new Steps(settings);
    CommonSteps common = new CommonSteps(settings, steps);
    common.sawAndClear(cut.perimeterM(), cut.areaM2());
    Set<Equipment> equipment = EnumSet.of(Equipment.PAVEMENT_SAW, Equipment.PLATE_COMPACTOR);
    common.tack(cut, equipment);
    place(steps, mix, hand);
    compact(steps, cut, lifts, hand);
    common.cleanUp(hand.cleanUpMinutes());
    laydownRate(trace, mix, steps.minutesOf(Set.of(PLACE, COMPACT)));
    return new Repair(trace.figures(), steps.list(), equipment, Optional.empty(), List.of());
  }

  private static void place(Steps steps, MixOrder mix, PatchSettings.HandWork hand) {
    steps.hand(
        PLACE,
        mix.drawn().value() * hand.placeMinutesPerTonne(),
        "mix x minutes for each tonne",
        mix.drawn().asInput(),
        in("placing 1 t", hand.placeMinutesPerTonne(), Unit.MINUTE));
  }

  private static void compact(Steps steps, Cut cut, Figure lifts, PatchSettings.HandWork hand) {
    double minutes =
        lifts.value()
            * cut.areaM2()
            * hand.platePasses()
            / (hand.plateM() * hand.plateKmh() * 1000)
            * 60;
    steps.machine(
        COMPACT,
        minutes,
        "lifts x area x passes / (plate width x speed)",
        Trace.GEOMETRY,
        lifts.asInput(),
        in("area", cut.areaM2(), Unit.SQUARE_METER),
        in("passes", hand.platePasses(), Unit.COUNT),
        in("plate width", hand.plateM(), Unit.METER),
        in("speed", hand.plateKmh(), Unit.KM_PER_HOUR));
  }

  static void laydownRate(Trace trace, MixOrder mix, double placingMinutes) {
    trace.add(
        FigureName.LAYDOWN_RATE,
        mix.order().value() / (placingMinutes / 60),
        Unit.TONNE_PER_HOUR,
        "mix to order / minutes of placing and compacting",
        Trace.ARITHMETIC,
        mix.order().asInput(),
        in("placing", placingMinutes, Unit.MINUTE));
  }
}
