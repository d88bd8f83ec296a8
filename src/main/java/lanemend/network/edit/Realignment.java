package lanemend.network.edit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import lanemend.network.Candidate;
import lanemend.network.CenterlinePart;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;
import lanemend.network.SnapHint;

/** Puts a new line in the place of a route's line, or of a stretch of it. */
final class Realignment {
  private final RoadEditor editor;
  private final Route old;
  private final boolean rebuilt;
  private final List<String> notes = new ArrayList<>();

  Realignment(RoadEditor editor, Route old, boolean rebuilt) {
    this.editor = editor;
    this.old = old;
    this.rebuilt = rebuilt;
  }

  /** What the new line takes the place of; the line runs with it. */
  private record Fitted(double fromM, double toM, List<CenterlinePart> line) {}

  RoadEdit edit(List<CenterlinePart> line, OptionalDouble from, OptionalDouble to, boolean whole) {
    Fitted fit = whole ? wholeRoute(line) : fitted(line, from, to);
    List<CenterlinePart> head = Centerlines.cut(old.parts(), 0, fit.fromM());
    List<CenterlinePart> tail = Centerlines.cut(old.parts(), fit.toM(), old.lengthM());
    LinePen pen = new LinePen(editor.crs(), RoadEditor.JOIN_M);
    List<Carry> carries = new ArrayList<>();
    if (!head.isEmpty()) {
      carries.add(RoadEditor.carried(head, old.id(), old.id(), pen.add(head)));
    }
    double start = pen.reachedM();
    pen.add(fit.line());
    double end = pen.reachedM();
    Carry behind = null;
    if (!tail.isEmpty()) {
      behind = RoadEditor.carried(tail, old.id(), old.id(), pen.add(tail));
      end = behind.startM();
    }
    double lengthM = pen.reachedM();
    List<CenterlinePart> parts = pen.parts();
    if (fit.toM() > fit.fromM()) {
      carries.addAll(middle(fit, parts, start, end));
    }
    if (behind != null) {
      carries.add(behind);
    }
    Route now =
        editor.drawn(old, old.id(), old.name(), old.roadClass(), parts, List.of(old), carries);
    notes.add(
        String.format(
            Locale.ROOT,
            "%.1f m of %s become %.1f m; the road is now %.1f m long",
            fit.toM() - fit.fromM(),
            old.id(),
            end - start,
            lengthM));
    editor
        .otherRoadway(old)
        .ifPresent(r -> notes.add(r.id() + " stays as it is; edit it too if it changed"));
    String what =
        "realign %s from %s to %s"
            .formatted(
                old.id(), RoadEditor.milesAt(old, fit.fromM()), RoadEditor.milesAt(old, fit.toM()));
    return new RoadEdit(
        EditKind.REALIGN, editor.on(), what, false, List.of(old), List.of(now), carries, notes);
  }

  private List<Carry> middle(Fitted fit, List<CenterlinePart> parts, double start, double end) {
    if (rebuilt) {
      return List.of(
          new Carry(old.id(), fit.fromM(), fit.toM(), old.id(), start, end, Ground.REBUILT));
    }
    List<CenterlinePart> drawn = Centerlines.cut(parts, start, end);
    return new Redrawing(old, drawn, editor.network().crsWkt())
        .carries(fit.fromM(), fit.toM(), start, end);
  }

  private Fitted wholeRoute(List<CenterlinePart> line) {
    double same = apart(Centerlines.first(line), Centerlines.first(old.parts()));
    same += apart(Centerlines.last(line), Centerlines.last(old.parts()));
    double turned = apart(Centerlines.first(line), Centerlines.last(old.parts()));
    turned += apart(Centerlines.last(line), Centerlines.first(old.parts()));
    return new Fitted(0, old.lengthM(), same <= turned ? line : Centerlines.turned(line));
  }

  private static double apart(double[] a, double[] b) {
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  }

