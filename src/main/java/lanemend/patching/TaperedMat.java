package lanemend.patching;

/**
 * A mat of full thickness over a rectangle that runs out to nothing over a taper at each end and a
 * feather at each side. At a corner the thinner of the two slopes governs, so the solid has flat
 * faces: prism, four wedges and four corner pyramids.
 *
 * @param coreLengthM full thickness along the road
 * @param coreWidthM full thickness across the road
 * @param endTaperM beyond the core at each end
 * @param featherM beyond the core at each side
 */
public record TaperedMat(
    double coreLengthM, double coreWidthM, double thicknessM, double endTaperM, double featherM) {

  /** The part of full thickness. */
  public double prismM3() {
    return coreLengthM * coreWidthM * thicknessM;
  }

  /** Both end wedges, without the corners. */
  public double endTapersM3() {
    return thicknessM * endTaperM * coreWidthM;
  }

  /** Both side wedges and the four corners. */
  public double feathersM3() {
    return thicknessM * featherM * (coreLengthM + 4.0 / 3 * endTaperM);
  }

  /** The whole solid. */
  public double volumeM3() {
    return prismM3() + endTapersM3() + feathersM3();
  }

  /** Length with tapers. */
  public double lengthM() {
    return coreLengthM + 2 * endTaperM;
  }

  /** Width with feathers. */
  public double widthM() {
    return coreWidthM + 2 * featherM;
  }

  /** Covered road surface. */
  public double footprintM2() {
    return lengthM() * widthM();
  }

  /** Thickness at {@code x} along and {@code y} across, both from the middle of the mat. */
  public double thicknessAt(double x, double y) {
    double along = runOut(Math.abs(x) - coreLengthM / 2, endTaperM);
    double across = runOut(Math.abs(y) - coreWidthM / 2, featherM);
    return thicknessM * Math.min(along, across);
  }

  private static double runOut(double beyond, double over) {
    if (beyond <= 0) {
      return 1;
    }
    return beyond >= over ? 0 : 1 - beyond / over;
  }
}
