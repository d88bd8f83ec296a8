package lanemend.web.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * Requests made from the OpenAPI description: some as it says, most with one or more things wrong,
 * at a limit or hostile. Seeded, so that what was found can be found again.
 */
final class FuzzRequests {
  /** A request; {@code body} null for none. */
  record Request(
      String method, String template, String path, String type, String body, String ifMatch) {
    String route() {
      return method.toLowerCase(java.util.Locale.ROOT) + " " + template;
    }
  }

  private static final String[] TEXTS = {
    "",
    " ",
    "null",
    "0",
    "-1",
    "1e308",
    "NaN",
    "Infinity",
    "9".repeat(400),
    "'",
    "\"",
    "' OR '1'='1",
    "1; DROP TABLE defect",
    "../../../etc/passwd",
    "..%2f..%2fetc%2fpasswd",
    "%00",
    "\u0000",
    "<script>alert(1)</script>",
    "=cmd|' /C calc'!A0",
    "{{7*7}}",
    "${jndi:ldap://x/y}",
    "\u202e",
    "🛣️",
    "A".repeat(5_000),
    "severity = 'high'",
    "strConcat(id, id) = 'x'",
    "(".repeat(60) + "id = 'a'",
    "id LIKE '%%%%%%%%%%%%%%%%%%%%x'",
    "2026-13-45",
    "2026-02-30",
    "+999999999-12-31",
    "true",
    "[]",
    "{}"
  };

  private static final String[] NUMBERS = {
    "0",
    "-1",
    "1",
    "0.5",
    "-0.0",
    "1e308",
    "-1e308",
    "1e-320",
    "2147483648",
    "9223372036854775808",
    "99999999999999999999999999",
    "180.0001",
    "1.7976931348623157E308",
    "1e999"
  };

  private final JsonNode description;
  private final Random random;
  private final Map<String, List<String>> known;
  private final List<String[]> operations = new ArrayList<>();

