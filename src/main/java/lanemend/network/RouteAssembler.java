package lanemend.network;

import static lanemend.network.RouteDrawing.attributes;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Makes routes of many short lines in no order that share a route name (and direction). Every
 * source line ends in a route, in a connector or in a note. The same lines in another order give
 * the same network.
 *
 * <p>A route's first edition is valid from {@link LocalDate#EPOCH}: the lines do not say since when
 * the road lies where it lies.
 */
public final class RouteAssembler {
  /** What an opposite roadway's direction is called when the lines do not say. */
  public static final String OPPOSITE = "opposite";

  private final ProjectedCrs crs;
  private final List<AssemblyNote> notes = new ArrayList<>();
  private final Map<String, Route> routes = new LinkedHashMap<>();
  private final List<LineRun> runs = new ArrayList<>();
  private final Set<String> takenIds = new HashSet<>();
  private final LineCleaner cleaner;
  private PassThrough allLines;
  private final List<Connector> connectors = new ArrayList<>();
  private final List<ConnectorRun> connectorRuns = new ArrayList<>();

  private RouteAssembler(ProjectedCrs crs) {
    this.crs = crs;
    this.cleaner = new LineCleaner(crs, notes);
  }

  /** Lines of one roadway, under the spelling its name first sorts with. */
  private record Group(String name, String direction, List<CleanLine> lines) {
    String id() {
      return direction.isEmpty() ? name : name + " " + direction;
    }
  }

  /** Assembles all lines in one projected system. */
  public static Assembly assemble(List<SourceLine> lines, ProjectedCrs crs) {
    RouteAssembler assembler = new RouteAssembler(crs);
    List<CleanLine> clean = assembler.cleaner.clean(lines);
    assembler.allLines = new PassThrough(clean, assembler.cleaner);
    List<Group> groups = groups(clean);
    groups.forEach(group -> assembler.takenIds.add(group.id()));
    for (Group group : groups) {
      assembler.addRoute(group);
    }
    for (CleanLine line : clean) {
      if (namesOf(line.source()).isEmpty()) {
        SourceLine source = line.source();
        String name = source.attributes().getOrDefault("name", "");
        assembler.addConnector(name, source.roadClass(), line.geometry(), attributes(source));
      }
    }
    return new Assembly(
        new Network(crs.wkt(), assembler.routes, assembler.connectors),
        assembler.runs,
        assembler.connectorRuns,
        assembler.notes);
  }

  private void addConnector(
      String name, RoadClass roadClass, CenterlinePart line, Map<String, String> attributes) {
    String id = "connector " + (connectors.size() + 1);
    connectors.add(new Connector(id, name, roadClass, line));
    connectorRuns.add(new ConnectorRun(id, attributes));
  }

  /** Names without doubled blanks, each once. */
  private static Set<String> namesOf(SourceLine line) {
    Set<String> names = new LinkedHashSet<>();
    for (String name : line.routeNames()) {
      if (!name.isBlank()) {
        names.add(name.strip().replaceAll("\\s+", " "));
      }
    }
    return names;
  }

