package lanemend.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * The features of a GeoJSON collection (RFC 7946) as rows, streamed: one feature is in memory at a
 * time. The {@code crs} member of the 2008 format is honoured when it stands before the features. A
 * feature that is well-formed JSON but wrong otherwise costs that feature only.
 */
final class GeoJsonRows implements RowSource {
  private static final JsonFactory FACTORY = StrictJson.factory();

  private final Path file;
  private final String name;

  GeoJsonRows(Path file) {
    this.file = file;
    this.name = RowSource.nameOf(file);
  }

  @Override
  public Optional<List<String>> columns() {
    return Optional.empty();
  }

  @Override
  public void read(Sink sink) {
    try (Reader text = BoundedLines.utf8(file);
        JsonParser parser = FACTORY.createParser(text)) {
      try {
        new Pass(parser, sink).collection();
      } catch (JsonProcessingException e) {
        throw StrictJson.malformed(name, e, parser);
      }
    } catch (IOException e) {
      throw CsvRows.unreadable(name, e);
    }
  }

  /** One run through the file. */
  private final class Pass {
    private final JsonParser parser;
    private final Sink sink;
    private long features;
    private String crs = "";
    private boolean typeSeen;
    private boolean featuresSeen;

    Pass(JsonParser parser, Sink sink) {
      this.parser = parser;
      this.sink = sink;
    }

    void collection() throws IOException {
      JsonToken first = parser.nextToken();
      if (first == null) {
        throw whole("", "an empty file", "a GeoJSON FeatureCollection");
      }
      if (first != JsonToken.START_OBJECT) {
        throw whole("", parser.getText(), "a GeoJSON FeatureCollection");
      }
      while (parser.nextToken() == JsonToken.FIELD_NAME) {
        member(parser.currentName());
      }
      if (!typeSeen) {
        throw whole("type", "", "FeatureCollection");
      }
      if (!featuresSeen) {
        throw whole("features", "", "an array of features");
      }
      if (parser.nextToken() != null) {
        throw whole("", parser.getText(), "nothing after the collection");
      }
    }

    private void member(String member) throws IOException {
      JsonToken value = parser.nextToken();
      switch (member) {
        case "type" -> {
          if (value != JsonToken.VALUE_STRING || !parser.getText().equals("FeatureCollection")) {
            throw whole("type", parser.getText(), "FeatureCollection");
          }
          typeSeen = true;
        }
        case "crs" -> crs(value);
        case "features" -> {
          if (value != JsonToken.START_ARRAY || featuresSeen) {
            throw whole("features", parser.getText(), "one array of features");
          }
          featuresSeen = true;
          while (parser.nextToken() != JsonToken.END_ARRAY) {
            feature();
          }
        }
        default -> parser.skipChildren();
      }
    }

    private void crs(JsonToken value) throws IOException {
      if (value == JsonToken.VALUE_NULL) {
        return;
      }
      String named = "";
      if (value == JsonToken.START_OBJECT) {
        int depth = 1;
        while (depth > 0) {
          JsonToken t = parser.nextToken();
          if (t == null) {
            break;
          }
          depth += t.isStructStart() ? 1 : t.isStructEnd() ? -1 : 0;
          if (t == JsonToken.VALUE_STRING && "name".equals(parser.currentName()) && depth == 2) {
            named = parser.getText();
          }
        }
      }
      if (named.isBlank()) {
        throw whole("crs", named, "a crs member with a name such as urn:ogc:def:crs:OGC:1.3:CRS84");
      }
      if (featuresSeen && !Georeference.isLonLat(named)) {
        throw whole("crs", named, "the crs member before the features, or CRS84");
      }
      crs = named;
    }

    private void feature() throws IOException {
      RowOrigin origin = new RowOrigin(name, parser.currentTokenLocation().getLineNr(), ++features);
      if (parser.currentToken() != JsonToken.START_OBJECT) {
        String found = parser.getText();
        parser.skipChildren();
        sink.refuse(origin.problem("", found, "a Feature"));
        return;
      }
      Feature feature = new Feature();
      while (parser.nextToken() == JsonToken.FIELD_NAME) {
        feature.member(parser);
      }
      if (!feature.type.equals("Feature")) {
        sink.refuse(origin.problem("type", feature.type, "Feature"));
      } else if (feature.faultField != null) {
        sink.refuse(origin.problem(feature.faultField, feature.faultFound, feature.faultExpected));
      } else {
        sink.row(feature.row(origin, crs));
      }
    }

    private ExchangeException whole(String field, String found, String expected) {
      long line = parser.currentTokenLocation().getLineNr();
      return new ExchangeException(new RowProblem(name, line, field, found, expected));
    }
  }

  /** A feature while it is read; the first fault is kept. */
  private static final class Feature {
    private static final int MAX_PROPERTIES = 1_000;

    private final Map<String, String> cells = new HashMap<>();
    private String type = "";
    private String id = "";
    private Shape shape;
    private String shapeFault = "";
    private String faultField;
    private String faultFound;
    private String faultExpected;

    void member(JsonParser p) throws IOException {
      String member = p.currentName();
      JsonToken value = p.nextToken();
      switch (member) {
        case "type" -> {
          type = value == JsonToken.VALUE_STRING ? p.getText() : "";
          p.skipChildren();
        }
        case "id" -> {
          id = value.isScalarValue() && value != JsonToken.VALUE_NULL ? p.getText() : "";
          p.skipChildren();
        }
        case "properties" -> properties(p, value);
        case "geometry" -> {
          GeoJsonShape read = GeoJsonShape.read(p);
          shape = read.shape();
          shapeFault = read.fault();
        }
        default -> p.skipChildren();
      }
    }

    private void properties(JsonParser p, JsonToken value) throws IOException {
      if (value == JsonToken.VALUE_NULL) {
        return;
      }
      if (value != JsonToken.START_OBJECT) {
        fault("properties", p.getText(), "an object of properties");
        p.skipChildren();
        return;
      }
      while (p.nextToken() == JsonToken.FIELD_NAME) {
        String property = p.currentName().strip().toLowerCase(Locale.ROOT);
        JsonToken v = p.nextToken();
        String text = "";
        if (v.isStructStart()) {
          // Only wrong when the property is one that is read: Cells refuses this mark.
          text = v == JsonToken.START_OBJECT ? Cells.NESTED_OBJECT : Cells.NESTED_ARRAY;
          p.skipChildren();
        } else if (v != JsonToken.VALUE_NULL) {
          text = p.getText();
        }
        if (cells.size() >= MAX_PROPERTIES) {
          fault("properties", property, "at most " + MAX_PROPERTIES + " properties");
        } else if (cells.put(property, text) != null) {
          fault(property, text, "each property once");
        }
      }
    }

    private void fault(String field, String found, String expected) {
      if (faultField == null) {
        faultField = field;
        faultFound = found;
        faultExpected = expected;
      }
    }

    Row row(RowOrigin origin, String crs) {
      if (!id.isEmpty() && cells.getOrDefault("id", "").isBlank()) {
        cells.put("id", id);
      }
      return new Row(origin, cells, shape, shapeFault, crs);
    }
  }
}
