package lanemend.network.edit;

import java.util.ArrayList;
import java.util.List;
import lanemend.network.CenterlinePart;
import lanemend.network.ProjectedCrs;

/** Draws a centreline out of pieces of others, along counted through pieces and gaps alike. */
final class LinePen {
  /** Pieces whose ends are this near each other meet, metres. */
  private static final double MEET_M = 0.001;

  private final ProjectedCrs crs;
  private final double joinM;
  private final List<CenterlinePart> parts = new ArrayList<>();
  private final List<double[]> open = new ArrayList<>();
  private double reachedM;

  /**
   * @param joinM ends up to this far apart are joined by a straight; beyond, a gap stays
   */
  LinePen(ProjectedCrs crs, double joinM) {
    this.crs = crs;
    this.joinM = joinM;
  }

  /** Adds pieces in order; returns how far their along is moved on the new line. */
  double add(List<CenterlinePart> pieces) {
    double shift = 0;
    for (int k = 0; k < pieces.size(); k++) {
      CenterlinePart piece = pieces.get(k);
      if (k == 0) {
        reach(piece);
        shift = reachedM - piece.fromAlong();
      } else {
        lift();
        reachedM = piece.fromAlong() + shift;
      }
      for (int i = 0; i < piece.size(); i++) {
        put(piece.x(i), piece.y(i), piece.along(i) + shift);
      }
    }
    return shift;
  }

  /** Goes on to where the piece begins. */
  private void reach(CenterlinePart piece) {
    if (open.isEmpty()) {
      return;
    }
    double[] at = open.get(open.size() - 1);
    double away = crs.groundM(at[0], at[1], piece.x(0), piece.y(0));
    if (away <= MEET_M) {
      return;
    }
    reachedM += away;
    if (away > joinM) {
      lift();
    }
  }

  private void put(double x, double y, double along) {
    if (open.isEmpty() || along > open.get(open.size() - 1)[2]) {
      open.add(new double[] {x, y, along});
    }
    reachedM = along;
  }

  private void lift() {
    if (open.size() > 1) {
      parts.add(Centerlines.part(open));
    }
    open.clear();
  }

  double reachedM() {
    return reachedM;
  }

  /** What was drawn; the pen is used up. */
  List<CenterlinePart> parts() {
    lift();
    return List.copyOf(parts);
  }
}
