package lanemend.web.desk;

import java.util.List;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.measure.UnitSystem;
import lanemend.web.page.Wording;

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
        shown(f.value(), f.unit(), units),
        f.formula(),
        f.inputs().stream()
            .map(i -> new Input(i.name(), shown(i.value(), i.unit(), units)))
            .toList(),
        f.source());
  }

  /** A small ratio, such as a chance, is never shown as 0. */
  private static String shown(double value, Unit unit, UnitSystem units) {
    return unit == Unit.RATIO
        ? new Wording(units, "").text(value, unit)
        : units.show(value, unit).text();
  }

  /** The same read in other words, for instance with its interval. */
  Trace reading(String text) {
    return new Trace(name, text, formula, inputs, source);
  }

  static List<Trace> of(List<Figure> figures, UnitSystem units) {
    return figures.stream().map(f -> of(f, units)).toList();
  }
}