  private static List<Group> groups(List<CleanLine> lines) {
    Map<String, Group> groups = new TreeMap<>();
    Map<String, TreeMap<String, Integer>> spellings = new TreeMap<>();
    for (CleanLine line : lines) {
      String direction = line.source().direction().strip();
      for (String name : namesOf(line.source())) {
        String key = (name + "\n" + direction).toLowerCase(Locale.ROOT);
        spellings
            .computeIfAbsent(key, k -> new TreeMap<>())
            .merge(name + "\n" + direction, 1, Integer::sum);
        groups.computeIfAbsent(key, k -> new Group(name, direction, new ArrayList<>()));
        List<CleanLine> own = groups.get(key).lines;
        if (own.isEmpty() || !own.get(own.size() - 1).equals(line)) {
          own.add(line);
        }
      }
    }
    List<Group> all = new ArrayList<>();
    groups.forEach(
        (key, group) -> {
          String spelling =
              spellings.get(key).entrySet().stream()
                  .max(
                      Map.Entry.<String, Integer>comparingByValue()
                          .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                  .orElseThrow()
                  .getKey();
          int cut = spelling.indexOf('\n');
          all.add(new Group(spelling.substring(0, cut), spelling.substring(cut + 1), group.lines));
        });
    return all;
  }

  private void addRoute(Group group) {
    String id = routes.containsKey(group.id()) ? freeId(group.id()) : group.id();
    List<CleanLine> lines = withoutRepeats(id, group.lines);
    RouteDrawing drawing = new RouteDrawing(crs);
    RouteLayout layout = new RouteLayout(cleaner, drawing);
    layout.layOut(new PieceGraph(id, cleaner, crs, allLines, notes).pieces(lines));
    RoadClass roadClass = commonClass(lines);
    add(id, group.name, group.direction, roadClass, drawing.draw(id, layout.main()));
    if (!layout.opposite().isEmpty()) {
      String direction = (group.direction + " " + OPPOSITE).strip();
      String oppositeId = freeId(group.name + " " + direction);
      RouteDrawing.Drawn drawn = drawing.draw(oppositeId, layout.opposite());
      Route opposite = add(oppositeId, group.name, direction, roadClass, drawn);
      routes.put(oppositeId, Calibrator.alongside(opposite, routes.get(id)));
      note(
          oppositeId,
          "",
          "%.2f km of one-way road against %s became its opposite roadway, in %d stretches; its mileposts are taken from %s"
              .formatted(drawnKm(drawn), id, drawn.parts().size(), id));
    }
    addJunctionArms(id, group.name, layout.arms());
    int number = 0;
    for (Chain branch : layout.branches()) {
      number++;
      String branchId = freeId(id + " branch " + number);
      RouteDrawing.Drawn drawn = drawing.draw(branchId, List.of(branch));
      add(branchId, branchId, "", roadClass, drawn);
      note(
          branchId,
          branch.path().get(0).piece().line().source().origin(),
          "%.0f m of %s leave its through road and became a branch of their own"
              .formatted(branch.lengthM(), id));
    }
  }

  /** An id no other route has, also where a made-up id meets a name of the file. */
  private String freeId(String wanted) {
    String id = wanted;
    for (int i = 2; !takenIds.add(id); i++) {
      id = wanted + " (" + i + ")";
    }
    return id;
  }

  /** Short arms of a junction are driven on but not located on. */
  private void addJunctionArms(String id, String name, List<Chain> arms) {
    List<String> origins = new ArrayList<>();
    double length = 0;
    for (Chain arm : arms) {
      for (Travelled t : arm.path()) {
        if (!t.piece().filler()) {
          SourceLine source = t.piece().line().source();
          addConnector(name, source.roadClass(), t.piece().geometry(), attributes(source));
          origins.add(source.origin());
          length += t.piece().lengthM();
        }
      }
    }
    if (!origins.isEmpty()) {
      note(
          id,
          origins.get(0),
          "%.0f m in %d short arms of junctions became connectors: %s"
              .formatted(length, arms.size(), String.join(", ", new TreeSet<>(origins))));
    }
  }

  private static double drawnKm(RouteDrawing.Drawn drawn) {
    return drawn.parts().stream().mapToDouble(p -> p.toAlong() - p.fromAlong()).sum() / 1000;
  }

  private Route add(
      String id, String name, String direction, RoadClass roadClass, RouteDrawing.Drawn drawn) {
    List<CenterlinePart> parts = drawn.parts();
    double length = parts.get(parts.size() - 1).toAlong();
    Route route =
        new Route(
            id,
            name,
            direction,
            roadClass,
            parts,
            PiecewiseMileposts.uncalibrated(length),
            new Edition(1, LocalDate.EPOCH, null));
    routes.put(id, route);
    runs.addAll(drawn.runs());
    if (!direction.endsWith(OPPOSITE)) {
      for (int i = 0; i < drawn.gapsM().size(); i++) {
        note(
            id,
            "",
            "no line joins its stretches at %.3f km along: a gap of %.0f m, counted straight"
                .formatted(parts.get(i).toAlong() / 1000, drawn.gapsM().get(i)));
      }
    }
    return route;
  }

  private void note(String routeId, String origin, String text) {
    notes.add(new AssemblyNote(routeId, origin, text));
  }

  /** Lines that repeat another of the same route to the vertex are counted once. */
  private List<CleanLine> withoutRepeats(String id, List<CleanLine> lines) {
    List<CleanLine> kept = new ArrayList<>();
    for (CleanLine line : lines) {
      CleanLine repeated = null;
      for (int i = kept.size() - 1; i >= 0 && i >= kept.size() - 4; i--) {
        if (LineCleaner.sameDrawing(kept.get(i).source(), line.source())) {
          repeated = kept.get(i);
        }
      }
      if (repeated == null) {
        kept.add(line);
      } else {
        note(id, line.source().origin(), "line left out: it repeats " + repeated.source().origin());
      }
    }
    return kept;
  }

  private static RoadClass commonClass(List<CleanLine> lines) {
    Map<RoadClass, Double> lengths = new EnumMap<>(RoadClass.class);
    lines.forEach(line -> lengths.merge(line.source().roadClass(), line.lengthM(), Double::sum));
    return lengths.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
  }
}
