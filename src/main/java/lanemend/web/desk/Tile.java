package lanemend.web.desk;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import lanemend.inventory.Defect;
import lanemend.network.CalibrationPost;
import lanemend.network.Route;

/**
 * One square of the map. Coordinates are whole numbers from 0 to {@link #EXTENT} across the tile,
 * to the right and down, and go a little beyond so that what straddles an edge is drawn whole.
 *
 * <p>Far out, where a tile holds more defects than can be told apart, they come as counts by cell.
 */
final class Tile {
  static final int EXTENT = 4096;

  /** Pixels of a tile's side on the screen. */
  static final int PIXELS = 512;

  /** Marks are up to this wide, in tile units. */
  private static final int MARGIN = 16 * EXTENT / PIXELS;

  /** More than this in one tile are counted by cell. */
  private static final int TOLD_APART = 600;

  /** Cells along a tile's side; each is then 16 pixels wide. */
  private static final int CELLS = 32;

  private static final int POSTS_FROM_ZOOM = 11;
  private static final int PATCHES_FROM_ZOOM = 12;

  private final MapIndex index;
  private final int zoom;
  private final double left;
  private final double top;
  private final double side;
  private final BitSet chosen;

  /**
   * @param chosen defects that are shown, by their place in the county's list; null for all
   */
  Tile(MapIndex index, int z, int x, int y, BitSet chosen) {
    this.index = index;
    this.zoom = z;
    this.side = Math.scalb(1.0, -z);
    this.left = x * side;
    this.top = y * side;
    this.chosen = chosen;
  }

  Map<String, Object> cut(Set<TileLayer> layers) {
    Map<String, Object> tile = new LinkedHashMap<>();
    for (TileLayer layer : layers) {
      switch (layer) {
        case ROADS -> tile.put("roads", roads());
        case SECTIONS -> tile.put("sections", stretches(index.sections()));
        case ZONES -> tile.put("zones", stretches(index.zones()));
        case PATCHES -> tile.put("patches", patches());
        case POSTS -> tile.put("posts", posts());
        case DEFECTS -> defects(tile);
        default -> throw new IllegalStateException("layer " + layer);
      }
    }
    return tile;
  }

  private int tileX(double x) {
    return (int) Math.round((x - left) / side * EXTENT);
  }

  private int tileY(double y) {
    return (int) Math.round((y - top) / side * EXTENT);
  }

  private double margin() {
    return side * MARGIN / EXTENT;
  }

  /** A road's piece in this tile: route (null for a connector), class and line. */
  private record RoadPiece(String route, String roadClass, List<int[]> lines) {}

  private List<RoadPiece> roads() {
    List<RoadPiece> pieces = new ArrayList<>();
    for (RoadLines.Line line : index.roads().lines()) {
      List<int[]> drawn = clip(line, 0, line.x().length - 1);
      if (!drawn.isEmpty()) {
        Route route = line.route();
        pieces.add(
            new RoadPiece(
                route == null ? null : route.id(),
                route == null ? "connector" : DeskWords.code(route.roadClass()),
                drawn));
      }
    }
    return pieces;
  }

  /** The runs of a line's vertices that touch this tile, thinned to what the eye can tell. */
  private List<int[]> clip(RoadLines.Line line, int first, int last) {
    List<int[]> runs = new ArrayList<>();
    TileLine run = new TileLine();
    double m = margin();
    for (int i = first; i < last; i++) {
      boolean near =
          Math.max(line.x()[i], line.x()[i + 1]) >= left - m
              && Math.min(line.x()[i], line.x()[i + 1]) <= left + side + m
              && Math.max(line.y()[i], line.y()[i + 1]) >= top - m
              && Math.min(line.y()[i], line.y()[i + 1]) <= top + side + m;
      if (near) {
        if (run.isEmpty()) {
          run.add(tileX(line.x()[i]), tileY(line.y()[i]), true);
        }
        run.add(tileX(line.x()[i + 1]), tileY(line.y()[i + 1]), i + 1 == last);
      } else if (!run.isEmpty()) {
        runs.add(run.end());
        run = new TileLine();
      }
    }
    if (!run.isEmpty()) {
      runs.add(run.end());
    }
    return runs;
  }

  /** A zone's or section's piece in this tile. */
  private record StretchPiece(String id, String text, String state, List<int[]> lines) {}

  private List<StretchPiece> stretches(List<MapIndex.Stretch> all) {
    List<StretchPiece> pieces = new ArrayList<>();
    for (MapIndex.Stretch s : all) {
      List<int[]> lines = new ArrayList<>();
      for (RoadLines.Line line : index.roads().of(s.routeId())) {
        RoadLines.Line cut = line.between(s.fromAlongM(), s.toAlongM());
        if (cut != null) {
          lines.addAll(clip(cut, 0, cut.x().length - 1));
        }
      }
      if (!lines.isEmpty()) {
        pieces.add(new StretchPiece(s.id(), s.text(), s.state(), lines));
      }
    }
    return pieces;
  }

