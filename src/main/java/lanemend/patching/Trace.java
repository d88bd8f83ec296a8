package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Figure.Input;
import lanemend.measure.Unit;

/** Figures of one repair or zone in the order they are worked out. */
final class Trace {
  static final String GEOMETRY = "plain geometry";
  static final String ARITHMETIC = "arithmetic";

  private final List<Figure> figures = new ArrayList<>();

  Figure add(String name, double value, Unit unit, String formula, String source, Input... inputs) {
    return add(new Figure(name, value, unit, formula, List.of(inputs), source));
  }

  Figure add(Figure figure) {
    figures.add(figure);
    return figure;
  }

  List<Figure> figures() {
    return List.copyOf(figures);
  }

  static Input in(String name, double value, Unit unit) {
    return new Input(name, value, unit);
  }
}
