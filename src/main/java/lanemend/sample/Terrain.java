package lanemend.sample;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The land before its roads: bounds, hills in the west, one river, five towns. All names are
 * invented. Shares run from 0 (west, south) to 1 (east, north), so that a county of another size is
 * the same land stretched.
 */
final class Terrain {
  static final String COUNTY = "Quillarne County";
  static final String RIVER = "Wendrel River";

  /** A town; its streets lie along {@code axis} (radians), so many blocks each way. */
  record Town(String name, Pt middle, double axis, int blocksAlong, int blocksAcross) {

    /** Metres within which a road is a town street. */
    double radiusM() {
      return 260 + 65 * StrictMath.max(blocksAlong, blocksAcross);
    }
  }

  private static final double WIDTH_M = 58_000;
  private static final double HEIGHT_M = 48_000;

  private final double widthM;
  private final double heightM;
  private final List<Pt> river;
  private final Nearby riverLine = new Nearby();
  private final Map<String, Town> towns = new TreeMap<>();
  private final double[][] waves;

  Terrain(SampleSize size, Dice dice) {
    widthM = WIDTH_M * size.stretch();
    heightM = HEIGHT_M * size.stretch();
    town("Ombrel", 0.47, 0.50, 0.10, 10, 8);
    town("Pellwick", 0.53, 0.79, 0.06, 6, 6);
    town("Hestavale", 0.37, 0.25, -0.12, 6, 4);
    town("Sabrick", 0.67, 0.23, 0.02, 7, 5);
    town("Quern Hollow", 0.15, 0.57, 0.20, 4, 2);
    List<Pt> course = new ArrayList<>();
    double[][] bends = {
      {0.30, 1.02},
      {0.36, 0.86},
      {0.40, 0.70},
      {0.43, 0.58},
      {0.428, 0.49},
      {0.49, 0.41},
      {0.56, 0.32},
      {0.545, 0.18},
      {0.58, -0.02}
    };
    for (double[] b : bends) {
      course.add(at(b[0], b[1]));
    }
    river = Curves.bend(Curves.through(course, 120), dice, this::meander);
    riverLine.add(0, river);
    waves = new double[5][];
    for (int i = 0; i < waves.length; i++) {
      double direction = dice.uniform(0, 2 * StrictMath.PI);
      double length = dice.uniform(7_000, 19_000);
      waves[i] =
          new double[] {
            2 * StrictMath.PI / length * StrictMath.cos(direction),
            2 * StrictMath.PI / length * StrictMath.sin(direction),
            dice.uniform(0, 6.28),
            dice.uniform(-130, 130),
            dice.uniform(-130, 130)
          };
    }
  }

  /** The river swings wide on open land and keeps off the towns. */
  private double meander(Pt p) {
    return 900 * StrictMath.max(0, StrictMath.min(1, (metersToTown(p) - 2_500) / 3_000));
  }

  private void town(String name, double u, double v, double axis, int along, int across) {
    towns.put(name, new Town(name, at(u, v), axis, along, across));
  }

  /** A place by its shares of the county's width and height. */
  Pt at(double u, double v) {
    return new Pt((u - 0.5) * widthM, (v - 0.5) * heightM);
  }

  double shareEast(Pt p) {
    return p.x() / widthM + 0.5;
  }

  double shareNorth(Pt p) {
    return p.y() / heightM + 0.5;
  }

  boolean inside(Pt p) {
    return StrictMath.abs(p.x()) <= widthM / 2 && StrictMath.abs(p.y()) <= heightM / 2;
  }

  double widthM() {
    return widthM;
  }

  double heightM() {
    return heightM;
  }

  List<Town> towns() {
    return List.copyOf(towns.values());
  }

  Town town(String name) {
    return towns.get(name);
  }

  double metersToTown(Pt p) {
    double best = Double.MAX_VALUE;
    for (Town t : towns.values()) {
      best = StrictMath.min(best, t.middle().to(p));
    }
    return best;
  }

  /** Metres beyond the edge of the nearest town's streets; negative inside. */
  double outsideTownM(Pt p) {
    double best = Double.MAX_VALUE;
    for (Town t : towns.values()) {
      best = StrictMath.min(best, t.middle().to(p) - t.radiusM());
    }
    return best;
  }

  /** 0 on the plain, 1 in the hills; the foot of the hills winds. */
  double hills(Pt p) {
    double v = shareNorth(p);
    double foot = 0.33 + 0.05 * StrictMath.sin(7 * v + 1) + 0.03 * StrictMath.sin(17 * v);
    double depth = (foot - shareEast(p)) / 0.10;
    double t = StrictMath.max(0, StrictMath.min(1, depth));
    return t * t * (3 - 2 * t);
  }

  List<Pt> river() {
    return river;
  }

  /** True where the straight line from a to b crosses the river. */
  boolean crossesRiver(Pt a, Pt b) {
    return !riverLine.crossed(a, b).isEmpty();
  }

  /** The survey grid laid on the land: it bends a little, more towards the hills. */
  Pt warp(Pt p) {
    double dx = 0;
    double dy = 0;
    for (double[] w : waves) {
      double s = StrictMath.sin(w[0] * p.x() + w[1] * p.y() + w[2]);
      dx += w[3] * s;
      dy += w[4] * s;
    }
    double share = 0.35 + 0.9 * StrictMath.max(0, 0.6 - shareEast(p)) / 0.6;
    return p.plus(dx * share, dy * share);
  }
}
