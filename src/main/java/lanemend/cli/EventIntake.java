package lanemend.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.county.DuplicateDefects;
import lanemend.crewdays.learning.PlannedWork;
import lanemend.exchange.AttributeReader;
import lanemend.exchange.DefectReader;
import lanemend.exchange.EventLocator;
import lanemend.exchange.FieldMap;
import lanemend.exchange.FindingReader;
import lanemend.exchange.LayerReader;
import lanemend.exchange.PatchReader;
import lanemend.exchange.PavementLocator;
import lanemend.exchange.PostReader;
import lanemend.exchange.RawDefect;
import lanemend.exchange.RawFinding;
import lanemend.exchange.RawPatch;
import lanemend.exchange.RawPost;
import lanemend.exchange.Read;
import lanemend.exchange.RowProblem;
import lanemend.exchange.SurveyReader;
import lanemend.inventory.AttributeName;
import lanemend.inventory.Defect;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.RoadAttributes;
import lanemend.inventory.SurveyedDistress;
import lanemend.network.Calibrator;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.TrackMatch;
import lanemend.store.Change;
import lanemend.store.Store;
import lanemend.store.Stored;

/** Brings in what lies on the roads. Each file is one transaction: read, placed, then written. */
final class EventIntake {
  private final Store store;
  private final String who;
  private final Optional<TrackMatch> track;

  EventIntake(Store store, String who) {
    this(store, who, Optional.empty());
  }

  /**
   * @param track of the patrol that saw what is brought in
   */
  EventIntake(Store store, String who, Optional<TrackMatch> track) {
    this.store = store;
    this.who = who;
    this.track = track;
  }

  /** Sets the mileposts of every route the file has posts for. */
  IntakeResult posts(Path file, FieldMap map) {
    Network network = store.read(s -> s.network());
    EventLocator.PlacedPosts placed = locator(network).posts(PostReader.read(file, map));
    Read<RawPost> read = placed.read();
    boolean eventsThere =
        store.read(s -> s.defects().count() + s.findings().count() + s.patches().count()) > 0;
    if (eventsThere) {
      return new LatePosts(store, who).take(file, placed);
    }
    Calibrator.CalibratedNetwork calibrated = Calibrator.calibrate(network, placed.byRoute());
    store.write(
        who,
        "import posts " + file,
        change -> {
          for (Route route : calibrated.network().routes().values()) {
            if (!route.equals(network.routes().get(route.id()))) {
              Stored<Route> before = change.soFar().route(route.id()).orElseThrow();
              change.updateRoute(before, route);
            }
          }
          change.recordImport(IntakeResult.runOf("posts", file, read));
        });
    return new IntakeResult(
        "posts",
        read.rows().size(),
        read.problems(),
        calibrated.notes().stream().map(IntakeResult::text).toList(),
        calibratedSummary(calibrated.network()));
  }

  private static String calibratedSummary(Network network) {
    long calibrated =
        network.routes().values().stream().filter(r -> r.mileposts().calibrated()).count();
    return calibrated + " of " + network.routes().size() + " routes have posts";
  }

  /** Facts about stretches of road. */
  IntakeResult attributes(Path file, FieldMap map) {
    Read<RoadAttribute> read = locator(null).attributes(AttributeReader.read(file, map));
    return write("attributes", file, read, change -> change.attributes().insertAll(read.rows()));
  }

  /** A patrol's defects. */
  IntakeResult defects(Path file, FieldMap map) {
    return defects(file, DefectReader.read(file, map, LocalDate.now(ZoneId.systemDefault())));
  }

  /** Defects already read from a file. */
  IntakeResult defects(Path file, Read<RawDefect> raw) {
    Set<String> taken =
        store.read(s -> s.defects().all().stream().map(Defect::id).collect(Collectors.toSet()));
    Network network = store.read(s -> s.network());
    Read<Defect> read = locator(network).defects(raw, taken);
    IntakeResult result =
        write("defects", file, read, change -> change.defects().insertAll(read.rows()));
    DuplicateDefects duplicates = new DuplicateDefects(network, new Locator(network));
    List<String> notes = new ArrayList<>(result.notes());
    notes.addAll(store.<List<String>>read(s -> duplicates.offered(s, read.rows())));
    return new IntakeResult(
        result.kind(), result.kept(), result.refused(), notes, result.summary());
  }

