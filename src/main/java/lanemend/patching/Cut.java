package lanemend.patching;

import static lanemend.patching.Trace.in;

import lanemend.inventory.Defect;
import lanemend.measure.Figure;
import lanemend.measure.Unit;

/** A rectangular cut with upright sides. */
record Cut(double lengthM, double widthM, double depthM) {

  /** The cut round a whole defect, with the margin on all four sides. */
  static Cut of(Trace trace, Defect defect, double marginM, double leastDepthM, String what) {
    Cut cut =
        new Cut(
            defect.lengthM() + 2 * marginM,
            defect.widthM() + 2 * marginM,
            Math.max(defect.depthM(), leastDepthM));
    return cut.traced(trace, defect, marginM, leastDepthM, what);
  }

  /** The cut at a broken edge: outward of it lies the shoulder, so the margin is inward only. */
  static Cut atEdge(Trace trace, Defect defect, double marginM, double leastDepthM) {
    Cut cut =
        new Cut(
            defect.lengthM() + 2 * marginM,
            defect.widthM() + marginM,
            Math.max(defect.depthM(), leastDepthM));
    return cut.traced(trace, defect, marginM, leastDepthM, "edge repair");
  }

  private Cut traced(Trace trace, Defect defect, double marginM, double leastDepthM, String what) {
    Figure.Input margin = in("margin", marginM, Unit.METER);
    trace.add(
        "cut length",
        lengthM,
        Unit.METER,
        "defect length + 2 margins",
        Figure.COMMON_PRACTICE,
        in("defect length", defect.lengthM(), Unit.METER),
        margin);
    trace.add(
        "cut width",
        widthM,
        Unit.METER,
        "defect width + margins inside the mat",
        Figure.COMMON_PRACTICE,
        in("defect width", defect.widthM(), Unit.METER),
        margin);
    trace.add(
        "cut depth",
        depthM,
        Unit.THICKNESS_METER,
        "deeper of the defect and the least depth of a " + what,
        Figure.COMMON_PRACTICE,
        in("defect depth", defect.depthM(), Unit.THICKNESS_METER),
        in("least depth", leastDepthM, Unit.THICKNESS_METER));
    return this;
  }

  double areaM2() {
    return lengthM * widthM;
  }

  double perimeterM() {
    return 2 * (lengthM + widthM);
  }

  /** The whole cut as compacted mix. */
  Figure volume(Trace trace) {
    return trace.add(
        "compacted volume",
        areaM2() * depthM,
        Unit.CUBIC_METER,
        "cut length x width x depth",
        Trace.GEOMETRY,
        in("cut length", lengthM, Unit.METER),
        in("cut width", widthM, Unit.METER),
        in("cut depth", depthM, Unit.THICKNESS_METER));
  }
}