  private Fitted fitted(List<CenterlinePart> line, OptionalDouble from, OptionalDouble to) {
    double[] first = Centerlines.first(line);
    double[] last = Centerlines.last(line);
    if (from.isPresent() && to.isPresent()) {
      double a = RoadEditor.checked(old, Math.min(from.getAsDouble(), to.getAsDouble()));
      double b = RoadEditor.checked(old, Math.max(from.getAsDouble(), to.getAsDouble()));
      double[] start = at(a);
      double[] end = at(b);
      boolean same =
          apart(first, start) + apart(last, end) <= apart(first, end) + apart(last, start);
      return joined(new Fitted(a, b, same ? line : Centerlines.turned(line)));
    }
    OptionalDouble a = from.isPresent() ? from : onRoad(first, "begins");
    OptionalDouble b = to.isPresent() ? to : onRoad(last, "ends");
    if (a.isEmpty() && b.isEmpty()) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "the new line begins %s from %s and ends %s from it, expected at most %.0f m at one"
                  + " end at least; to draw the whole road anew say so",
              away(first),
              old.id(),
              away(last),
              RoadEditor.JOIN_M));
    }
    // A line with one end on the road is its new beginning or its new end.
    if (a.isEmpty() || b.isEmpty()) {
      boolean startsOn = a.isPresent();
      double on = RoadEditor.checked(old, (startsOn ? a : b).getAsDouble());
      double[] free = startsOn ? last : first;
      boolean towardsEnd =
          apart(free, Centerlines.last(old.parts())) <= apart(free, Centerlines.first(old.parts()));
      List<CenterlinePart> run = startsOn == towardsEnd ? line : Centerlines.turned(line);
      return towardsEnd ? new Fitted(on, old.lengthM(), run) : new Fitted(0, on, run);
    }
    double start = RoadEditor.checked(old, a.getAsDouble());
    double end = RoadEditor.checked(old, b.getAsDouble());
    return start <= end
        ? joined(new Fitted(start, end, line))
        : joined(new Fitted(end, start, Centerlines.turned(line)));
  }

  /** Refuses a line that would tear the road: its ends must lie where the stretch ends. */
  private Fitted joined(Fitted fit) {
    double before = apart(Centerlines.first(fit.line()), at(fit.fromM()));
    double behind = apart(Centerlines.last(fit.line()), at(fit.toM()));
    double most = Math.max(before, behind);
    boolean atEnds = fit.fromM() == 0 && fit.toM() == old.lengthM();
    if (most > RoadEditor.JOIN_M && !atEnds) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "the new line lies %.0f m from an end of the stretch it takes the place of, expected"
                  + " at most %.0f m",
              most,
              RoadEditor.JOIN_M));
    }
    return fit;
  }

  private double[] at(double alongM) {
    CenterlinePart nearest = old.parts().get(0);
    for (CenterlinePart p : old.parts()) {
      if (p.fromAlong() <= alongM) {
        nearest = p;
      }
    }
    return Centerlines.at(
        nearest, Math.max(nearest.fromAlong(), Math.min(nearest.toAlong(), alongM)));
  }

  /** Where a vertex stands on the road; empty where it does not. */
  private OptionalDouble onRoad(double[] xy, String does) {
    List<Candidate> near = own(xy, RoadEditor.JOIN_M);
    if (near.size() > 1 && near.get(1).distanceM() < near.get(0).distanceM() + RoadEditor.JOIN_M) {
      throw new IllegalArgumentException(
          "the new line "
              + does
              + " where "
              + old.id()
              + " passes twice, at mileposts "
              + near.get(0).place().milepost().text()
              + " and "
              + near.get(1).place().milepost().text()
              + "; say which by giving the stretch's mileposts");
    }
    return near.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(near.get(0).place().alongM());
  }

  private String away(double[] xy) {
    List<Candidate> near = own(xy, 5_000);
    return near.isEmpty()
        ? "more than 5 km"
        : String.format(Locale.ROOT, "%.0f m", near.get(0).distanceM());
  }

  private List<Candidate> own(double[] xy, double reachM) {
    Network one =
        new Network(editor.network().crsWkt(), java.util.Map.of(old.id(), old), List.of());
    return new Locator(one).candidates(xy[0], xy[1], reachM, SnapHint.NONE);
  }
}
