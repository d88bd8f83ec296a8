package lanemend.exchange;

import java.util.function.Predicate;
import org.geotools.api.filter.Filter;

/**
 * A condition in the OGC's Common Query Language as text (CQL of the Catalogue Services standard
 * 2.0.2, with the additions GeoTools calls ECQL, such as IN), on records of one kind. It is parsed
 * and evaluated in memory: no part of it reaches a database.
 *
 * <p>What it may name is in {@link EventProperties}. Functions and record identifiers in its own
 * syntax are not taken.
 */
public final class CqlFilter<T> implements Predicate<T> {
  private final Filter filter;

  private CqlFilter(Filter filter) {
    this.filter = filter;
  }

  /**
   * Reads a filter.
   *
   * @throws ExchangeException with one sentence: where the text is wrong, which property is not
   *     known (the known ones are listed), or which value a property cannot have
   */
  public static <T> CqlFilter<T> parse(String text, EventProperties<T> known) {
    String line = CqlText.onOneLine(text);
    try {
      return new CqlFilter<>((Filter) CqlText.parse(line).accept(new CqlBinder<>(known), null));
    } catch (ExchangeException e) {
      throw CqlText.placed(e, line);
    }
  }

  @Override
  public boolean test(T row) {
    return filter.evaluate(row);
  }
}
