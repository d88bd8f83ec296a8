package lanemend.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import lanemend.county.WrittenMilepost;
import lanemend.exchange.ClassMap;
import lanemend.exchange.EventLocator;
import lanemend.exchange.FieldMap;
import lanemend.exchange.LaneCounts;
import lanemend.exchange.PostReader;
import lanemend.exchange.Read;
import lanemend.exchange.RoadReader;
import lanemend.exchange.RoadSource;
import lanemend.exchange.RowProblem;
import lanemend.exchange.SpeedUnit;
import lanemend.network.Assembly;
import lanemend.network.CenterlinePart;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
import lanemend.network.edit.RoadEdit;
import lanemend.network.edit.RoadEditor;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code road}: edits roads; what lies on them goes along, and nothing is lost. */
@Command(
    name = "road",
    description = {
      "Edit a road from a day on: draw it anew, set other mileposts, cut, join, rename or retire it.",
      "",
      "The road as it was is kept. Defects, findings, past patches, facts and decisions go along by"
          + " the rules in docs/method.md; what cannot be told goes on the review list ('review')."
          + " 'undo' takes an edit back."
    },
    subcommands = {
      RoadCommand.Realign.class,
      RoadCommand.Recalibrate.class,
      RoadCommand.Split.class,
      RoadCommand.Merge.class,
      RoadCommand.Rename.class,
      RoadCommand.Retire.class
    })
final class RoadCommand {
  private static final String ROUTE = "the route to edit";

  @Command(
      name = "realign",
      description = {
        "Put a new line in the place of a route's, or of a stretch of it.",
        "",
        "The file (GeoJSON, GeoPackage or CSV with a wkt column) holds the new line only. It begins"
            + " and ends on the road; a line with one end on the road is its new beginning or end."
      })
  static final class Realign extends RoadEditCommand {
    @Parameters(paramLabel = "FILE", description = "the new line")
    private Path file;

    @Option(names = "--route", required = true, paramLabel = "NAME", description = ROUTE)
    private String route;

    @Option(
        names = "--from",
        paramLabel = "MILES",
        description = "where the stretch begins, if its line does not tell")
    private String from;

    @Option(names = "--to", paramLabel = "MILES", description = "where it ends")
    private String to;

    @Option(names = "--whole", description = "the line takes the place of the whole route")
    private boolean whole;

    @Option(
        names = "--redrawn",
        description = "the road lies where it lay, the new line is better: events move with it")
    private boolean redrawn;

