package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Figure.Input;
import lanemend.measure.Unit;

/** Figures of one repair or zone in the order they are worked out. */
public final class Trace {
  public static final String GEOMETRY = "plain geometry";
  public static final String ARITHMETIC = "arithmetic";

  private final List<Figure> figures = new ArrayList<>();

  public Figure add(
      String name, double value, Unit unit, String formula, String source, Input... inputs) {
    return add(new Figure(name, value, unit, formula, List.of(inputs), source));
  }

  public Figure add(Figure figure) {
    figures.add(figure);
    return figure;
  }

  public List<Figure> figures() {
    return List.copyOf(figures);
  }

  public static Input in(String name, double value, Unit unit) {
    return new Input(name, value, unit);
  }
}
