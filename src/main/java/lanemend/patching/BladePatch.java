package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** A mat of premix dumped in a windrow and laid in lifts by a motor grader. */
final class BladePatch {
  private static final String DUMP = "dump and windrow";
  private static final String PASSES = "blade passes";
  private static final String ROLL = "roll";
  private static final String FINISH = "finish";

  private final Defect defect;
  private final RoadSetting setting;
  private final PatchSettings settings;
  private final Trace trace = new Trace();

  private BladePatch(Defect defect, RoadSetting setting, PatchSettings settings) {
    this.defect = defect;
    this.setting = setting;
    this.settings = settings;
  }

  static Repair of(Defect defect, RoadSetting setting, PatchSettings settings) {
    return new BladePatch(defect, setting, settings).work();
  }

  private Repair work() {
    BladeMat mat = BladeMat.of(trace, defect, setting, settings);
    Figure compacted = mat.compacted(trace);
    double overrun = 2 * settings.blade().dumpOverrunM() / mat.cover().lengthM();
    MixOrder mix = MixOrder.of(trace, compacted, overrun, settings);
    Figure lifts = MixOrder.lifts(trace, mat.deepestM(), settings.blade().maxLiftM());
    TackSpray.of(
        trace,
        mat.cover().footprintM2(),
        "existing asphalt, " + defect.severity().name().toLowerCase(Locale.ROOT) + " severity",
        TackSpray.residual(settings.material().existingSurface(), defect.severity()),
        settings.material());
    BladeMotion motion = BladeMotion.of(trace, mat, lifts, settings);
    RollPattern rolling =
        RollPattern.of(trace, mat.cover(), mat.deepestM() / lifts.value(), settings.roller());
    Steps steps = steps(mat, mix, motion, rolling, lifts.value());
    laydownRate(mix, steps);
    LayDownPlan plan =
        new LayDownSheet(defect, setting, settings)
            .plan(new LayDownSheet.Work(mat, mix, lifts, motion, rolling));
    return new Repair(
        trace.figures(),
        steps.list(),
        EnumSet.of(
            Equipment.MOTOR_GRADER, Equipment.DISTRIBUTOR, Equipment.BROOM, Equipment.ROLLER),
        Optional.of(plan),
        notes(mat, lifts));
  }

  private Steps steps(
      BladeMat mat, MixOrder mix, BladeMotion motion, RollPattern rolling, double lifts) {
    PatchSettings.Blade blade = settings.blade();
    Steps steps = new Steps(settings);
    CommonSteps common = new CommonSteps(settings, steps);
    cutAndClean(steps, motion);
    common.sweep(mat.cover().lengthM(), mat.cover().widthM());
    common.distributorTack(mat.cover().lengthM(), mat.cover().widthM());
    common.dump(DUMP, mix.loads());
    steps.machine(
        PASSES,
        motion.spreadMinutes(blade),
        "P D / (S E) forward + P D / (S E) backing + turns",
        GraderTime.SOURCE,
        motion.inputs(motion.spreadPasses(), blade.spreadKmh(), blade));
    rolling.step(ROLL, steps, lifts);
    steps.machine(
        FINISH,
        motion.finishMinutes(blade),
        "P D / (S E) forward + P D / (S E) backing + turns",
        GraderTime.SOURCE,
        motion.inputs(motion.finishPasses(), blade.finishKmh(), blade));
    common.cleanUp(settings.clean().cleanUpMinutes());
    return steps;
  }

  private void cutAndClean(Steps steps, BladeMotion motion) {
    PatchSettings.Blade blade = settings.blade();
    // One cut levels the shoulder so that water drains; a shoved mat is cut down twice besides.
    double cuts = defect.kind() == DefectKind.SHOVING ? 3 : 1;
    double byHand = settings.clean().handMinutesPerM2() * defect.areaM2();
    steps.machine(
        "cut and clean",
        motion.minutes(cuts, blade.cutKmh(), blade) + byHand,
        "cuts by P D / (S E) with backing and turns + cleaning out by hand, minutes for each m2",
        GraderTime.SOURCE,
        in("cuts P", cuts, Unit.COUNT),
        in("distance of a cut D", motion.distanceM(), Unit.METER),
        in("speed S", blade.cutKmh(), Unit.KM_PER_HOUR),
        in("efficiency E", blade.efficiency(), Unit.RATIO),
        in("cleaning out", byHand, Unit.MINUTE));
  }

  /**
   * What the trucks must feed: the mix over the minutes in which the grader and roller place it.
   */
  private void laydownRate(MixOrder mix, Steps steps) {
    double minutes = steps.minutesOf(Set.of(DUMP, PASSES, ROLL, FINISH));
    trace.add(
        FigureName.LAYDOWN_RATE,
        mix.order().value() / (minutes / 60),
        Unit.TONNE_PER_HOUR,
        "mix to order / minutes of dumping, blade passes, rolling and finishing",
        Trace.ARITHMETIC,
        mix.order().asInput(),
        in("placing", minutes, Unit.MINUTE));
  }

  private List<String> notes(BladeMat mat, Figure lifts) {
    List<String> notes = new ArrayList<>();
    double lift = mat.deepestM() / lifts.value();
    if (lift < 2 * settings.material().largestStoneM()) {
      Spoken spoken = new Spoken(settings.wordsIn());
      notes.add(
          "Lifts of "
              + spoken.thickness(lift)
              + " are under twice the largest stone ("
              + spoken.thickness(settings.material().largestStoneM())
              + "): the blade will drag it; use a finer mix or fewer lifts.");
    }
    return notes;
  }
}
