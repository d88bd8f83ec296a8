package lanemend.exchange;

import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.Date;
import java.util.Map;
import lanemend.measure.Conversion;
import org.geotools.api.filter.BinaryComparisonOperator;
import org.geotools.api.filter.Filter;
import org.geotools.api.filter.Id;
import org.geotools.api.filter.PropertyIsBetween;
import org.geotools.api.filter.PropertyIsEqualTo;
import org.geotools.api.filter.PropertyIsGreaterThan;
import org.geotools.api.filter.PropertyIsGreaterThanOrEqualTo;
import org.geotools.api.filter.PropertyIsLessThan;
import org.geotools.api.filter.PropertyIsLessThanOrEqualTo;
import org.geotools.api.filter.PropertyIsLike;
import org.geotools.api.filter.expression.Expression;
import org.geotools.api.filter.expression.Function;
import org.geotools.api.filter.expression.Literal;
import org.geotools.api.filter.expression.PropertyName;
import org.geotools.api.filter.spatial.BBOX;
import org.geotools.api.filter.spatial.Beyond;
import org.geotools.api.filter.spatial.BinarySpatialOperator;
import org.geotools.api.filter.spatial.Contains;
import org.geotools.api.filter.spatial.Crosses;
import org.geotools.api.filter.spatial.DWithin;
import org.geotools.api.filter.spatial.Disjoint;
import org.geotools.api.filter.spatial.DistanceBufferOperator;
import org.geotools.api.filter.spatial.Equals;
import org.geotools.api.filter.spatial.Intersects;
import org.geotools.api.filter.spatial.Overlaps;
import org.geotools.api.filter.spatial.Touches;
import org.geotools.api.filter.spatial.Within;
import org.geotools.api.filter.temporal.After;
import org.geotools.api.filter.temporal.Before;
import org.geotools.api.filter.temporal.BinaryTemporalOperator;
import org.geotools.api.filter.temporal.During;
import org.geotools.api.filter.temporal.TEquals;
import org.geotools.api.geometry.BoundingBox;
import org.geotools.api.temporal.Instant;
import org.geotools.api.temporal.Period;
import org.geotools.filter.visitor.DuplicatingFilterVisitor;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/** Puts a record's own properties in place of the names of a parsed filter, and checks values. */
final class CqlBinder<T> extends DuplicatingFilterVisitor {
  private static final Map<String, Double> METERS =
      Map.of(
          "m", 1.0,
          "meters", 1.0,
          "kilometers", 1_000.0,
          "feet", Conversion.M_PER_FT,
          "statute miles", Conversion.M_PER_MILE,
          "nautical miles", 1_852.0);

  private final EventProperties<T> known;

  CqlBinder(EventProperties<T> known) {
    this.known = known;
  }

  @Override
  public Object visit(PropertyName expression, Object extraData) {
    return known.find(expression.getPropertyName());
  }

  @Override
  public Object visit(Function expression, Object extraData) {
    throw CqlText.problem(
        expression.getName(), "properties, values and comparisons; functions are not taken");
  }

  @Override
  public Object visit(Id filter, Object extraData) {
    throw CqlText.problem("IN", "a property before it, such as id IN ('D-1', 'D-2')");
  }

  // Comparisons

  /** Both sides of a comparison, each value understood as the property beside it has it. */
  private record Sides(Expression left, Expression right) {}

  private Sides sides(BinaryComparisonOperator f, String order, Object extraData) {
    Expression left = visit(f.getExpression1(), extraData);
    Expression right = visit(f.getExpression2(), extraData);
    checkOrder(left, order);
    checkOrder(right, order);
    return new Sides(fit(asWritten(left, right), right), fit(asWritten(right, left), left));
  }

  /** A text beside a number is read as a number: 12 comes after 3, and words are no number. */
  private static Expression asWritten(Expression e, Expression beside) {
    boolean number = beside instanceof Literal l && l.getValue() instanceof Number;
    return number && e instanceof CqlProperty<?> p && p.kind() == CqlProperty.Kind.TEXT
        ? p.asNumber()
        : e;
  }

