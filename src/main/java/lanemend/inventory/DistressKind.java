package lanemend.inventory;

/**
 * Distress of asphalt as a condition survey measures it: the kinds of ASTM D6433, with how each is
 * measured (the list as printed on the standard's sheet was read in a thesis; weathering apart from
 * ravelling, and how each is measured, from memory).
 */
public enum DistressKind {
  /** A sample that was looked at and has nothing. */
  NONE(Measure.AREA, false),
  ALLIGATOR_CRACKING(Measure.AREA, true),
  BLEEDING(Measure.AREA, true),
  BLOCK_CRACKING(Measure.AREA, true),
  BUMPS_AND_SAGS(Measure.LENGTH, true),
  CORRUGATION(Measure.AREA, true),
  DEPRESSION(Measure.AREA, true),
  EDGE_CRACKING(Measure.LENGTH, true),
  JOINT_REFLECTION_CRACKING(Measure.LENGTH, true),
  LANE_SHOULDER_DROP_OFF(Measure.LENGTH, true),
  LONGITUDINAL_TRANSVERSE_CRACKING(Measure.LENGTH, true),
  PATCHING(Measure.AREA, true),
  POLISHED_AGGREGATE(Measure.AREA, false),
  POTHOLE(Measure.COUNT, true),
  RAILROAD_CROSSING(Measure.AREA, true),
  RUTTING(Measure.AREA, true),
  SHOVING(Measure.AREA, true),
  SLIPPAGE_CRACKING(Measure.AREA, true),
  SWELL(Measure.AREA, true),
  RAVELLING(Measure.AREA, true),
  WEATHERING(Measure.AREA, true);

  /** What is measured: square metres, metres or a number. */
  public enum Measure {
    AREA,
    LENGTH,
    COUNT
  }

  private final Measure measure;
  private final boolean graded;

  DistressKind(Measure measure, boolean graded) {
    this.measure = measure;
    this.graded = graded;
  }

  public Measure measure() {
    return measure;
  }

  /** False for a kind that has no severities; it is kept as {@link Severity#LOW}. */
  public boolean graded() {
    return graded;
  }
}
