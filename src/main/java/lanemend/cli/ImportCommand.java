package lanemend.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import lanemend.exchange.ClassMap;
import lanemend.exchange.FieldMap;
import lanemend.exchange.RoadSource;
import lanemend.exchange.SpeedUnit;
import lanemend.network.ProjectedCrs;
import lanemend.network.TrackMatch;
import lanemend.store.Store;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code import}: brings files into the store, in the order roads, posts, attributes, events. */
@Command(
    name = "import",
    description = "Bring files in: roads first, then posts, attributes, agency, then the rest.",
    subcommands = {
      ImportCommand.Roads.class,
      ImportCommand.Posts.class,
      ImportCommand.Attributes.class,
      ImportCommand.AgencyFile.class,
      ImportCommand.Rules.class,
      ImportCommand.ForecastFile.class,
      ImportCommand.Defects.class,
      ImportCommand.Findings.class,
      ImportCommand.Patches.class,
      ImportCommand.Survey.class,
      ImportCommand.Layers.class,
      ImportCommand.Curves.class,
      ImportPatrolCommand.class
    })
final class ImportCommand {

  @Command(
      name = "roads",
      description = {
        "Read road lines (GeoJSON, GeoPackage, shapefile, or CSV with a wkt column), assemble routes and make"
            + " the store.",
        "",
        "Fields: route, direction, class, speed, lanes, lane_width_ft, shoulder_ft, one_way, level,"
            + " surface, base, aadt, truck_share, urban, last_surfacing.",
        "Example for a file with other names:",
        "  import roads roads.geojson --field route=ref|name --field class=highway \\",
        "    --class primary=arterial --class *=local --field speed=maxspeed --speed-unit kmh"
      })
  static final class Roads implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "road files")
    private List<Path> files;

    @Option(
        names = "--field",
        paramLabel = "FIELD=COLUMN",
        description = "where a field stands in the file; several columns with | (first filled)")
    private List<String> fields = new ArrayList<>();

    @Option(
        names = "--class",
        paramLabel = "WORD=CLASS",
        description =
            "what a word of the class column means: freeway, arterial, collector, local or ignore;"
                + " * stands for every other word")
    private List<String> classes = new ArrayList<>();

    @Option(
        names = "--speed-unit",
        paramLabel = "UNIT",
        defaultValue = "mph",
        description = "unit of bare speeds: mph or kmh (default: ${DEFAULT-VALUE})")
    private SpeedUnit speedUnit;

    @Option(
        names = "--layer",
        paramLabel = "NAME",
        defaultValue = "",
        description = "layer of a GeoPackage that has several")
    private String layer;

    @Option(
        names = "--crs",
        paramLabel = "CODE",
        defaultValue = "",
        description = "coordinate system of the files, such as EPSG:26915, where they do not say")
    private String crs;

    @Option(
        names = "--keep-in",
        paramLabel = "CODE",
        description =
            "projected system in metres to keep the roads in (default: the UTM zone of their"
                + " middle)")
    private String keepIn;

    @Option(
        names = "--on",
        paramLabel = "DATE",
        description =
            "roads are there already: make what differs edits of this day (without it, it is only"
                + " said)")
    private LocalDate on;

    @Option(
        names = "--rebuilt",
        description = "roads that lie otherwise are new roads, not old ones better drawn")
    private boolean rebuilt;

    @Option(names = "--retire-missing", description = "give roads up that the files lack")
    private boolean retireMissing;

    @Override
    public Integer call() {
      List<RoadSource> sources = new ArrayList<>();
      try {
        for (Path file : files) {
          sources.add(
              new RoadSource(
                  file, layer, crs, speedUnit, FieldMap.parse(fields), ClassMap.parse(classes)));
        }
      } catch (IllegalArgumentException e) {
        throw new ParameterException(spec.commandLine(), e.getMessage(), e);
      }
      Report report = new Report(spec.commandLine().getOut(), spec.commandLine().getErr());
      RoadIntake intake = new RoadIntake(work);
      IntakeResult result =
          intake.roadsThere()
              ? new RoadsAgain(work, spec.commandLine().getOut())
                  .take(sources, new RoadsAgain.Choice(on, rebuilt, retireMissing))
              : intake.take(sources, keepIn == null ? null : () -> ProjectedCrs.parse(keepIn));
      report.add(result);
      int code = report.finish(work);
      return result.kept() == 0 ? ExitCode.NOTHING_DONE : code;
    }
  }

  /** What every one-file import has in common. */
  abstract static class OneFile implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(paramLabel = "FILE", description = "the file to read")
    private Path file;

    @Option(
        names = "--field",
        paramLabel = "FIELD=COLUMN",
        description = "where a field stands in the file; several columns with | (first filled)")
    private List<String> fields = new ArrayList<>();

    abstract BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake);

    /** The patrol's track, where the rows are a patrol's. */
    Optional<TrackMatch> track(Store store) {
      return Optional.empty();
    }

    @Override
    public Integer call() {
      FieldMap map;
      try {
        map = FieldMap.parse(fields);
      } catch (IllegalArgumentException e) {
        throw new ParameterException(spec.commandLine(), e.getMessage(), e);
      }
      Report report = new Report(spec.commandLine().getOut(), spec.commandLine().getErr());
      try (Store store = work.open()) {
        EventIntake intake = new EventIntake(store, work.who(), track(store));
        report.add(reader(intake).apply(file, map));
      }
      return report.finish(work);
    }
  }

  /** What a patrol wrote down, with where it drove. */
  abstract static class PatrolFile extends OneFile {
    @Mixin private TrackOption track;

    @Override
    Optional<TrackMatch> track(Store store) {
      return track.match(store);
    }
  }

  @Command(
      name = "posts",
      description = {
        "Set mileposts: route, direction, milepost, ahead (at an equation), and longitude and"
            + " latitude or distance_ft or distance_m from the route's start."
      })
  static final class Posts extends OneFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::posts;
    }
  }

  @Command(
      name = "attributes",
      description =
          "Facts of stretches: route, direction, milepost_from, milepost_to, name, value.")
  static final class Attributes extends OneFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::attributes;
    }
  }

  @Command(
      name = "defects",
      description = {
        "A patrol's defects, CSV, GeoJSON or shapefile: route and milepost or longitude and latitude, lane,"
            + " kind, severity, length_ft, width_ft, depth_in (or length_m, width_m, depth_mm),"
            + " found_on, found_by."
      })
  static final class Defects extends PatrolFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::defects;
    }
  }

  @Command(
      name = "findings",
      description =
          "A patrol's other findings (fence, sign, culvert, drainage), for who owns them.")
  static final class Findings extends PatrolFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::findings;
    }
  }

  @Command(
      name = "patches",
      description = "Repairs done before: route, milepost, work, lane, done_on, tons, cost.")
  static final class Patches extends OneFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::patches;
    }
  }

  @Command(
      name = "survey",
      description = {
        "A condition survey, a row for each kind and severity of distress in a sample unit: sample,"
            + " route, milepost_from, milepost_to, area_ft2 (or width_ft), surveyed_on, kind,"
            + " severity, quantity_ft2, quantity_ft or quantity_count; the kind none where there is"
            + " no distress."
      })
  static final class Survey extends OneFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::survey;
    }
  }

  @Command(
      name = "layers",
      description =
          "Layers of the pavement in place: route, milepost_from, milepost_to, layer (asphalt, base,"
              + " subbase), thickness_in, year, source (core, as_built).")
  static final class Layers extends OneFile {
    @Override
    BiFunction<Path, FieldMap, IntakeResult> reader(EventIntake intake) {
      return intake::layers;
    }
  }

  /** A file that is taken or refused as a whole. */
  abstract static class WholeFile implements Callable<Integer> {
    @Spec private CommandSpec spec;
    @Mixin private WorkFolder work;

    @Parameters(paramLabel = "FILE", description = "the file to read")
    private Path file;

    abstract IntakeResult take(Store store, String who, Path file);

    @Override
    public Integer call() {
      Report report = new Report(spec.commandLine().getOut(), spec.commandLine().getErr());
      try (Store store = work.open()) {
        report.add(take(store, work.who(), file));
      }
      return report.finish(work);
    }
  }

  @Command(
      name = "curves",
      description =
          "Deduct and correction curves for the condition index (JSON), from the agency's own copy"
              + " of the standard.")
  static final class Curves extends WholeFile {
    @Override
    IntakeResult take(Store store, String who, Path file) {
      return new CurvesIntake(store, who).take(file);
    }
  }

  @Command(
      name = "agency",
      description = "The agency's yards, plants, crews, machines, rates and rules (agency.json).")
  static final class AgencyFile extends WholeFile {
    @Override
    IntakeResult take(Store store, String who, Path file) {
      return new AgencyIntake(store, who).take(file);
    }
  }

  @Command(
      name = "forecast",
      description = {
        "Weather foretold: date, rain_probability, min_temperature_f, max_temperature_f, and where"
            + " known rain_in and wind_mph (or _c, rain_mm, wind_kmh). Each date's latest word"
            + " counts."
      })
  static final class ForecastFile extends WholeFile {
    @Override
    IntakeResult take(Store store, String who, Path file) {
      return new ForecastIntake(store, who).take(file, FieldMap.NONE);
    }
  }

  @Command(
      name = "rules",
      description = "The agency's own treatment rules (JSON) in place of the standard ones.")
  static final class Rules extends WholeFile {
    @Override
    IntakeResult take(Store store, String who, Path file) {
      return new RulesIntake(store, who).take(file);
    }
  }
}