  private static void checkOrder(Expression e, String order) {
    if (!order.isEmpty() && e instanceof CqlProperty<?> p && p.kind() == CqlProperty.Kind.WORD) {
      throw CqlText.problem(
          order, "= or IN beside " + p.name() + ", whose words have no order in a filter");
    }
    if (e instanceof CqlProperty<?> p && p.kind() == CqlProperty.Kind.GEOMETRY) {
      p.meaning(p.name());
    }
  }

  private Expression fit(Expression value, Expression beside) {
    return value instanceof Literal l && beside instanceof CqlProperty<?> p
        ? ff.literal(p.meaning(l.getValue()))
        : value;
  }

  @Override
  public Object visit(PropertyIsEqualTo f, Object extraData) {
    Sides s = sides(f, "", extraData);
    return ff.equal(s.left(), s.right(), f.isMatchingCase());
  }

  @Override
  public Object visit(PropertyIsGreaterThan f, Object extraData) {
    Sides s = sides(f, ">", extraData);
    return ff.greater(s.left(), s.right());
  }

  @Override
  public Object visit(PropertyIsGreaterThanOrEqualTo f, Object extraData) {
    Sides s = sides(f, ">=", extraData);
    return ff.greaterOrEqual(s.left(), s.right());
  }

  @Override
  public Object visit(PropertyIsLessThan f, Object extraData) {
    Sides s = sides(f, "<", extraData);
    return ff.less(s.left(), s.right());
  }

  @Override
  public Object visit(PropertyIsLessThanOrEqualTo f, Object extraData) {
    Sides s = sides(f, "<=", extraData);
    return ff.lessOrEqual(s.left(), s.right());
  }

  @Override
  public Object visit(PropertyIsBetween f, Object extraData) {
    Expression lower = visit(f.getLowerBoundary(), extraData);
    Expression upper = visit(f.getUpperBoundary(), extraData);
    Expression middle = asWritten(visit(f.getExpression(), extraData), lower);
    checkOrder(middle, "BETWEEN");
    return ff.between(middle, fit(lower, middle), fit(upper, middle));
  }

  @Override
  public Object visit(PropertyIsLike f, Object extraData) {
    Expression e = visit(f.getExpression(), extraData);
    if (e instanceof CqlProperty<?> p
        && (p.kind() == CqlProperty.Kind.NUMBER || p.kind() == CqlProperty.Kind.GEOMETRY)) {
      throw CqlText.problem("LIKE", "a text before it; " + p.name() + " is none");
    }
    return new CqlLike(e, f.getLiteral(), f.isMatchingCase());
  }

  // Times: a day stands for its first moment, UTC, and is compared as text

  private Expression day(BinaryTemporalOperator f) {
    Expression e = visit(f.getExpression1(), null);
    if (!(e instanceof CqlProperty<?> p) || p.kind() != CqlProperty.Kind.DATE) {
      throw CqlText.problem(String.valueOf(f.getExpression1()), "a date before AFTER or DURING");
    }
    return e;
  }

  private static ZonedDateTime moment(Object value) {
    Object at = value instanceof Instant i ? i.getPosition().getDate() : value;
    if (at instanceof Date date) {
      return date.toInstant().atZone(ZoneOffset.UTC);
    }
    throw CqlText.problem(String.valueOf(value), "a time such as 2026-04-30T00:00:00Z");
  }

  private static Object valueOf(BinaryTemporalOperator f) {
    return f.getExpression2().evaluate(null);
  }

  private Object after(Expression day, ZonedDateTime moment) {
    return ff.greater(day, ff.literal(moment.toLocalDate().toString()));
  }

  private Object before(Expression day, ZonedDateTime moment) {
    Expression bound = ff.literal(moment.toLocalDate().toString());
    boolean atMidnight = moment.equals(moment.toLocalDate().atStartOfDay(ZoneOffset.UTC));
    return atMidnight ? ff.less(day, bound) : ff.lessOrEqual(day, bound);
  }

  @Override
  public Object visit(After f, Object extraData) {
    Object value = valueOf(f);
    return after(day(f), moment(value instanceof Period p ? p.getEnding() : value));
  }

  @Override
  public Object visit(Before f, Object extraData) {
    Object value = valueOf(f);
    return before(day(f), moment(value instanceof Period p ? p.getBeginning() : value));
  }

