package lanemend.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import lanemend.exchange.Read;
import lanemend.exchange.RoadReader;
import lanemend.exchange.RoadSource;
import lanemend.exchange.RowProblem;
import lanemend.inventory.AttributeRuns;
import lanemend.network.Assembly;
import lanemend.network.AssemblyNote;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
import lanemend.store.ImportRun;
import lanemend.store.Store;

/** Brings road files in: reads the lines, assembles routes and makes the store that holds them. */
final class RoadIntake {
  private final WorkFolder work;

  RoadIntake(WorkFolder work) {
    this.work = work;
  }

  /**
   * Reads all files as one network.
   *
   * @param chosen the projected system to keep the roads in; null picks the UTM zone of their
   *     middle
   */
  IntakeResult take(List<RoadSource> sources, Supplier<ProjectedCrs> chosen) {
    if (work.hasStore()) {
      removeEmptyStore();
    }
    try (Progress bar = new Progress("roads", sources.size() + 2L)) {
      return take(sources, chosen, bar);
    }
  }

  /** True where a store holds roads, so that files read are roads read again. */
  boolean roadsThere() {
    if (!work.hasStore()) {
      return false;
    }
    try (Store store = work.open()) {
      Network network = store.read(s -> s.network());
      return !network.routes().isEmpty() || !network.connectors().isEmpty();
    }
  }

  /** A store without roads is what an import leaves that was cut off before it wrote them. */
  private void removeEmptyStore() {
    if (roadsThere()) {
      throw new Refusal(
          work.storeFile() + " already holds roads: start another folder with --work");
    }
    work.deleteStore();
  }

  private IntakeResult take(List<RoadSource> sources, Supplier<ProjectedCrs> chosen, Progress bar) {
    List<SourceLine> lines = new ArrayList<>();
    List<RowProblem> refused = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    List<ImportRun> runs = new ArrayList<>();
    for (RoadSource source : sources) {
      Read<SourceLine> read = RoadReader.read(source);
      bar.at(runs.size() + 1L);
      lines.addAll(read.rows());
      refused.addAll(read.problems());
      read.warnings().forEach(w -> notes.add("taken without this fact: " + w.text()));
      notes.addAll(read.notes());
      runs.add(IntakeResult.runOf("roads", source.file(), read));
    }
    if (lines.isEmpty()) {
      return new IntakeResult("roads", 0, refused, notes, "no road line could be read");
    }
    ProjectedCrs crs = chosen == null ? utmOfMiddle(lines) : chosen.get();
    Assembly assembly = RouteAssembler.assemble(lines, crs);
    bar.at(sources.size() + 1L);
    for (AssemblyNote note : assembly.notes()) {
      notes.add(IntakeResult.text(note));
    }
    try (Store store = work.create(crs)) {
      store.write(
          work.who(),
          "import roads",
          change -> {
            change.addNetwork(assembly.network());
            change.attributes().insertAll(AttributeRuns.of(assembly));
            runs.forEach(change::recordImport);
          });
    }
    return new IntakeResult("roads", lines.size(), refused, notes, summary(assembly));
  }

  private static ProjectedCrs utmOfMiddle(List<SourceLine> lines) {
    double west = 180;
    double east = -180;
    double south = 90;
    double north = -90;
    for (SourceLine line : lines) {
      for (int i = 0; i < line.longitude().length; i++) {
        west = Math.min(west, line.longitude()[i]);
        east = Math.max(east, line.longitude()[i]);
        south = Math.min(south, line.latitude()[i]);
        north = Math.max(north, line.latitude()[i]);
      }
    }
    return ProjectedCrs.utmFor((west + east) / 2, (south + north) / 2);
  }

  private static String summary(Assembly assembly) {
    double meters =
        assembly.network().routes().values().stream()
            .flatMap(r -> r.parts().stream())
            .mapToDouble(p -> p.toAlong() - p.fromAlong())
            .sum();
    return String.format(
        java.util.Locale.ROOT,
        "%d routes, %.1f miles (%.1f km), and %d road lines without a route name, for haul only",
        assembly.network().routes().size(),
        meters / lanemend.measure.Conversion.M_PER_MILE,
        meters / 1000,
        assembly.network().connectors().size());
  }
}
