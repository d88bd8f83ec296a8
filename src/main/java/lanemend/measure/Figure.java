package lanemend.measure;

import java.util.List;

/**
 * One computed number and how it came to be: what a sheet shows, the rule behind it and where the
 * rule comes from. Sheets, pages and tests all read the same figure.
 *
 * @param name what it is, in the trade's words, for instance {@code mix to order}
 * @param value the number, in {@code unit}
 * @param unit the unit it is kept in
 * @param formula the rule in words and symbols, for instance {@code P D / (S E)}
 * @param inputs what went in, in the order of the formula
 * @param source where the rule comes from; {@code common practice, no source} and {@code from
 *     memory} are said plainly
 */
public record Figure(
    String name, double value, Unit unit, String formula, List<Input> inputs, String source) {

  /** One number that went into a figure. */
  public record Input(String name, double value, Unit unit) {}

  public static final String COMMON_PRACTICE = "common practice, no source";

  public Figure {
    inputs = List.copyOf(inputs);
  }

  /** This figure as an input of the next. */
  public Input asInput() {
    return new Input(name, value, unit);
  }
}
