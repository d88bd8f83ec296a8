package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import lanemend.inventory.DefectKind;
import lanemend.inventory.Severity;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.RoadClass;
import lanemend.patching.Range;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentRule;
import lanemend.patching.TreatmentRules;

/**
 * The treatment table as JSON that an agency can edit: {@code {"rules": [...]}}, the first rule
 * that fits wins. Limits are in the unit their field is named with, US or metric. Taken whole or
 * not at all.
 */
public final class TreatmentRulesJson {
  private static final double M2_PER_FT2 = Conversion.M_PER_FT * Conversion.M_PER_FT;
  private static final double LARGEST = 1e9;

  /** A limit's field in both units. */
  private record Limit(String us, double perUs, String metric, double perMetric) {}

  private static final Limit AREA = new Limit("area_ft2", M2_PER_FT2, "area_m2", 1);
  private static final Limit LENGTH = new Limit("length_ft", Conversion.M_PER_FT, "length_m", 1);
  private static final Limit WIDTH = new Limit("width_ft", Conversion.M_PER_FT, "width_m", 1);
  private static final Limit DEPTH = new Limit("depth_in", Conversion.M_PER_IN, "depth_mm", 1e-3);
  private static final Limit SHARE = new Limit("lane_share", 1, "lane_share", 1);

  private TreatmentRulesJson() {}

  /**
   * Reads a file.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static TreatmentRules read(Path file) {
    return rules(RowSource.nameOf(file), JsonValue.read(file));
  }

  /**
   * Reads text, for instance that of the store; {@code name} stands for the file in messages.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static TreatmentRules parse(String name, String json) {
    return rules(name, JsonValue.parse(name, json));
  }

  private static TreatmentRules rules(String name, JsonValue root) {
    JsonProblems problems = new JsonProblems(name);
    JsonFields fields = new JsonFields(root, problems);
    List<TreatmentRule> rules = new java.util.ArrayList<>();
    for (JsonValue item : fields.list("rules")) {
      JsonFields rule = new JsonFields(item, problems);
      TreatmentRule read = rule(rule);
      if (read != null) {
        rules.add(read);
      }
    }
    fields.done();
    problems.check();
    try {
      return new TreatmentRules(rules);
    } catch (IllegalArgumentException e) {
      throw new ExchangeException(
          new RowProblem(name, root.line(), "rules", "", "a whole table (" + e.getMessage() + ")"));
    }
  }

  private static TreatmentRule rule(JsonFields f) {
    String id = f.text("id");
    Set<DefectKind> kinds = f.has("kinds") ? f.words("kinds", DefectKind.class) : Set.of();
    Severity least =
        f.has("least_severity") ? f.word("least_severity", Severity.class) : Severity.LOW;
    Severity most =
        f.has("most_severity") ? f.word("most_severity", Severity.class) : Severity.HIGH;
    Range area = range(f, AREA);
    Range length = range(f, LENGTH);
    Range width = range(f, WIDTH);
    Range depth = range(f, DEPTH);
    Range share = range(f, SHARE);
    Set<RoadClass> classes =
        f.has("road_classes") ? f.words("road_classes", RoadClass.class) : Set.of();
    Treatment treatment = f.word("treatment", Treatment.class);
    String reason = f.text("reason");
    f.done();
    if (!f.problems().none()) {
      return null;
    }
    try {
      return new TreatmentRule(
          id, kinds, least, most, area, length, width, depth, share, classes, treatment, reason);
    } catch (IllegalArgumentException e) {
      f.wrongWhole("a rule that can fit (" + e.getMessage() + ")");
      return null;
    }
  }

  private static Range range(JsonFields f, Limit limit) {
    boolean us = f.has(limit.us());
    if (us && f.has(limit.metric()) && !limit.equals(SHARE)) {
      f.wrong(limit.metric(), "only one of " + limit.us() + " and " + limit.metric());
    }
    if (!us && !f.has(limit.metric())) {
      return Range.ANY;
    }
    JsonFields ends = f.object(us ? limit.us() : limit.metric());
    double unit = us ? limit.perUs() : limit.perMetric();
    Double atLeast = end(ends, "at_least", unit);
    Double below = end(ends, "below", unit);
    ends.done();
    return new Range(atLeast, below);
  }

  private static Double end(JsonFields ends, String field, double unit) {
    return ends.has(field) ? (Double) (ends.number(field, 0, LARGEST) * unit) : null;
  }

  /** The text of a rules file in the agency's units. */
  public static String json(TreatmentRules rules, UnitSystem units) {
    boolean us = units == UnitSystem.US_CUSTOMARY;
    return JsonText.of(
        out -> {
          out.writeStartObject();
          out.writeArrayFieldStart("rules");
          for (TreatmentRule r : rules.rules()) {
            write(out, r, us);
          }
          out.writeEndArray();
          out.writeEndObject();
        });
  }

  private static void write(JsonGenerator out, TreatmentRule r, boolean us) throws IOException {
    out.writeStartObject();
    out.writeStringField("id", r.id());
    words(out, "kinds", r.kinds());
    if (r.leastSeverity() != Severity.LOW) {
      out.writeStringField("least_severity", lower(r.leastSeverity()));
    }
    if (r.mostSeverity() != Severity.HIGH) {
      out.writeStringField("most_severity", lower(r.mostSeverity()));
    }
    limit(out, AREA, r.areaM2(), us);
    limit(out, LENGTH, r.lengthM(), us);
    limit(out, WIDTH, r.widthM(), us);
    limit(out, DEPTH, r.depthM(), us);
    limit(out, SHARE, r.laneShare(), us);
    words(out, "road_classes", r.roadClasses());
    out.writeStringField("treatment", lower(r.treatment()));
    out.writeStringField("reason", r.reason());
    out.writeEndObject();
  }

  private static void limit(JsonGenerator out, Limit limit, Range range, boolean us)
      throws IOException {
    if (range.atLeast() == null && range.below() == null) {
      return;
    }
    double unit = us ? limit.perUs() : limit.perMetric();
    out.writeObjectFieldStart(us ? limit.us() : limit.metric());
    if (range.atLeast() != null) {
      JsonText.number(out, "at_least", range.atLeast() / unit);
    }
    if (range.below() != null) {
      JsonText.number(out, "below", range.below() / unit);
    }
    out.writeEndObject();
  }

  private static <E extends Enum<E>> void words(JsonGenerator out, String field, Set<E> words)
      throws IOException {
    if (!words.isEmpty()) {
      out.writeArrayFieldStart(field);
      for (E word : new TreeSet<>(words)) {
        out.writeString(lower(word));
      }
      out.writeEndArray();
    }
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
