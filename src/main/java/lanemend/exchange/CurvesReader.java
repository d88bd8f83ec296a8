package lanemend.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lanemend.inventory.DistressKind;
import lanemend.inventory.Severity;
import lanemend.renewal.overlay.ConditionIndex.Curves;
import lanemend.renewal.overlay.ConditionIndex.Distress;
import lanemend.renewal.overlay.ConditionIndex.Point;

/**
 * An agency's curves for the condition index, read off its own copy of the standard. Taken whole or
 * not at all.
 */
public final class CurvesReader {
  private static final int MOST_Q = 10;

  private final JsonProblems problems;

  private CurvesReader(String name) {
    this.problems = new JsonProblems(name);
  }

  /**
   * Reads a file.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static Curves read(Path file) {
    return new CurvesReader(RowSource.nameOf(file)).curves(JsonValue.read(file));
  }

  /**
   * Reads text, for instance that of the store; {@code name} stands for the file in messages.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static Curves parse(String name, String json) {
    return new CurvesReader(name).curves(JsonValue.parse(name, json));
  }

  /** What densities by length and number are reckoned in. */
  private enum Density {
    FEET,
    METRES
  }

  private Curves curves(JsonValue root) {
    JsonFields f = new JsonFields(root, problems);
    String source = f.text("source");
    Density density = f.word("density_in", Density.class);
    Map<Distress, List<Point>> deducts = new HashMap<>();
    JsonFields kinds = f.object("deducts");
    for (DistressKind kind : DistressKind.values()) {
      String name = PavementNames.of(kind);
      if (kind != DistressKind.NONE && kinds.has(name)) {
        if (kind.graded()) {
          severities(kinds.object(name))
              .forEach((severity, curve) -> deducts.put(new Distress(kind, severity), curve));
        } else {
          deducts.put(new Distress(kind, Severity.LOW), curve(kinds, name, 1e-9));
        }
      }
    }
    kinds.done();
    Map<Integer, List<Point>> corrected = new HashMap<>();
    JsonFields counts = f.object("corrected");
    for (int q = 1; q <= MOST_Q; q++) {
      if (counts.has(String.valueOf(q))) {
        corrected.put(q, curve(counts, String.valueOf(q), 0));
      }
    }
    counts.done();
    f.done();
    problems.check();
    return new Curves(source, density == Density.FEET, deducts, corrected);
  }

  private Map<Severity, List<Point>> severities(JsonFields f) {
    Map<Severity, List<Point>> curves = new EnumMap<>(Severity.class);
    for (Severity s : Severity.values()) {
      String name = s.name().toLowerCase(Locale.ROOT);
      if (f.has(name)) {
        curves.put(s, curve(f, name, 1e-9));
      }
    }
    f.done();
    return curves;
  }

  /** Points with growing x and a y from 0 to 100. */
  private List<Point> curve(JsonFields f, String field, double leastX) {
    List<Point> points = new ArrayList<>();
    double before = Double.NEGATIVE_INFINITY;
    for (JsonValue v : f.list(field)) {
      double x = coordinate(v, 0);
      double y = coordinate(v, 1);
      boolean good =
          v.isArray()
              && v.items().size() == 2
              && x >= leastX
              && x <= 1_000
              && x > before
              && y >= 0
              && y <= 100;
      if (good) {
        points.add(new Point(x, y));
        before = x;
      } else {
        problems.wrong(v, "a pair [x, y] with a greater x than the one before and y from 0 to 100");
      }
    }
    if (points.isEmpty() && problems.none()) {
      f.wrong(field, "at least one point [x, y]");
    }
    return points;
  }

  private static double coordinate(JsonValue v, int i) {
    return v.isArray() && v.items().size() == 2 && v.items().get(i).isNumber()
        ? Cells.parse(v.items().get(i).text())
        : Double.NaN;
  }
}
