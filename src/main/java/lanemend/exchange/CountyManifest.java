package lanemend.exchange;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * What a folder of files holds, from its {@code county.json}.
 *
 * @param name the county's
 * @param note anything worth saying, or empty
 */
public record CountyManifest(
    String name,
    String note,
    RoadSource roads,
    Optional<Path> posts,
    Optional<Path> attributes,
    Optional<Path> agency,
    Optional<Path> forecast,
    List<Path> defects,
    List<Path> findings,
    List<Path> patches) {

  /** Name of the file in its folder. */
  public static final String FILE = "county.json";

  public CountyManifest {
    defects = List.copyOf(defects);
    findings = List.copyOf(findings);
    patches = List.copyOf(patches);
  }

  /**
   * Reads the manifest of a folder; every file it names is checked to exist inside the folder.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static CountyManifest read(Path folder) {
    JsonProblems problems = new JsonProblems(FILE);
    JsonFields f = new JsonFields(JsonValue.read(folder.resolve(FILE)), problems);
    String name = f.text("name");
    String note = f.textOr("note", "");
    JsonFields r = f.object("roads");
    RoadSource roads = roads(r, folder);
    r.done();
    CountyManifest manifest =
        new CountyManifest(
            name,
            note,
            roads,
            files(f, "posts", folder).stream().findFirst(),
            files(f, "attributes", folder).stream().findFirst(),
            files(f, "agency", folder).stream().findFirst(),
            files(f, "forecast", folder).stream().findFirst(),
            files(f, "defects", folder),
            files(f, "findings", folder),
            files(f, "patches", folder));
    for (String single : List.of("posts", "attributes", "agency", "forecast")) {
      if (f.has(single) && !f.value(single, "").isText()) {
        f.wrong(single, "one file name");
      }
    }
    f.done();
    problems.check();
    return manifest;
  }

  private static RoadSource roads(JsonFields r, Path folder) {
    List<Path> files = files(r, "file", folder);
    if (files.size() != 1 && r.problems().none()) {
      r.wrong("file", "the name of the road file");
    }
    SpeedUnit unit = r.has("speed_unit") ? r.word("speed_unit", SpeedUnit.class) : SpeedUnit.MPH;
    return new RoadSource(
        files.isEmpty() ? folder : files.get(0),
        r.textOr("layer", ""),
        r.textOr("crs", ""),
        unit,
        mapped(r, "fields", FieldMap.NONE, FieldMap::of),
        mapped(r, "classes", ClassMap.NONE, ClassMap::of));
  }

  private static <T> T mapped(
      JsonFields f, String field, T none, Function<java.util.Map<String, String>, T> parse) {
    try {
      return parse.apply(f.texts(field));
    } catch (IllegalArgumentException e) {
      f.wrong(field, "a mapping (" + e.getMessage() + ")");
      return none;
    }
  }

  /** A file name, or several in an array; none when the field is absent. */
  private static List<Path> files(JsonFields f, String field, Path folder) {
    List<Path> files = new ArrayList<>();
    if (!f.has(field)) {
      return files;
    }
    JsonValue v = f.value(field, "a file name");
    for (JsonValue item : v.isArray() ? v.items() : List.of(v)) {
      Path file = inside(folder, item);
      if (file == null) {
        f.problems().wrong(item, "the name of a file in this folder");
      } else {
        files.add(file);
      }
    }
    return files;
  }

  /** The file, or null: a folder is copied as one thing, so nothing outside it counts. */
  private static Path inside(Path folder, JsonValue name) {
    try {
      Path base = folder.toAbsolutePath().normalize();
      Path file = base.resolve(name.isText() ? name.text() : "").normalize();
      boolean within = file.startsWith(base) && !file.equals(base);
      return within && Files.isRegularFile(file) ? file : null;
    } catch (InvalidPathException e) {
      return null;
    }
  }
}
