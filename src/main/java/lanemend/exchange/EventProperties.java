package lanemend.exchange;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.CoordinateSequenceFilter;
import org.locationtech.jts.geom.Geometry;

/**
 * What a {@link CqlFilter} may name of records of one kind. {@link FilterTables} has those of
 * defects, findings, past repairs and segments.
 */
public final class EventProperties<T> {
  private final Map<String, CqlProperty<T>> byName = new LinkedHashMap<>();
  private final Function<double[], double[]> project;

  /**
   * @param project longitude and latitude to metres
   */
  EventProperties(Function<double[], double[]> project) {
    this.project = project;
  }

  EventProperties<T> text(String name, Function<T, String> read) {
    return put(name, CqlProperty.Kind.TEXT, List.of(), read::apply);
  }

  EventProperties<T> word(String name, Enum<?>[] words, Function<T, Enum<?>> read) {
    return put(
        name,
        CqlProperty.Kind.WORD,
        Arrays.stream(words).map(EventProperties::lower).toList(),
        t -> {
          Enum<?> word = read.apply(t);
          return word == null ? null : lower(word);
        });
  }

  /** A number, rounded as exports write it, so that 20 ft kept in metres equals 20. */
  EventProperties<T> number(String name, Function<T, Double> read) {
    return put(
        name,
        CqlProperty.Kind.NUMBER,
        List.of(),
        t -> {
          Double value = read.apply(t);
          return value == null ? null : (Double) Double.parseDouble(Numbers.plain(value));
        });
  }

  /** One size under its US name and its metric name. */
  EventProperties<T> size(
      String usName,
      double perUs,
      String metricName,
      double perMetric,
      Function<T, Double> inside) {
    return number(usName, t -> scaled(inside.apply(t), perUs))
        .number(metricName, t -> scaled(inside.apply(t), perMetric));
  }

  private static Double scaled(Double value, double unit) {
    return value == null ? null : (Double) (value / unit);
  }

  EventProperties<T> date(String name, Function<T, LocalDate> read) {
    return put(name, CqlProperty.Kind.DATE, List.of(), read::apply);
  }

  /** The geometry in longitude and latitude. */
  EventProperties<T> geometry(Function<T, Geometry> read) {
    return put("geometry", CqlProperty.Kind.GEOMETRY, List.of(), read::apply);
  }

  private EventProperties<T> put(
      String name, CqlProperty.Kind kind, List<String> words, Function<T, Object> read) {
    byName.put(name, new CqlProperty<>(name, kind, words, read));
    return this;
  }

  private static String lower(Enum<?> word) {
    return word.name().toLowerCase(Locale.ROOT);
  }

  /** Every name a filter may use. */
  public List<String> names() {
    return List.copyOf(byName.keySet());
  }

  CqlProperty<T> find(String name) {
    CqlProperty<T> found = byName.get(name.toLowerCase(Locale.ROOT));
    if (found == null) {
      throw CqlText.problem(
          name.replace('/', '.'),
          "one of "
              + String.join(", ", names())
              + " (a text is written in single quotes, as in 'high')");
    }
    return found;
  }

  /** The geometry in metres, for distances. */
  CqlProperty<T> projected() {
    CqlProperty<T> geometry = find("geometry");
    return new CqlProperty<>(
        "geometry",
        CqlProperty.Kind.GEOMETRY,
        List.of(),
        t -> {
          Geometry read = (Geometry) geometry.read().apply(t);
          return read == null ? null : project(read);
        });
  }

  /** A copy in metres of a geometry in longitude and latitude. */
  Geometry project(Geometry lonLat) {
    Geometry copy = lonLat.copy();
    copy.apply(new Projection(project));
    copy.geometryChanged();
    return copy;
  }

  private record Projection(Function<double[], double[]> project)
      implements CoordinateSequenceFilter {
    @Override
    public void filter(CoordinateSequence all, int i) {
      double[] xy = project.apply(new double[] {all.getX(i), all.getY(i)});
      all.setOrdinate(i, Coordinate.X, xy[0]);
      all.setOrdinate(i, Coordinate.Y, xy[1]);
    }

    @Override
    public boolean isDone() {
      return false;
    }

    @Override
    public boolean isGeometryChanged() {
      return true;
    }
  }
}
