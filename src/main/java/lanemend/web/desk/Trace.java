package lanemend.web.desk;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.UnitSystem;

/**
 * A figure as pages show it: how it reads, and on demand its rule, what went in and the source.
 *
 * @param shown with its unit, as the agency reads it
 */
record Trace(String name, String shown, String formula, List<Input> inputs, String source) {

  /** One number that went in. */
  record Input(String name, String shown) {}

  static Trace of(Figure f, UnitSystem units) {
    return new Trace(
        f.name(),
        units.show(f.value(), f.unit()).text(),
        f.formula(),
        f.inputs().stream()
            .map(i -> new Input(i.name(), units.show(i.value(), i.unit()).text()))
            .toList(),
        f.source());
  }

  /** The same read in other words, for instance with its interval. */
  Trace reading(String text) {
    return new Trace(name, text, formula, inputs, source);
  }

  static List<Trace> of(List<Figure> figures, UnitSystem units) {
    return figures.stream().map(f -> of(f, units)).toList();
  }
}
