package lanemend.network.edit;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import lanemend.network.CenterlinePart;
import lanemend.network.Route;

/** Makes two routes of one and one of two. */
final class SplitAndMerge {
  /** Roads farther apart than this are not one road. */
  private static final double FAR_M = 1_000;

  private final RoadEditor editor;

  SplitAndMerge(RoadEditor editor) {
    this.editor = editor;
  }

  RoadEdit split(Route old, double alongM, String firstName, String secondName) {
    double at = RoadEditor.checked(old, alongM);
    List<CenterlinePart> head = Centerlines.cut(old.parts(), 0, at);
    List<CenterlinePart> tail = Centerlines.cut(old.parts(), at, old.lengthM());
    if (head.isEmpty()
        || tail.isEmpty()
        || at < RoadEditor.SHORTEST_M
        || old.lengthM() - at < RoadEditor.SHORTEST_M) {
      throw new IllegalArgumentException(
          "%s cannot be split at its end, milepost %s"
              .formatted(old.id(), RoadEditor.milesAt(old, at)));
    }
    String first = RoadEditor.idOf(firstName.strip(), old.direction());
    String second = RoadEditor.idOf(secondName.strip(), old.direction());
    if (first.equals(second) || firstName.isBlank() || secondName.isBlank()) {
      throw new IllegalArgumentException(
          "the two parts are to be called '%s' and '%s', expected two different names"
              .formatted(firstName, secondName));
    }
    editor.refuseTaken(first, Set.of(old.id()));
    editor.refuseTaken(second, Set.of(old.id()));
    List<Carry> carries = new ArrayList<>();
    LinePen one = new LinePen(editor.crs(), 0);
    carries.add(RoadEditor.carried(head, old.id(), first, one.add(head)));
    LinePen other = new LinePen(editor.crs(), 0);
    carries.add(RoadEditor.carried(tail, old.id(), second, other.add(tail)));
    List<Route> before = List.of(old);
    Route a =
        editor.drawn(old, first, firstName.strip(), old.roadClass(), one.parts(), before, carries);
    Route b =
        editor.drawn(
            old, second, secondName.strip(), old.roadClass(), other.parts(), before, carries);
    String what =
        "split %s at %s into %s and %s"
            .formatted(old.id(), RoadEditor.milesAt(old, at), first, second);
    return new RoadEdit(
        EditKind.SPLIT,
        editor.on(),
        what,
        false,
        before,
        List.of(a, b),
        carries,
        otherRoadway(old));
  }

  private List<String> otherRoadway(Route old) {
    return editor
        .otherRoadway(old)
        .map(r -> List.of(r.id() + " stays as it is; edit it too if it changed"))
        .orElse(List.of());
  }

  /** The second as it is laid behind the first, or the first behind the second. */
  private record Laid(boolean secondFirst, boolean turned, double gapM) {}

  RoadEdit merge(Route first, Route second, String intoName, boolean renumber) {
    if (first.id().equals(second.id())) {
      throw new IllegalArgumentException("a road cannot be merged with itself");
    }
    if (!first.direction().equals(second.direction())) {
      throw new IllegalArgumentException(
          "%s and %s are roadways of different direction".formatted(first.id(), second.id()));
    }
    String name = intoName.strip();
    String id = RoadEditor.idOf(name, first.direction());
    editor.refuseTaken(id, new LinkedHashSet<>(List.of(first.id(), second.id())));
    Laid laid = nearest(first, second);
    if (laid.gapM() > FAR_M) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "%s and %s are %.0f m apart, expected ends that meet",
              first.id(),
              second.id(),
              laid.gapM()));
    }
    LinePen pen = new LinePen(editor.crs(), RoadEditor.JOIN_M);
    List<Carry> carries = new ArrayList<>();
    List<Route> before = new ArrayList<>(List.of(first, second));
    if (laid.secondFirst()) {
      java.util.Collections.reverse(before);
    }
    for (Route r : before) {
      boolean turn = laid.turned() && r.id().equals(second.id());
      List<CenterlinePart> parts = turn ? Centerlines.turned(r.parts()) : r.parts();
      double shift = pen.add(parts);
      double end = parts.get(parts.size() - 1).toAlong() + shift;
      carries.add(
          turn
              ? new Carry(r.id(), 0, r.lengthM(), id, end, shift, Ground.SAME)
              : Carry.shifted(r.id(), 0, r.lengthM(), id, shift));
    }
    List<String> notes = new ArrayList<>();
    if (laid.gapM() > RoadEditor.JOIN_M) {
      notes.add(
          String.format(
              Locale.ROOT, "between them lies a gap of %.0f m, counted straight", laid.gapM()));
    }
    if (laid.turned()) {
      notes.add(second.id() + " is turned round: its left and right change places");
    }
    if (!second.mileposts().calibrated() && !renumber) {
      notes.add(second.id() + " has no posts: the mileposts of " + first.id() + " run on over it");
    }
    boolean runOn = renumber || !second.mileposts().calibrated();
    Route longer = first.lengthM() >= second.lengthM() ? first : second;
    Route whole = whole(first, longer, id, name, pen.parts(), before, carries, runOn);
    String what = "merge %s and %s into %s".formatted(first.id(), second.id(), id);
    return new RoadEdit(
        EditKind.MERGE, editor.on(), what, false, before, List.of(whole), carries, notes);
  }

  private Route whole(
      Route first,
      Route longer,
      String id,
      String name,
      List<CenterlinePart> parts,
      List<Route> before,
      List<Carry> carries,
      boolean renumber) {
    try {
      return editor.drawn(
          first,
          id,
          name,
          longer.roadClass(),
          parts,
          before,
          // Where the second has no say, the first's numbers run on at a mile to the mile.
          renumber
              ? carries.stream().filter(c -> c.routeBefore().equals(first.id())).toList()
              : carries);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(
          "the mileposts of the two do not go together ("
              + e.getMessage()
              + "); let those of "
              + first.id()
              + " run on over the other",
          e);
    }
  }

  private Laid nearest(Route first, Route second) {
    double[] a0 = Centerlines.first(first.parts());
    double[] a1 = Centerlines.last(first.parts());
    double[] b0 = Centerlines.first(second.parts());
    double[] b1 = Centerlines.last(second.parts());
    List<Laid> ways =
        List.of(
            new Laid(false, false, apart(a1, b0)),
            new Laid(true, false, apart(b1, a0)),
            new Laid(false, true, apart(a1, b1)),
            new Laid(true, true, apart(b0, a0)));
    Laid best = ways.get(0);
    for (Laid way : ways) {
      // Of ways as near as each other the one that turns nothing round.
      if (way.gapM() < best.gapM() - 1e-3) {
        best = way;
      }
    }
    return best;
  }

  private double apart(double[] a, double[] b) {
    return editor.crs().groundM(a[0], a[1], b[0], b[1]);
  }
}