  /** Points with a text each. */
  private record Marks(List<Integer> x, List<Integer> y, List<String> text) {
    Marks() {
      this(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    }
  }

  private Marks posts() {
    Marks marks = new Marks();
    if (zoom < POSTS_FROM_ZOOM) {
      return marks;
    }
    double m = margin();
    for (RoadLines.Line line : index.roads().lines()) {
      if (line.route() == null) {
        continue;
      }
      for (CalibrationPost post : line.route().mileposts().posts()) {
        double[] at = line.at(post.alongM());
        boolean here =
            at != null
                && at[0] >= left - m
                && at[0] < left + side + m
                && at[1] >= top - m
                && at[1] < top + side + m;
        if (here) {
          marks.x().add(tileX(at[0]));
          marks.y().add(tileY(at[1]));
          marks.text().add(text(post));
        }
      }
    }
    return marks;
  }

  private static String text(CalibrationPost post) {
    return post.isEquation()
        ? miles(post.backMiles()) + " = " + miles(post.aheadMiles())
        : miles(post.backMiles());
  }

  private static String miles(double miles) {
    return miles == Math.rint(miles)
        ? String.format(Locale.ROOT, "%.0f", miles)
        : String.format(Locale.ROOT, "%.2f", miles);
  }

  private Map<String, int[]> patches() {
    List<int[]> at = new ArrayList<>();
    if (zoom >= PATCHES_FROM_ZOOM) {
      double m = margin();
      Dots dots = index.patches();
      dots.within(
          left - m,
          top - m,
          left + side + m,
          top + side + m,
          i -> at.add(new int[] {tileX(dots.x(i)), tileY(dots.y(i))}));
    }
    return Map.of(
        "x", at.stream().mapToInt(a -> a[0]).toArray(),
        "y", at.stream().mapToInt(a -> a[1]).toArray());
  }

  private void defects(Map<String, Object> tile) {
    Dots dots = index.defects();
    List<Integer> inside = new ArrayList<>();
    dots.within(left, top, left + side, top + side, i -> take(inside, i));
    if (inside.size() > TOLD_APART) {
      tile.put("cells", cells(inside));
      return;
    }
    double m = margin();
    List<Integer> near = new ArrayList<>();
    dots.within(left - m, top - m, left + side + m, top + side + m, i -> take(near, i));
    DefectColumns columns = new DefectColumns(near.size());
    for (int i : near) {
      columns.add(index.county().defects().get(i), tileX(dots.x(i)), tileY(dots.y(i)));
    }
    tile.put("defects", columns);
  }

  private void take(List<Integer> list, int i) {
    if (chosen == null || chosen.get(i)) {
      list.add(i);
    }
  }

  /** Columns rather than rows: a third of the bytes. Severity is 0 to 2 for low to high. */
  private record DefectColumns(
      List<String> id,
      List<Integer> x,
      List<Integer> y,
      List<Integer> severity,
      List<String> kind,
      List<String> status) {
    DefectColumns(int room) {
      this(
          new ArrayList<>(room),
          new ArrayList<>(room),
          new ArrayList<>(room),
          new ArrayList<>(room),
          new ArrayList<>(room),
          new ArrayList<>(room));
    }

    void add(Defect d, int atX, int atY) {
      id.add(d.id());
      x.add(atX);
      y.add(atY);
      severity.add(DeskWords.rank(d.severity()));
      kind.add(DeskWords.code(d.kind()));
      status.add(DeskWords.code(d.status()));
    }
  }

  /** Counts by cell at the middle of what is counted, with how many are of each severity. */
  private Map<String, int[]> cells(List<Integer> inside) {
    int[] n = new int[CELLS * CELLS];
    long[] sumX = new long[CELLS * CELLS];
    long[] sumY = new long[CELLS * CELLS];
    int[] medium = new int[CELLS * CELLS];
    int[] high = new int[CELLS * CELLS];
    for (int i : inside) {
      int x = Math.min(EXTENT - 1, Math.max(0, tileX(index.defects().x(i))));
      int y = Math.min(EXTENT - 1, Math.max(0, tileY(index.defects().y(i))));
      int at = y * CELLS / EXTENT * CELLS + x * CELLS / EXTENT;
      n[at]++;
      sumX[at] += x;
      sumY[at] += y;
      switch (index.county().defects().get(i).severity()) {
        case HIGH -> high[at]++;
        case MEDIUM -> medium[at]++;
        case LOW -> {
          // What is left of the count.
        }
      }
    }
    int[] used = java.util.stream.IntStream.range(0, n.length).filter(i -> n[i] > 0).toArray();
    return Map.of(
        "x", pick(used, i -> (int) (sumX[i] / n[i])),
        "y", pick(used, i -> (int) (sumY[i] / n[i])),
        "n", pick(used, i -> n[i]),
        "medium", pick(used, i -> medium[i]),
        "high", pick(used, i -> high[i]));
  }

  private static int[] pick(int[] used, java.util.function.IntUnaryOperator value) {
    return java.util.Arrays.stream(used).map(value).toArray();
  }
}
