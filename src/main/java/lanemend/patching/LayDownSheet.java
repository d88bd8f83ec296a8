package lanemend.patching;

import static lanemend.patching.Trace.in;

import java.util.ArrayList;
import java.util.List;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** Writes the lay-down plan of a blade patch: figures, then what the operator does in order. */
final class LayDownSheet {
  private final Defect defect;
  private final PatchSettings.Blade blade;
  private final PatchSettings.Roller roller;
  private final PatchSettings settings;
  private final Spoken say;
  private final String low;
  private final String high;

  /** What the patch's own working already found. */
  record Work(BladeMat mat, MixOrder mix, Figure lifts, BladeMotion motion, RollPattern rolling) {}

  /** Where and how the mix is dumped. */
  private record Windrow(
      double dumpStartM, double count, double sectionM2, double heightM, double widthM) {}

  LayDownSheet(Defect defect, RoadSetting setting, PatchSettings settings) {
    this.defect = defect;
    this.settings = settings;
    this.blade = settings.blade();
    this.roller = settings.roller();
    this.say = new Spoken(settings.wordsIn());
    // Only on a plain two-lane road is the low side surely the shoulder and the high one the crown.
    boolean crowned = !setting.oneDirection() && setting.lanes() <= 2;
    this.low = crowned ? "shoulder" : "low side";
    this.high = crowned ? "centre" : "high side";
  }

  LayDownPlan plan(Work work) {
    Trace trace = new Trace();
    Windrow windrow = windrow(trace, work);
    double lift = work.mat().deepestM() / work.lifts().value();
    trace.add(
        "lift thickness",
        lift,
        Unit.THICKNESS_METER,
        "deepest compacted thickness / lifts",
        Trace.ARITHMETIC,
        in("deepest compacted thickness", work.mat().deepestM(), Unit.THICKNESS_METER),
        work.lifts().asInput());
    Figure before =
        trace.add(
            "mix laid before the finish",
            work.mix().order().value() * blade.shareBeforeFinish(),
            Unit.TONNE,
            "mix to order x share laid before the finish",
            Figure.COMMON_PRACTICE,
            work.mix().order().asInput(),
            in("share", blade.shareBeforeFinish(), Unit.RATIO));
    fixed(trace, "turn-out room at each end", blade.turnOutM());
    fixed(trace, "end taper", work.mat().cover().endTaperM());
    fixed(trace, "feather at each side", blade.featherM());
    trace.add(
        "roller trips for each lift",
        work.rolling().trips(),
        Unit.COUNT,
        "strips x passes",
        Trace.ARITHMETIC,
        in("strips", work.rolling().strips(), Unit.COUNT),
        in("passes", roller.passes(), Unit.COUNT));
    return new LayDownPlan(trace.figures(), sentences(work, windrow, lift, before.value()));
  }

  private void fixed(Trace trace, String name, double meters) {
    trace.add(name, meters, Unit.METER, "as set for the agency", Figure.COMMON_PRACTICE);
  }

  private Windrow windrow(Trace trace, Work work) {
    Figure start =
        trace.add(
            "dumping starts before the defect",
            settings.outline().bladeMarginM()
                + work.mat().cover().endTaperM()
                + blade.dumpOverrunM(),
            Unit.METER,
            "margin + end taper + mix dumped beyond the tack",
            Figure.COMMON_PRACTICE,
            in("margin", settings.outline().bladeMarginM(), Unit.METER),
            in("end taper", work.mat().cover().endTaperM(), Unit.METER),
            in("beyond the tack", blade.dumpOverrunM(), Unit.METER));
    Figure length =
        trace.add(
            "windrow length",
            work.mat().cover().lengthM() + 2 * blade.dumpOverrunM(),
            Unit.METER,
            "tacked length + 2 x dumped beyond the tack",
            Figure.COMMON_PRACTICE,
            in("tacked length", work.mat().cover().lengthM(), Unit.METER),
            in("beyond the tack", blade.dumpOverrunM(), Unit.METER));
    return heap(trace, work, start.value(), length);
  }

  /** Cross-section of the windrows over {@code length}. */
  private Windrow heap(Trace trace, Work work, double dumpStartM, Figure length) {
    double all = work.mix().loose().value() / length.value();
    double largest = blade.windrowSlope() * blade.tallestWindrowM() * blade.tallestWindrowM();
    Figure count =
        trace.add(
            "windrows",
            Math.max(1, Math.ceil(all / largest - 1e-9)),
            Unit.COUNT,
            "loose volume / windrow length / section of the tallest windrow, rounded up",
            Figure.COMMON_PRACTICE,
            work.mix().loose().asInput(),
            length.asInput(),
            in("tallest windrow's section", largest, Unit.CROSS_SECTION_SQUARE_METER));
    Figure section =
        trace.add(
            "windrow cross-section",
            all / count.value(),
            Unit.CROSS_SECTION_SQUARE_METER,
            "loose volume / windrow length / windrows",
            Trace.GEOMETRY,
            work.mix().loose().asInput(),
            length.asInput(),
            count.asInput());
    double high = Math.sqrt(section.value() / blade.windrowSlope());
    Figure.Input slope = in("run for each unit of height", blade.windrowSlope(), Unit.RATIO);
    Figure height =
        trace.add(
            "windrow height",
            high,
            Unit.METER,
            "square root of (section / side slope): a triangle",
            Trace.GEOMETRY,
            section.asInput(),
            slope);
    Figure width =
        trace.add(
            "windrow width",
            2 * blade.windrowSlope() * high,
            Unit.METER,
            "2 x side slope x height",
            Trace.GEOMETRY,
            slope,
            height.asInput());
    return new Windrow(dumpStartM, count.value(), section.value(), height.value(), width.value());
  }

