package lanemend.web.sheet;

import java.util.List;
import lanemend.crewdays.WorkZone;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.patching.PatchDesign;
import lanemend.patching.RoadSetting;

/**
 * How a zone lies on its strip: along to x, lane to y. The middle is to scale along the road; the
 * approach at each end, where signs and tapers stand, is only a scheme.
 */
final class StripFrame {
  static final double WIDTH = 534;
  static final double APPROACH = 138;
  static final double LANE = 17;
  static final double SHOULDER = 8;
  private static final double SHORTEST_M = 60;

  /** Kept free beside the strokes that end the part to scale. */
  private static final double INSET = 12;

  /** Room above the road for signs or mileposts, or for repair labels when they stand above. */
  private static final double ABOVE = 40;

  private static final double LABEL_ROW = 13;

  private final double windowFromM;
  private final double windowToM;
  private final int leftLanes;
  private final int rightLanes;
  private final boolean labelsAbove;
  private final int labelRows;
  private final double laneWidthM;
  private final double top;

  private StripFrame(
      double windowFromM, double windowToM, int leftLanes, int rightLanes, WorkZone zone) {
    this.windowFromM = windowFromM;
    this.windowToM = windowToM;
    this.leftLanes = leftLanes;
    this.rightLanes = rightLanes;
    this.labelsAbove = zone.side().first() == Side.LEFT;
    this.labelRows = (int) Math.ceil(zone.repairs().size() / 10.0);
    this.laneWidthM = zone.repairs().get(0).setting().laneWidthM();
    this.top = labelsAbove ? Math.max(ABOVE, 14 + labelRows * LABEL_ROW) : ABOVE;
  }

  static StripFrame of(WorkZone zone) {
    double middle = (zone.fromAlongM() + zone.toAlongM()) / 2;
    double half = Math.max(zone.lengthM(), SHORTEST_M) / 2;
    RoadSetting setting = zone.repairs().get(0).setting();
    int mostLeft = mostUsed(zone, Side.LEFT);
    int mostRight = mostUsed(zone, Side.RIGHT);
    boolean allRight = setting.oneDirection() && mostLeft == 0;
    int right = allRight ? setting.lanes() : (setting.lanes() + 1) / 2;
    int left = setting.lanes() - right;
    return new StripFrame(
        middle - half, middle + half, Math.max(left, mostLeft), Math.max(right, mostRight), zone);
  }

  private static int mostUsed(WorkZone zone, Side side) {
    return zone.repairs().stream()
        .map(r -> r.defect().lane())
        .filter(l -> l.side() == side)
        .mapToInt(Lane::number)
        .max()
        .orElse(0);
  }

  double x(double alongM) {
    double share = (alongM - windowFromM) / (windowToM - windowFromM);
    return APPROACH + INSET + Math.min(1, Math.max(0, share)) * scaledWidth();
  }

  private static double scaledWidth() {
    return WIDTH - 2 * (APPROACH + INSET);
  }

  double windowFromM() {
    return windowFromM;
  }

  double windowToM() {
    return windowToM;
  }

  int leftLanes() {
    return leftLanes;
  }

  int rightLanes() {
    return rightLanes;
  }

  /** Top edge of the outermost left shoulder. */
  double top() {
    return top;
  }

  double bottom() {
    return top + 2 * SHOULDER + (leftLanes + rightLanes) * LANE;
  }

  double centreline() {
    return top + SHOULDER + leftLanes * LANE;
  }

  /** Top and height of a lane; lane 0 is the shoulder. */
  double[] band(Lane lane) {
    if (lane.side() == Side.RIGHT) {
      return lane.number() == 0
          ? new double[] {bottom() - SHOULDER, SHOULDER}
          : new double[] {centreline() + (lane.number() - 1) * LANE, LANE};
    }
    return lane.number() == 0
        ? new double[] {top, SHOULDER}
        : new double[] {centreline() - lane.number() * LANE, LANE};
  }

  /** Where a repair is drawn: {@code {x, y, width, height}}, never too small to be seen. */
  double[] box(PatchDesign repair) {
    double from = x(repair.defect().place().fromAlongM());
    double to = x(repair.defect().place().toAlongM());
    double metres = Math.max(0, repair.defect().lengthM());
    double scale = scaledWidth() / (windowToM - windowFromM);
    double width = Math.max(4, Math.max(to - from, metres * scale));
    double middle = (from + to) / 2;
    double left = middle - width / 2;
    double[] band = band(repair.defect().lane());
    double share = Math.min(1, repair.defect().widthM() / laneWidthM);
    double height = Math.max(4, share * (band[1] - 3));
    return new double[] {left, band[0] + (band[1] - height) / 2, width, height};
  }

  boolean labelsAbove() {
    return labelsAbove;
  }

  int labelRows() {
    return labelRows;
  }

  /** Baseline of a row of repair labels, row 0 nearest the road. */
  double labelY(int row) {
    return labelsAbove ? top - 9 - row * LABEL_ROW : bottom() + 17 + row * LABEL_ROW;
  }

  /** The line the milepost ticks hang on, on the side the labels do not use. */
  double axisY() {
    return labelsAbove ? bottom() + 5 : top - 5;
  }

  double height() {
    double below = labelsAbove ? 30 : 8 + labelRows * LABEL_ROW;
    return bottom() + Math.max(below, 40);
  }

  /** The lanes of one side from the centreline out, without the shoulder. */
  List<Lane> lanes(Side side) {
    return java.util.stream.IntStream.rangeClosed(1, side == Side.LEFT ? leftLanes : rightLanes)
        .mapToObj(i -> new Lane(side, i))
        .toList();
  }
}
