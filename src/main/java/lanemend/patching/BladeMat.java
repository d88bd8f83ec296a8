package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/**
 * The mat of a blade patch: what fills the hollow and the tapered mat that covers it.
 *
 * @param fillM3 compacted, in the hollow
 * @param cover the mat over the outline, its tapers and feather
 * @param deepestM compacted thickness at the deepest place
 */
record BladeMat(double fillM3, TaperedMat cover, double deepestM) {

  /** Outlines the mat and adds each dimension and volume to {@code trace}. */
  static BladeMat of(Trace trace, Defect defect, RoadSetting setting, PatchSettings settings) {
    PatchSettings.Blade blade = settings.blade();
    double margin = settings.outline().bladeMarginM();
    TaperedMat cover =
        new TaperedMat(
            defect.lengthM() + 2 * margin,
            coreWidth(defect, setting, settings),
            blade.coverM(),
            blade.coverM() * taperPerThickness(setting, blade),
            blade.featherM());
    trace.add(
        "patch length at full thickness",
        cover.coreLengthM(),
        Unit.METER,
        "defect length + 2 margins",
        Figure.COMMON_PRACTICE,
        in("defect length", defect.lengthM(), Unit.METER),
        in("margin", margin, Unit.METER));
    trace.add(
        "patch width at full thickness",
        cover.coreWidthM(),
        Unit.METER,
        "defect width + 2 margins, at most the lanes it lies in less the two feathers",
        Figure.COMMON_PRACTICE,
        in("defect width", defect.widthM(), Unit.METER),
        in("margin", margin, Unit.METER),
        in("lane width", setting.laneWidthM(), Unit.METER),
        in("feather", blade.featherM(), Unit.METER));
    trace.add(
        "end taper",
        cover.endTaperM(),
        Unit.METER,
        "mat thickness x taper length for each unit of thickness",
        Figure.COMMON_PRACTICE,
        in("mat thickness", cover.thicknessM(), Unit.THICKNESS_METER),
        in("length for each unit", taperPerThickness(setting, blade), Unit.COUNT));
    double share = fillShare(defect, settings.material());
    Figure fill =
        trace.add(
            "fill of the hollow",
            defect.areaM2() * defect.depthM() * share,
            Unit.CUBIC_METER,
            "defect area x depth x mean depth for each unit of depth",
            "2/3 for a rut and 1/2 for a sag are geometry, the rest " + Figure.COMMON_PRACTICE,
            in("defect area", defect.areaM2(), Unit.SQUARE_METER),
            in("depth", defect.depthM(), Unit.THICKNESS_METER),
            in("mean depth share", share, Unit.RATIO));
    coverFigures(trace, cover);
    return new BladeMat(fill.value(), cover, defect.depthM() + blade.coverM());
  }

  private static void coverFigures(Trace trace, TaperedMat cover) {
    Figure.Input thickness = in("mat thickness", cover.thicknessM(), Unit.THICKNESS_METER);
    Figure.Input length = in("patch length", cover.coreLengthM(), Unit.METER);
    Figure.Input width = in("patch width", cover.coreWidthM(), Unit.METER);
    Figure.Input taper = in("end taper", cover.endTaperM(), Unit.METER);
    Figure.Input feather = in("feather", cover.featherM(), Unit.METER);
    trace.add(
        "neat prism",
        cover.prismM3(),
        Unit.CUBIC_METER,
        "length x width x thickness",
        Trace.GEOMETRY,
        length,
        width,
        thickness);
    trace.add(
        "end tapers",
        cover.endTapersM3(),
        Unit.CUBIC_METER,
        "2 wedges: thickness x taper x width",
        Trace.GEOMETRY,
        thickness,
        taper,
        width);
    trace.add(
        "feathered edges",
        cover.feathersM3(),
        Unit.CUBIC_METER,
        "2 wedges and 4 corner pyramids: thickness x feather x (length + 4/3 taper)",
        Trace.GEOMETRY,
        thickness,
        feather,
        length,
        taper);
  }

  /** All of it, compacted. */
  Figure compacted(Trace trace) {
    return trace.add(
        "compacted volume",
        fillM3 + cover.volumeM3(),
        Unit.CUBIC_METER,
        "fill of the hollow + neat prism + end tapers + feathered edges",
        Trace.ARITHMETIC,
        in("fill of the hollow", fillM3, Unit.CUBIC_METER),
        in("neat prism", cover.prismM3(), Unit.CUBIC_METER),
        in("end tapers", cover.endTapersM3(), Unit.CUBIC_METER),
        in("feathered edges", cover.feathersM3(), Unit.CUBIC_METER));
  }

  /**
   * A feather must not run into the lane that carries traffic, so the mat with its feathers stays
   * inside the lanes the defect lies in.
   */
  private static double coreWidth(Defect defect, RoadSetting setting, PatchSettings settings) {
    double feathers = 2 * settings.blade().featherM();
    double wanted = defect.widthM() + 2 * settings.outline().bladeMarginM();
    double lanes = Math.max(1, Math.ceil(defect.widthM() / setting.laneWidthM() - 1e-9));
    return Math.max(0, Math.min(wanted, lanes * setting.laneWidthM() - feathers));
  }

  private static double taperPerThickness(RoadSetting setting, PatchSettings.Blade blade) {
    return setting.postedKmh() >= blade.fastKmh() - 1e-6
        ? blade.fastTaperPerThickness()
        : blade.slowTaperPerThickness();
  }

  private static double fillShare(Defect defect, MaterialSettings material) {
    return switch (defect.kind()) {
      case RUTTING -> material.rutFillShare();
      case POTHOLE, EDGE_BREAK -> material.holeFillShare();
      default -> material.sagFillShare();
    };
  }
}
