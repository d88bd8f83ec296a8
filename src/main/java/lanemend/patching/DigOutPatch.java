package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** Failed mat and base taken out and rebuilt: base stone in lifts, asphalt in lifts on top. */
final class DigOutPatch {
  private static final String PLACE = "place mix";
  private static final String ROLL = "roll mix";

  private final Defect defect;
  private final PatchSettings settings;
  private final PatchSettings.DigOut dig;
  private final Trace trace = new Trace();

  private DigOutPatch(Defect defect, PatchSettings settings) {
    this.defect = defect;
    this.settings = settings;
    this.dig = settings.digOut();
  }

  static Repair of(Defect defect, PatchSettings settings) {
    return new DigOutPatch(defect, settings).work();
  }

  private Repair work() {
    Cut cut =
        Cut.of(trace, defect, settings.outline().digOutMarginM(), dig.leastDepthM(), "dig-out");
    Figure spoil = spoil(cut);
    Cut base = new Cut(cut.lengthM(), cut.widthM(), cut.depthM() - asphaltM(cut));
    Figure stone = stone(base);
    Cut top = new Cut(cut.lengthM(), cut.widthM(), asphaltM(cut));
    MixOrder mix = MixOrder.of(trace, top.volume(trace), 0, settings);
    Figure lifts = MixOrder.lifts(trace, top.depthM(), dig.asphaltLiftM());
    tack(top, lifts);
    Steps steps = new Steps(settings);
    CommonSteps common = new CommonSteps(settings, steps);
    common.sawAndClear(cut.perimeterM(), 0);
    steps.machine(
        "dig out and load",
        cut.areaM2() * cut.depthM() / dig.digM3PerHour() * 60,
        "volume in place / digging output",
        Figure.COMMON_PRACTICE,
        in("volume in place", cut.areaM2() * cut.depthM(), Unit.CUBIC_METER),
        in("digging output", dig.digM3PerHour(), Unit.CUBIC_METER_PER_HOUR),
        spoil.asInput());
    placeBase(steps, base, stone);
    Set<Equipment> equipment =
        EnumSet.of(
            Equipment.PAVEMENT_SAW,
            Equipment.LOADER,
            Equipment.ROLLER,
            Equipment.PLATE_COMPACTOR,
            Equipment.BROOM);
    common.tack(cut, equipment);
    placeMix(steps, top, mix, lifts);
    common.cleanUp(settings.clean().cleanUpMinutes());
    HandPatch.laydownRate(trace, mix, steps.minutesOf(Set.of(PLACE, ROLL)));
    return new Repair(
        trace.figures(),
        steps.list(),
        equipment,
        Optional.empty(),
        List.of(
            "Find where the water comes from before closing the hole: a dig-out over a wet base"
                + " fails again."));
  }

  private double asphaltM(Cut cut) {
    return Math.min(dig.asphaltM(), cut.depthM());
  }

  private Figure spoil(Cut cut) {
    return trace.add(
        "spoil to haul away",
        cut.areaM2() * cut.depthM() * dig.spoilSwell(),
        Unit.CUBIC_METER,
        "volume in place x swell",
        "FM 5-434 table 1-1 gives 1.11-1.43 for soils (as quoted); value " + Figure.COMMON_PRACTICE,
        in("volume in place", cut.areaM2() * cut.depthM(), Unit.CUBIC_METER),
        in("swell", dig.spoilSwell(), Unit.RATIO));
  }

  private Figure stone(Cut base) {
    double density = settings.material().baseKgPerM3();
    return trace.add(
        "base stone to order",
        base.areaM2() * base.depthM() * density / 1000 * (1 + settings.material().mixWaste()),
        Unit.TONNE,
        "area x (cut depth - asphalt) x density x (1 + waste)",
        "135 lb/ft3 from memory",
        in("area", base.areaM2(), Unit.SQUARE_METER),
        in("base depth", base.depthM(), Unit.THICKNESS_METER),
        in("density", density, Unit.KG_PER_CUBIC_METER),
        in("waste", settings.material().mixWaste(), Unit.RATIO));
  }

  /** The sawn sides by the milled rate, the top of each lower lift by that for new asphalt. */
  private void tack(Cut top, Figure lifts) {
    double sides = top.perimeterM() * top.depthM();
    double between = top.areaM2() * (lifts.value() - 1);
    MaterialSettings material = settings.material();
    double residual =
        (sides * TackSpray.residual(material.milledSurface(), defect.severity())
                + between * material.newSurface().middle())
            / (sides + between);
    TackSpray.of(
        trace,
        sides + between,
        "sawn sides and new asphalt between lifts, weighted by area",
        residual,
        material);
  }

  private void placeBase(Steps steps, Cut base, Figure stone) {
    double lifts = Math.ceil(base.depthM() / dig.baseLiftM() - 1e-9);
    double place = stone.value() / dig.placeBaseTonnesPerHour() * 60;
    double roll = 0;
    if (lifts > 0) {
      roll =
          lifts
              * RollPattern.of(
                      new Trace(),
                      base.lengthM(),
                      base.widthM(),
                      base.depthM() / lifts,
                      settings.roller())
                  .minutes();
    }
    steps.machine(
        "place and compact base",
        place + roll,
        "stone / placing output + base lifts x rolling",
        Figure.COMMON_PRACTICE,
        stone.asInput(),
        in("placing output", dig.placeBaseTonnesPerHour(), Unit.TONNE_PER_HOUR),
        in("base lifts", lifts, Unit.COUNT),
        in("rolling", roll, Unit.MINUTE));
  }

  private void placeMix(Steps steps, Cut top, MixOrder mix, Figure lifts) {
    steps.machine(
        PLACE,
        mix.drawn().value() / dig.placeMixTonnesPerHour() * 60,
        "mix / placing output",
        Figure.COMMON_PRACTICE,
        mix.drawn().asInput(),
        in("placing output", dig.placeMixTonnesPerHour(), Unit.TONNE_PER_HOUR));
    RollPattern.of(
            trace, top.lengthM(), top.widthM(), top.depthM() / lifts.value(), settings.roller())
        .step(ROLL, steps, lifts.value());
  }
}