  /** A patrol's other findings. */
  IntakeResult findings(Path file, FieldMap map) {
    return findings(file, FindingReader.read(file, map, LocalDate.now(ZoneId.systemDefault())));
  }

  /** Findings already read from a file. */
  IntakeResult findings(Path file, Read<RawFinding> raw) {
    Set<String> taken =
        store.read(s -> s.findings().all().stream().map(Finding::id).collect(Collectors.toSet()));
    Read<Finding> read = locator(null).findings(raw, taken);
    return write("findings", file, read, change -> change.findings().insertAll(read.rows()));
  }

  /** Repairs done before. */
  IntakeResult patches(Path file, FieldMap map) {
    Set<String> taken =
        store.read(s -> s.patches().all().stream().map(PastPatch::id).collect(Collectors.toSet()));
    Read<RawPatch> raw = PatchReader.read(file, map, LocalDate.now(ZoneId.systemDefault()));
    Read<PastPatch> read = locator(null).patches(raw, taken);
    Set<String> kept = read.rows().stream().map(PastPatch::id).collect(Collectors.toSet());
    List<PlannedWork> planned =
        raw.rows().stream()
            .map(RawPatch::planned)
            .filter(p -> p != null && kept.contains(p.patchId()))
            .toList();
    return write(
        "patches",
        file,
        read,
        change -> {
          change.patches().insertAll(read.rows());
          change.plannedWork().insertAll(planned);
        });
  }

  /** Sample units of a condition survey. */
  IntakeResult survey(Path file, FieldMap map) {
    Read<SurveyedDistress> read =
        pavement()
            .survey(
                SurveyReader.read(file, map, LocalDate.now(ZoneId.systemDefault())),
                store.read(s -> s.surveys().all()));
    return write("survey", file, read, change -> change.surveys().insertAll(read.rows()));
  }

  /** Thicknesses of the pavement's layers. */
  IntakeResult layers(Path file, FieldMap map) {
    Set<String> taken =
        store.read(
            s -> s.layers().all().stream().map(PavementLayer::id).collect(Collectors.toSet()));
    Read<PavementLayer> read =
        pavement()
            .layers(LayerReader.read(file, map, LocalDate.now(ZoneId.systemDefault())), taken);
    return write("layers", file, read, change -> change.layers().insertAll(read.rows()));
  }

  private PavementLocator pavement() {
    Network network = store.read(s -> s.network());
    return new PavementLocator(network, new Locator(network));
  }

  private <T> IntakeResult write(
      String kind, Path file, Read<T> read, java.util.function.Consumer<Change> rows) {
    try (Progress bar = new Progress(kind, 2)) {
      bar.at(1);
      store.write(
          who,
          "import " + kind + " " + file,
          change -> {
            rows.accept(change);
            change.recordImport(IntakeResult.runOf(kind, file, read));
          });
    }
    List<RowProblem> refused = read.problems();
    List<String> notes = new ArrayList<>(read.notes());
    read.warnings().forEach(w -> notes.add("taken without this fact: " + w.text()));
    return new IntakeResult(kind, read.rows().size(), refused, notes, "");
  }

  /**
   * @param known the network when already read, else null
   */
  private EventLocator locator(Network known) {
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    Network network = known == null ? store.read(s -> s.onDay(today).network()) : known;
    RoadAttributes attributes = new RoadAttributes(store.read(s -> s.attributes().all()), today);
    Map<String, Route> routes = network.routes();
    return new EventLocator(
        network,
        new Locator(network),
        (routeId, alongM) -> {
          OptionalDouble lanes =
              routes.containsKey(routeId)
                  ? attributes.number(routeId, alongM, AttributeName.LANES)
                  : OptionalDouble.empty();
          return lanes.isPresent()
              ? OptionalInt.of((int) lanes.getAsDouble())
              : OptionalInt.empty();
        },
        track);
  }
}
