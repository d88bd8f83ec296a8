package lanemend.cli;

import java.io.PrintWriter;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.exchange.Read;
import lanemend.exchange.RoadReader;
import lanemend.exchange.RoadSource;
import lanemend.exchange.RowProblem;
import lanemend.inventory.AttributeRuns;
import lanemend.inventory.FactsInTime;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.edit.EventFate;
import lanemend.network.Assembly;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.RouteAssembler;
import lanemend.network.SourceLine;
import lanemend.network.edit.RoadComparison;
import lanemend.network.edit.RoadEdit;
import lanemend.network.edit.RoadEditor;
import lanemend.store.Change;
import lanemend.store.ImportRun;
import lanemend.store.Store;

/**
 * Road files read again into a store that holds roads: says which roads are new, lie otherwise or
 * are missing and, from a day on, makes the edits that follow, all in one transaction.
 */
final class RoadsAgain {
  private final WorkFolder work;
  private final PrintWriter out;

  /**
   * What to make of the differences.
   *
   * @param on first day of the new editions; null only says what differs
   * @param rebuilt roads that lie otherwise are new roads, and not old ones better drawn
   * @param retireMissing whether roads that the files lack are given up
   */
  record Choice(LocalDate on, boolean rebuilt, boolean retireMissing) {}

  RoadsAgain(WorkFolder work, PrintWriter out) {
    this.work = work;
    this.out = out;
  }

  /** Lines of all files, with what could not be read. */
  private record Lines(List<SourceLine> lines, List<RowProblem> refused, List<ImportRun> runs) {}

  IntakeResult take(List<RoadSource> sources, Choice choice) {
    if (choice.on() != null && choice.on().isAfter(LocalDate.now(ZoneId.systemDefault()))) {
      throw new Refusal("--on " + choice.on() + " is to come: an edit is written on its day");
    }
    Lines read = read(sources);
    if (read.lines().isEmpty()) {
      return new IntakeResult("roads", 0, read.refused(), List.of(), "no road line could be read");
    }
    try (Store store = work.open()) {
      ProjectedCrs crs = ProjectedCrs.fromWkt(store.crsWkt());
      Assembly assembly = RouteAssembler.assemble(read.lines(), crs);
      Network atHand = store.read(s -> s.network());
      RoadComparison found = RoadComparison.of(atHand, assembly.network());
      say(found);
      if (choice.on() == null) {
        throw new Refusal(
            "the store already holds roads, so nothing was written: --on DATE makes these"
                + " differences edits of that day; or start another folder with --work");
      }
      List<EventFate> fates = write(store, crs, assembly, found, choice, read);
      return new IntakeResult(
          "roads", read.lines().size(), read.refused(), notes(fates), summary(fates, choice));
    }
  }

  private static Lines read(List<RoadSource> sources) {
    Lines all = new Lines(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    for (RoadSource source : sources) {
      Read<SourceLine> read = RoadReader.read(source);
      all.lines().addAll(read.rows());
      all.refused().addAll(read.problems());
      all.runs().add(IntakeResult.runOf("roads", source.file(), read));
    }
    return all;
  }

  private void say(RoadComparison found) {
    out.printf(
        Locale.ROOT,
        "roads      %,d lie as they lay, %,d otherwise, %,d are new, %,d are not in the files%n",
        found.same().size(),
        found.changed().size(),
        found.added().size(),
        found.missing().size());
    Report report = new Report(out, out);
    report.list(ids(found.changed()), "  otherwise: ");
    report.list(ids(found.added()), "  new: ");
    report.list(ids(found.missing()), "  not in the files: ");
  }

  private static List<String> ids(List<Route> routes) {
    return routes.stream()
        .map(r -> String.format(Locale.ROOT, "%s, %.2f km", r.id(), r.lengthM() / 1000))
        .toList();
  }

  private List<EventFate> write(
      Store store,
      ProjectedCrs crs,
      Assembly assembly,
      RoadComparison found,
      Choice choice,
      Lines read) {
    List<EventFate> fates = new ArrayList<>();
    LocalDate on = choice.on();
    store.write(
        work.who(),
        "import roads again, from " + on + " on",
        change -> {
          Network atHand = change.soFar().network();
          RoadEditor editor = new RoadEditor(atHand, change.soFar().lastEditions(), crs, on);
          for (RoadEdit edit : edits(editor, found, choice)) {
            fates.addAll(change.edit(edit));
          }
          for (Route route : found.added()) {
            int edition = change.soFar().lastEditions().getOrDefault(route.id(), 0) + 1;
            change.addNextEdition(route.withEdition(new Edition(edition, on, null)));
          }
          facts(change, assembly, found, on);
          read.runs().forEach(change::recordImport);
        });
    return fates;
  }

  private static List<RoadEdit> edits(RoadEditor editor, RoadComparison found, Choice choice) {
    List<RoadEdit> edits = new ArrayList<>();
    OptionalDouble none = OptionalDouble.empty();
    try {
      for (Route now : found.changed()) {
        edits.add(editor.realign(now.id(), now.parts(), none, none, true, choice.rebuilt()));
      }
      if (choice.retireMissing()) {
        found.missing().forEach(r -> edits.add(editor.retire(r.id())));
      }
    } catch (IllegalArgumentException e) {
      throw new Refusal(e.getMessage());
    }
    return edits;
  }

  /** Facts the lines carry, where they say another thing than the lines did before. */
  private static void facts(Change change, Assembly assembly, RoadComparison found, LocalDate on) {
    Set<String> roads = new HashSet<>(found.same());
    found.added().forEach(r -> roads.add(r.id()));
    found.changed().forEach(r -> roads.add(r.id()));
    List<RoadAttribute> drawn =
        change.attributes().all().stream()
            .filter(a -> a.entered() == null && a.holdsOn(on))
            .toList();
    List<RoadAttribute> read =
        AttributeRuns.of(assembly).stream()
            .filter(a -> roads.contains(a.routeId()))
            .map(a -> a.during(on, null))
            .toList();
    change.attributes().insertAll(FactsInTime.notSaid(drawn, read));
  }

  private static List<String> notes(List<EventFate> fates) {
    return fates.stream()
        .filter(EventFate::needsLook)
        .map(f -> "to look at: " + f.event().key() + ": " + f.look())
        .toList();
  }

  private static String summary(List<EventFate> fates, Choice choice) {
    String counts =
        fates.stream()
            .collect(Collectors.groupingBy(EventFate::outcome, Collectors.counting()))
            .entrySet()
            .stream()
            .sorted(java.util.Map.Entry.comparingByKey())
            .map(e -> String.format(Locale.ROOT, "%,d %s", e.getValue(), e.getKey().words()))
            .collect(Collectors.joining(", "));
    return "edits from "
        + choice.on()
        + " on; "
        + (counts.isEmpty() ? "nothing that lies on the roads changes" : counts);
  }
}
