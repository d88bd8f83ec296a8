package lanemend.sample;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Writes a county's files: JSON and GeoJSON here, tables by {@link Tables}. */
final class FolderWriter {
  private static final ObjectMapper JSON = new ObjectMapper();

  private FolderWriter() {}

  static void write(County county, Path folder) throws IOException {
    Files.createDirectories(folder);
    roads(county, folder.resolve("roads.geojson"));
    Tables.write(county, folder);
    tree(
        folder.resolve("agency.json"),
        AgencyFacts.write(county.drawn(), county.size().districts()));
    tree(folder.resolve("truth.json"), Truth.write(county));
    tree(folder.resolve("county.json"), manifest());
    Files.writeString(folder.resolve("README.md"), Readme.text(county));
  }

  /** One feature a line, so that the file can be read and compared by line. */
  private static void roads(County county, Path file) throws IOException {
    try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      out.write("{\"type\":\"FeatureCollection\",\"features\":[\n");
      for (int i = 0; i < county.lines().size(); i++) {
        out.write(JSON.writeValueAsString(feature(county.lines().get(i))));
        out.write(i + 1 < county.lines().size() ? ",\n" : "\n");
      }
      out.write("]}\n");
    }
  }

  private static ObjectNode feature(RoadLine line) {
    ObjectNode feature = JsonNodeFactory.instance.objectNode().put("type", "Feature");
    ObjectNode p = feature.putObject("properties");
    if (!line.route().isEmpty()) {
      p.put("route", line.route());
    }
    if (!line.direction().isEmpty()) {
      p.put("direction", line.direction());
    }
    RoadFacts f = line.facts();
    p.put("road_class", line.roadClass().name().toLowerCase(Locale.ROOT))
        .put("posted_mph", f.speedMph())
        .put("lanes", f.lanes())
        .put("lane_ft", f.laneWidthFt())
        .put("shoulder_ft", f.shoulderFt())
        .put("surface", f.surface())
        .put("one_way", line.oneWay())
        .put("level", line.level());
    ObjectNode geometry = feature.putObject("geometry").put("type", "LineString");
    ArrayNode coordinates = geometry.putArray("coordinates");
    line.shape().forEach(v -> coordinates.addArray().add(v.lon()).add(v.lat()));
    return feature;
  }

  private static ObjectNode manifest() {
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("name", Terrain.COUNTY)
        .put(
            "note",
            "Invented by a program from a seed. No road, town, person, agency or repair in it is"
                + " real, and the ground is not that of any real county.");
    ObjectNode roads = root.putObject("roads");
    roads.put("file", "roads.geojson").put("speed_unit", "mph");
    roads
        .putObject("fields")
        .put("class", "road_class")
        .put("speed", "posted_mph")
        .put("lane_width_ft", "lane_ft");
    root.put("posts", "posts.csv")
        .put("attributes", "attributes.csv")
        .put("agency", "agency.json")
        .put("forecast", "forecast.csv")
        .put("defects", "defects.csv")
        .put("findings", "findings.csv")
        .put("patches", "patches.csv");
    return root;
  }

  private static void tree(Path file, ObjectNode tree) throws IOException {
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    Files.writeString(file, JSON.writer(printer).writeValueAsString(tree) + "\n");
  }
}