  /**
   * @param known values that exist, by the name of the path part they stand in
   */
  FuzzRequests(JsonNode description, long seed, Map<String, List<String>> known) {
    this.description = description;
    this.random = new Random(seed);
    this.known = known;
    description
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .fieldNames()
                    .forEachRemaining(m -> operations.add(new String[] {m, path.getKey()})));
  }

  /** Every operation as {@code {method, path}}. */
  List<String[]> operations() {
    return operations;
  }

  Request next(int i) {
    String[] operation = operations.get(i % operations.size());
    return make(operation[0], operation[1], 0.35);
  }

  /** One as the description has it, as far as that says. */
  Request plain(String[] operation) {
    return make(operation[0], operation[1], 0);
  }

  private Request make(String method, String template, double wrong) {
    JsonNode op = description.path("paths").path(template).path(method);
    String path = template;
    StringBuilder query = new StringBuilder();
    String ifMatch = null;
    for (JsonNode p : op.path("parameters")) {
      String name = p.path("name").asText();
      JsonNode schema = resolved(p.path("schema"));
      switch (p.path("in").asText()) {
        case "path" -> path = path.replace("{" + name + "}", coded(part(name, schema, wrong)));
        case "query" -> {
          if (p.path("required").asBoolean() ? !hits(wrong / 2) : random.nextInt(3) == 0) {
            query.append(query.isEmpty() ? '?' : '&').append(name).append('=');
            query.append(coded(scalar(schema, wrong)));
          }
        }
        default ->
            ifMatch =
                hits(wrong / 2)
                    ? null
                    : hits(wrong)
                        ? text().replaceAll("[^ -~]", "?")
                        : "\"" + (1 + random.nextInt(3)) + "\"";
      }
    }
    path = path.replaceAll("[{][^}]*}", coded(text()));
    JsonNode content = op.at("/requestBody/content/application~1json/schema");
    String body = null;
    String type = "application/json";
    if (!content.isMissingNode() || (!method.equals("get") && random.nextBoolean())) {
      JsonNode made = value(content, wrong, 0);
      body = hits(wrong / 3) ? garbage(made.toString()) : made.toString();
      if (hits(wrong / 8)) {
        type =
            new String[] {"text/plain", "multipart/form-data; boundary=x", "application/xml"}
                [random.nextInt(3)];
      }
    }
    return new Request(
        method.toUpperCase(java.util.Locale.ROOT), template, path + query, type, body, ifMatch);
  }

  private String part(String name, JsonNode schema, double wrong) {
    List<String> there = known.getOrDefault(name, List.of());
    if (!there.isEmpty() && !hits(wrong)) {
      return there.get(random.nextInt(there.size()));
    }
    String made = scalar(schema, wrong);
    // An empty part is another path.
    return made.isEmpty() ? "x" : made;
  }

  private boolean hits(double chance) {
    return random.nextDouble() < chance;
  }

  private String text() {
    return TEXTS[random.nextInt(TEXTS.length)];
  }

  private static String coded(String text) {
    return SmallDesk.coded(text).replace("+", "%20").replace("*", "%2A");
  }

  private JsonNode resolved(JsonNode schema) {
    return schema.has("$ref") ? description.at(schema.path("$ref").asText().substring(1)) : schema;
  }

  private String scalar(JsonNode schema, double wrong) {
    JsonNode v = value(schema, wrong, 0);
    return v.isTextual() ? v.textValue() : v.toString();
  }

  private JsonNode value(JsonNode given, double wrong, int depth) {
    JsonNode schema = resolved(given);
    JsonNodeFactory make = JsonNodeFactory.instance;
    if (hits(wrong / 3)) {
      return anything(make, depth);
    }
    if (schema.has("enum")) {
      return hits(wrong)
          ? make.textNode(text())
          : schema.path("enum").get(random.nextInt(schema.path("enum").size()));
    }
    return switch (schema.path("type").asText("string")) {
      case "object" -> object(schema, wrong, depth);
      case "array" -> array(schema, wrong, depth);
      case "boolean" -> make.booleanNode(random.nextBoolean());
      case "integer" -> hits(wrong) ? number() : make.numberNode(random.nextInt(20));
      case "number" -> hits(wrong) ? number() : make.numberNode(random.nextInt(200) / 10.0);
      default ->
          schema.path("format").asText().equals("date") && !hits(wrong)
              ? make.textNode("2026-0" + (1 + random.nextInt(9)) + "-1" + random.nextInt(10))
              : make.textNode(hits(Math.max(wrong, 0.2)) ? text() : "word");
    };
  }

  private ObjectNode object(JsonNode schema, double wrong, int depth) {
    ObjectNode object = JsonNodeFactory.instance.objectNode();
    if (depth < 5) {
      for (Map.Entry<String, JsonNode> field : schema.path("properties").properties()) {
        if (!hits(wrong / 3)) {
          object.set(field.getKey(), named(field.getKey(), field.getValue(), wrong, depth + 1));
        }
      }
    }
    if (hits(wrong / 4)) {
      object.set("unheardOf", anything(JsonNodeFactory.instance, depth));
    }
    return object;
  }

  private ArrayNode array(JsonNode schema, double wrong, int depth) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    for (int n = hits(wrong / 6) ? 300 : random.nextInt(3); n > 0 && depth < 5; n--) {
      array.add(value(schema.path("items"), wrong, depth + 1));
    }
    return array;
  }

  /**
   * A member that stands for something known, such as a repair or a crew, is mostly one there is.
   */
  private JsonNode named(String name, JsonNode schema, double wrong, int depth) {
    List<String> there = known.getOrDefault(name, List.of());
    return there.isEmpty() || hits(wrong)
        ? value(schema, wrong, depth)
        : JsonNodeFactory.instance.textNode(there.get(random.nextInt(there.size())));
  }

  private JsonNode number() {
    return JsonNodeFactory.instance.numberNode(
        new java.math.BigDecimal(NUMBERS[random.nextInt(NUMBERS.length)]));
  }

  private JsonNode anything(JsonNodeFactory make, int depth) {
    return switch (random.nextInt(6)) {
      case 0 -> make.nullNode();
      case 1 -> number();
      case 2 -> make.booleanNode(random.nextBoolean());
      case 3 -> make.arrayNode().add(text()).addNull().add(depth);
      case 4 -> make.objectNode().put(text().isEmpty() ? "a" : "b", text());
      default -> make.textNode(text());
    };
  }

  /** Text that is no longer JSON, or not the same. */
  private String garbage(String json) {
    return switch (random.nextInt(6)) {
      case 0 -> json.substring(0, json.length() / 2);
      case 1 -> "[".repeat(3_000);
      case 2 -> "";
      case 3 -> "{\"a\":".repeat(2_000) + "1" + "}".repeat(2_000);
      case 4 -> json + json;
      default -> "\u0000\uFFFF" + json;
    };
  }
}
