package lanemend.web.page;

import java.util.ArrayList;
import java.util.List;

/** Room already taken on a drawing, so that no label is put over another. */
public final class LabelRoom {
  private final double width;
  private final double height;
  private final List<double[]> taken = new ArrayList<>();

  public LabelRoom(double width, double height) {
    this.width = width;
    this.height = height;
  }

  /** True when {@code {left, top, right, bottom}} lies inside the drawing and over nothing. */
  public boolean free(double[] box) {
    if (box[0] < 2 || box[1] < 2 || box[2] > width - 2 || box[3] > height - 2) {
      return false;
    }
    return taken.stream()
        .noneMatch(t -> box[0] < t[2] && t[0] < box[2] && box[1] < t[3] && t[1] < box[3]);
  }

  public void take(double[] box) {
    taken.add(box);
  }

  /** Takes the box if it is free. */
  public boolean tryTake(double[] box) {
    if (!free(box)) {
      return false;
    }
    take(box);
    return true;
  }

  /**
   * Moves places on a line apart until each has {@code gap}, keeping their order and staying
   * between the ends as far as there is room; each moves as little as its neighbours allow.
   */
  public static double[] spread(double[] wanted, double gap, double from, double to) {
    double[] at = wanted.clone();
    double step = at.length > 1 ? Math.min(gap, (to - from) / (at.length - 1)) : gap;
    for (int i = 0; i < at.length; i++) {
      double least = i == 0 ? from : at[i - 1] + step;
      at[i] = Math.max(at[i], least);
    }
    for (int i = at.length - 1; i >= 0; i--) {
      double most = i == at.length - 1 ? to : at[i + 1] - step;
      at[i] = Math.min(at[i], most);
    }
    return at;
  }
}