    @Option(
        names = "--rebuilt",
        description = "a new road: what lies on the old pavement is given up or looked at")
    private boolean rebuilt;

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
        description = "coordinate system of the file, where it does not say")
    private String crsCode;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      Route old = NamedRoute.of(network, route);
      OptionalDouble start = along(old, from);
      OptionalDouble end = along(old, to);
      if (redrawn == rebuilt) {
        throw new Refusal("say what happened: --redrawn or --rebuilt");
      }
      return editor.realign(old.id(), line(crs), start, end, whole, rebuilt);
    }

    private static OptionalDouble along(Route route, String written) {
      return written == null
          ? OptionalDouble.empty()
          : OptionalDouble.of(WrittenMilepost.along(route, written));
    }

    /** The file's lines as one road. */
    private List<CenterlinePart> line(ProjectedCrs crs) {
      Read<SourceLine> read =
          RoadReader.read(
              new RoadSource(
                  file,
                  layer,
                  crsCode,
                  SpeedUnit.MPH,
                  FieldMap.parse(List.of()),
                  ClassMap.parse(List.of("*=local"))));
      refuseBad(read.problems());
      List<SourceLine> lines = new ArrayList<>();
      for (SourceLine l : read.rows()) {
        lines.add(
            new SourceLine(
                l.origin(),
                List.of("new line"),
                "",
                RoadClass.LOCAL,
                l.longitude(),
                l.latitude(),
                false,
                0,
                Map.of()));
      }
      if (lines.isEmpty()) {
        throw new Refusal(file + " holds no line");
      }
      Assembly made = RouteAssembler.assemble(lines, crs);
      if (made.network().routes().size() != 1) {
        throw new Refusal(
            file
                + " holds lines that make "
                + made.network().routes().size()
                + " roads, expected one line after the other");
      }
      return made.network().routes().values().iterator().next().parts();
    }
  }

  private static void refuseBad(List<RowProblem> problems) {
    if (!problems.isEmpty()) {
      throw new Refusal(
          problems.get(0).text()
              + (problems.size() > 1 ? " (and " + (problems.size() - 1) + " more)" : ""));
    }
  }

  @Command(
      name = "recalibrate",
      description = {
        "Set other mileposts: the file is that of 'import posts', equations as there.",
        "",
        "A route of the file loses the posts it had unless --keep is given."
      })
  static final class Recalibrate extends RoadEditCommand {
    @Parameters(paramLabel = "FILE", description = "posts")
    private Path file;

    @Option(names = "--keep", description = "the posts the routes have stay beside the new ones")
    private boolean keep;

    @Option(
        names = "--corrected",
        description =
            "the old posts were wrong: what was entered by milepost moves to where they say now")
    private boolean corrected;

    @Option(
        names = "--renumbered",
        description = "the road was numbered anew: everything stays at its place")
    private boolean renumbered;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      EventLocator.PlacedPosts placed =
          new EventLocator(network, new Locator(network), LaneCounts.UNKNOWN)
              .posts(PostReader.read(file, FieldMap.parse(List.of())));
      refuseBad(placed.read().problems());
      if (corrected == renumbered) {
        throw new Refusal("say what was wrong: --corrected or --renumbered");
      }
      return editor.recalibrate(placed.byRoute(), keep, corrected);
    }
  }

  @Command(
      name = "split",
      description = "Cut a route in two at a milepost. Mileposts run on over both.")
  static final class Split extends RoadEditCommand {
    @Option(names = "--route", required = true, paramLabel = "NAME", description = ROUTE)
    private String route;

    @Option(names = "--at", required = true, paramLabel = "MILES", description = "where to cut")
    private String at;

    @Option(
        names = "--into",
        required = true,
        split = ",",
        paramLabel = "NAME,NAME",
        description = "names of the part before the cut and the part behind it")
    private List<String> into;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      if (into.size() != 2) {
        throw new Refusal("--into takes two names, found " + into.size());
      }
      Route old = NamedRoute.of(network, route);
      return editor.split(old.id(), WrittenMilepost.along(old, at), into.get(0), into.get(1));
    }
  }

  @Command(
      name = "merge",
      description = {
        "Make one route of two that meet.",
        "",
        "Both keep their mileposts, with an equation where they meet; --renumber lets those of the"
            + " first run on over the second."
      })
  static final class Merge extends RoadEditCommand {
    @Option(names = "--route", required = true, paramLabel = "NAME", description = "the first")
    private String route;

    @Option(names = "--with", required = true, paramLabel = "NAME", description = "the second")
    private String with;

    @Option(
        names = "--into",
        paramLabel = "NAME",
        description = "name of the whole (default: that of the first)")
    private String into;

    @Option(names = "--renumber", description = "mileposts of the first run on over the second")
    private boolean renumber;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      Route first = NamedRoute.of(network, route);
      Route second = NamedRoute.of(network, with);
      String name = into == null ? first.name() : into;
      return editor.merge(first.id(), second.id(), name, renumber);
    }
  }

  @Command(
      name = "rename",
      description = "Give a road, with every roadway of that name, another name.")
  static final class Rename extends RoadEditCommand {
    @Option(names = "--route", required = true, paramLabel = "NAME", description = ROUTE)
    private String route;

    @Option(names = "--to", required = true, paramLabel = "NAME", description = "its new name")
    private String to;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      String id = network.route(route).map(Route::id).orElseGet(() -> firstNamed(network, route));
      return editor.rename(id, to);
    }

    private static String firstNamed(Network network, String name) {
      return network.named(name).stream()
          .findFirst()
          .orElseThrow(() -> new Refusal("there is no route '" + name + "'"))
          .id();
    }
  }

  @Command(name = "retire", description = "Give a route up, or a stretch of it.")
  static final class Retire extends RoadEditCommand {
    @Option(names = "--route", required = true, paramLabel = "NAME", description = ROUTE)
    private String route;

    @Option(names = "--from", paramLabel = "MILES", description = "where the stretch begins")
    private String from;

    @Option(names = "--to", paramLabel = "MILES", description = "where it ends")
    private String to;

    @Override
    RoadEdit edit(RoadEditor editor, Network network, ProjectedCrs crs) {
      Route old = NamedRoute.of(network, route);
      if (from == null && to == null) {
        return editor.retire(old.id());
      }
      if (from == null || to == null) {
        throw new Refusal("give --from and --to, or neither for the whole route");
      }
      return editor.retire(
          old.id(), WrittenMilepost.along(old, from), WrittenMilepost.along(old, to));
    }
  }
}