  @Override
  public Object visit(During f, Object extraData) {
    if (!(valueOf(f) instanceof Period p)) {
      throw CqlText.problem(
          String.valueOf(valueOf(f)), "a period such as 2026-04-01T00:00:00Z/2026-05-01T00:00:00Z");
    }
    return ff.and(
        (Filter) after(day(f), moment(p.getBeginning())),
        (Filter) before(day(f), moment(p.getEnding())));
  }

  @Override
  public Object visit(TEquals f, Object extraData) {
    return ff.equal(
        day(f), ff.literal(moment(valueOf(f)).toLocalDate().toString()), /* matchCase= */ true);
  }

  // Places

  /** A spatial filter must begin with the geometry, else it would quietly never be true. */
  private BinarySpatialOperator checked(BinarySpatialOperator f) {
    Expression e = visit(f.getExpression1(), null);
    if (!(e instanceof CqlProperty<?> p) || p.kind() != CqlProperty.Kind.GEOMETRY) {
      throw CqlText.problem(String.valueOf(f.getExpression1()), "geometry first");
    }
    if (f instanceof BBOX box && box.getBounds().getCoordinateReferenceSystem() != null) {
      throw CqlText.problem(
          "BBOX", "west, south, east, north in degrees (WGS 84) without a system after them");
    }
    if (f.getExpression2() instanceof Literal l
        && l.getValue() instanceof Geometry g
        && (g.getSRID() != 0 || g.getUserData() != null)) {
      throw CqlText.problem("SRID", "longitude and latitude (WGS 84) without a system before them");
    }
    return f;
  }

  @Override
  public Object visit(BBOX f, Object extraData) {
    checked(f);
    BoundingBox b = f.getBounds();
    Envelope box = new Envelope(b.getMinX(), b.getMaxX(), b.getMinY(), b.getMaxY());
    // The library's own BBOX wants a property by name; this is what it means.
    return ff.intersects(
        visit(f.getExpression1(), extraData), ff.literal(new GeometryFactory().toGeometry(box)));
  }

  /** The library measures in the units of the geometry: so in metres, on the ground plan. */
  private record Near(Expression geometry, Expression other, double meters) {}

  private Near near(DistanceBufferOperator f) {
    checked(f);
    Double unit = METERS.get(f.getDistanceUnits());
    if (unit == null) {
      throw CqlText.problem(
          f.getDistanceUnits(), "feet, meters, kilometers, statute miles or nautical miles");
    }
    Geometry other = f.getExpression2().evaluate(null, Geometry.class);
    if (other == null) {
      throw CqlText.problem(String.valueOf(f.getExpression2()), "a geometry such as POINT(-93 44)");
    }
    return new Near(known.projected(), ff.literal(known.project(other)), f.getDistance() * unit);
  }

  @Override
  public Object visit(DWithin f, Object extraData) {
    Near n = near(f);
    return ff.dwithin(n.geometry(), n.other(), n.meters(), "m");
  }

  @Override
  public Object visit(Beyond f, Object extraData) {
    Near n = near(f);
    return ff.beyond(n.geometry(), n.other(), n.meters(), "m");
  }

  @Override
  public Object visit(Intersects f, Object extraData) {
    return super.visit((Intersects) checked(f), extraData);
  }

  @Override
  public Object visit(Within f, Object extraData) {
    return super.visit((Within) checked(f), extraData);
  }

  @Override
  public Object visit(Disjoint f, Object extraData) {
    return super.visit((Disjoint) checked(f), extraData);
  }

  @Override
  public Object visit(Contains f, Object extraData) {
    return super.visit((Contains) checked(f), extraData);
  }

  @Override
  public Object visit(Crosses f, Object extraData) {
    return super.visit((Crosses) checked(f), extraData);
  }

  @Override
  public Object visit(Equals f, Object extraData) {
    return super.visit((Equals) checked(f), extraData);
  }

  @Override
  public Object visit(Overlaps f, Object extraData) {
    return super.visit((Overlaps) checked(f), extraData);
  }

  @Override
  public Object visit(Touches f, Object extraData) {
    return super.visit((Touches) checked(f), extraData);
  }
}