  private List<String> sentences(Work work, Windrow windrow, double lift, double beforeTonnes) {
    List<String> s = new ArrayList<>();
    prepare(s, work);
    dump(s, work, windrow);
    s.add(
        "Set the blade at about "
            + Math.round(blade.carryAngleDegrees())
            + " degrees from square and carry mix at "
            + say.speed(blade.spreadKmh())
            + " or less. Lay "
            + Spoken.count(work.lifts().value(), "lift", "lifts")
            + " of "
            + say.thickness(lift)
            + " compacted at the deepest place.");
    lifts(s, work, beforeTonnes);
    s.add(
        "Keep "
            + say.length(blade.turnOutM())
            + " clear past the mix at each end: turn out there and empty the blade, never on the"
            + " tack.");
    roll(s, work);
    s.add(
        "Lay a straightedge or string across: no ridge at the joint, no low place where water"
            + " stands, the ends a smooth ride. Sweep up loose stone before traffic runs on it.");
    return s;
  }

  private void prepare(List<String> s, Work work) {
    TaperedMat cover = work.mat().cover();
    s.add(
        "First cut any shoulder that stands above the mat level, so that water drains off, and keep"
            + " the cuttings off the mat.");
    if (defect.kind() == DefectKind.SHOVING) {
      s.add("Cut the shoved mat down to grade and pick up what comes off; do not lay it again.");
    }
    s.add(
        "Sweep, then tack "
            + say.length(cover.lengthM())
            + " by "
            + say.length(cover.widthM())
            + ". Wait until the tack has broken (brown to black).");
  }

  private void dump(List<String> s, Work work, Windrow windrow) {
    s.add(
        "Start dumping "
            + say.length(windrow.dumpStartM())
            + " before the bad spot, which is "
            + say.length(blade.dumpOverrunM())
            + " before the tack, and end as far past the other side.");
    s.add(
        "Dump "
            + Spoken.count(work.mix().loads().value(), "load", "loads")
            + " along the "
            + high
            + " in "
            + Spoken.count(windrow.count(), "windrow", "windrows, one after the other,")
            + " about "
            + say.length(windrow.heightM())
            + " high and "
            + say.length(windrow.widthM())
            + " wide ("
            + say.section(windrow.sectionM2())
            + "). Spread the load by the truck's speed, not by the tailgate.");
  }

  private void lifts(List<String> s, Work work, double beforeTonnes) {
    String across = Spoken.count(work.motion().acrossPasses(), "pass", "passes");
    long lifts = Math.round(work.lifts().value());
    for (long i = 1; i <= lifts; i++) {
      boolean last = i == lifts;
      s.add(
          (last ? "Finish lift: " : "Lift " + i + ": ")
              + "carry the mix out to the "
              + low
              + " in "
              + across
              + ", then what is left back to the "
              + high
              + " in "
              + across
              + (last ? "." : ". Roll it before the next lift."));
      if (i == Math.max(1, lifts - 1)) {
        s.add(
            "By then about "
                + say.mass(beforeTonnes)
                + " ("
                + Math.round(100 * blade.shareBeforeFinish())
                + " % of the mix) should be down"
                + (lifts == 1 ? "; the rest is for the finishing round." : "."));
      }
    }
    s.add(
        "Finish in "
            + across
            + " with the blade nearly square at "
            + say.speed(blade.finishKmh())
            + ": run the sides out over "
            + say.length(blade.featherM())
            + " and each end out over "
            + say.length(work.mat().cover().endTaperM())
            + ". Rake the coarse stone off the feather.");
  }

  private void roll(List<String> s, Work work) {
    s.add(
        "Roll each lift from the "
            + low
            + " to the "
            + high
            + " in "
            + Spoken.count(work.rolling().strips(), "strip", "strips")
            + ", each "
            + say.length(roller.overlapM())
            + " over the last, "
            + Spoken.count(roller.passes(), "pass", "passes")
            + " each ("
            + Spoken.count(work.rolling().trips(), "trip", "trips")
            + " a lift). Drive wheel towards the mix, no stopping on warm mat, no sharp turns.");
  }
}
