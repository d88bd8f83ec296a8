package lanemend.network.edit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import lanemend.network.AssemblyNote;
import lanemend.network.CalibrationPost;
import lanemend.network.Calibrator;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Network;
import lanemend.network.PostSighting;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.network.Route;

/**
 * Works out edits of a network on one day. Changes nothing by itself. Along is ground metres of the
 * edition in force before the edit.
 *
 * <p>Every method throws {@link IllegalArgumentException} with a sentence for the user when the
 * edit cannot be made.
 */
public final class RoadEditor {
  /** A line whose end is at most this far from the road begins or ends on it (common practice). */
  public static final double JOIN_M = 25;

  /** What is left of a road that is cut must be longer than this, metres. */
  static final double SHORTEST_M = 1;

  private final Network network;
  private final Map<String, Integer> lastEditions;
  private final ProjectedCrs crs;
  private final LocalDate on;

  /**
   * @param network roads in force before the edit
   * @param lastEditions number of the last edition of every id that ever was
   * @param on first day of the new editions
   */
  public RoadEditor(
      Network network, Map<String, Integer> lastEditions, ProjectedCrs crs, LocalDate on) {
    this.network = network;
    this.lastEditions = Map.copyOf(lastEditions);
    this.crs = crs;
    this.on = on;
  }

  Network network() {
    return network;
  }

  ProjectedCrs crs() {
    return crs;
  }

  LocalDate on() {
    return on;
  }

  /** The route to edit, once it is known that its edition had begun. */
  Route route(String routeId) {
    Route route =
        network
            .route(routeId)
            .orElseThrow(() -> new IllegalArgumentException("there is no route '" + routeId + "'"));
    LocalDate from = route.edition().validFrom();
    if (from != null && on.isBefore(from)) {
      throw new IllegalArgumentException(
          "%s has lain as it lies only since %s: an edit on %s would come before it"
              .formatted(routeId, from, on));
    }
    return route;
  }

  Edition edition(String routeId) {
    return new Edition(lastEditions.getOrDefault(routeId, 0) + 1, on, null);
  }

  void refuseTaken(String newId, Set<String> given) {
    boolean connector = network.connectors().stream().anyMatch(c -> c.id().equals(newId));
    if (connector || (network.route(newId).isPresent() && !given.contains(newId))) {
      throw new IllegalArgumentException("there is a road '" + newId + "' already");
    }
  }

  static double checked(Route route, double alongM) {
    if (!(alongM >= -1e-6 && alongM <= route.lengthM() + 1e-6)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "%.1f m along is off %s, which is %.1f m long",
              alongM,
              route.id(),
              route.lengthM()));
    }
    return Math.max(0, Math.min(route.lengthM(), alongM));
  }

  static String milesAt(Route route, double alongM) {
    return route.mileposts().at(alongM).text();
  }

  /** A new edition with a carried milepost map. */
  Route drawn(
      Route like,
      String id,
      String name,
      RoadClass roadClass,
      List<CenterlinePart> parts,
      List<Route> before,
      List<Carry> carries) {
    double length = parts.get(parts.size() - 1).toAlong();
    boolean calibrated = before.stream().anyMatch(r -> r.mileposts().calibrated());
    return new Route(
        id,
        name,
        like.direction(),
        roadClass,
        parts,
        CarriedPosts.of(id, before, carries, length, calibrated),
        edition(id));
  }

  /**
   * Draws a route, or a stretch of it, anew.
   *
   * @param line the new line; begins and ends on the road where only a stretch is drawn anew
   * @param from along where the stretch begins, or empty to find it by the line's first vertex
   * @param whole the line takes the place of the whole route
   * @param rebuilt a new road in another place; else the old road, better drawn
   */
  public RoadEdit realign(
      String routeId,
      List<CenterlinePart> line,
      OptionalDouble from,
      OptionalDouble to,
      boolean whole,
      boolean rebuilt) {
    return new Realignment(this, route(routeId), rebuilt).edit(line, from, to, whole);
  }

  /**
   * Sets other mileposts. The roadway of opposite traffic follows its main one.
   *
   * @param posts those the route has from now on
   * @param keep whether the posts it has now stay beside them
   * @param corrected the old mileposts were wrong all along; else the road was numbered anew
   */
  public RoadEdit recalibrate(
      Map<String, List<PostSighting>> posts, boolean keep, boolean corrected) {
    Map<String, List<PostSighting>> wanted = new LinkedHashMap<>();
    posts.forEach(
        (id, given) -> {
          Route route = route(id);
          List<PostSighting> all = new ArrayList<>(given);
          if (keep && route.mileposts().calibrated()) {
            for (CalibrationPost p : route.mileposts().posts()) {
              all.add(
                  PostSighting.atDistance(id, p.backMiles(), p.alongM()).equation(p.aheadMiles()));
            }
          }
          wanted.put(id, all);
        });
    Calibrator.CalibratedNetwork made = Calibrator.calibrate(network, wanted);
    List<Route> before = new ArrayList<>();
    List<Route> after = new ArrayList<>();
    List<Carry> carries = new ArrayList<>();
    Set<String> names = new LinkedHashSet<>();
    posts.keySet().forEach(id -> names.add(network.route(id).orElseThrow().name()));
    for (Route now : made.network().routes().values()) {
      Route old = network.route(now.id()).orElseThrow();
      boolean other =
          !now.mileposts().posts().equals(old.mileposts().posts())
              || now.mileposts().calibrated() != old.mileposts().calibrated();
      if (other && names.contains(now.name())) {
        before.add(route(old.id()));
        after.add(now.withEdition(edition(now.id())));
        carries.add(Carry.shifted(old.id(), 0, old.lengthM(), old.id(), 0));
      }
    }
    List<String> notes = made.notes().stream().map(RoadEditor::text).toList();
    if (before.isEmpty()) {
      throw new IllegalArgumentException(
          "the posts change no milepost"
              + (notes.isEmpty() ? "" : ": " + String.join("; ", notes)));
    }
    String what = "recalibrate " + String.join(", ", before.stream().map(Route::id).toList());
    return new RoadEdit(EditKind.RECALIBRATE, on, what, corrected, before, after, carries, notes);
  }

  private static String text(AssemblyNote note) {
    return String.join(
        ": ",
        List.of(note.routeId(), note.origin(), note.text()).stream()
            .filter(p -> !p.isEmpty())
            .distinct()
            .toList());
  }

  /**
   * Cuts a route in two. Mileposts run on.
   *
   * @param firstName name of the part before the cut; may be the route's own
   * @param secondName name of the part behind it; may be the route's own
   */
  public RoadEdit split(String routeId, double alongM, String firstName, String secondName) {
    return new SplitAndMerge(this).split(route(routeId), alongM, firstName, secondName);
  }

  /**
   * Makes one route of two.
   *
   * @param intoName name of the whole; may be that of one of them
   * @param renumber the numbers of the second run on from the end of the first; else both keep
   *     theirs and an equation stands where they meet
   */
  public RoadEdit merge(String firstId, String secondId, String intoName, boolean renumber) {
    return new SplitAndMerge(this).merge(route(firstId), route(secondId), intoName, renumber);
  }

  /** Gives a road, with every roadway that carries its name, another name. */
  public RoadEdit rename(String routeId, String newName) {
    Route named = route(routeId);
    String name = newName.strip();
    if (name.isEmpty() || name.equals(named.name())) {
      throw new IllegalArgumentException("the new name is '" + newName + "', expected another one");
    }
    List<Route> before = new ArrayList<>();
    List<Route> after = new ArrayList<>();
    List<Carry> carries = new ArrayList<>();
    Set<String> given = new LinkedHashSet<>();
    List<Route> roadways = network.named(named.name());
    roadways.forEach(r -> given.add(r.id()));
    for (Route old : roadways) {
      String id = idOf(name, old.direction());
      refuseTaken(id, given);
      before.add(route(old.id()));
      after.add(
          new Route(
              id,
              name,
              old.direction(),
              old.roadClass(),
              old.parts(),
              old.mileposts(),
              edition(id)));
      carries.add(Carry.shifted(old.id(), 0, old.lengthM(), id, 0));
    }
    String what = "rename " + named.name() + " to " + name;
    return new RoadEdit(EditKind.RENAME, on, what, false, before, after, carries, List.of());
  }

  static String idOf(String name, String direction) {
    return direction.isEmpty() ? name : name + " " + direction;
  }

  /** Gives a whole route up. */
  public RoadEdit retire(String routeId) {
    Route old = route(routeId);
    return new RoadEdit(
        EditKind.RETIRE,
        on,
        "retire " + routeId,
        false,
        List.of(old),
        List.of(),
        List.of(),
        List.of());
  }

  /** Gives a stretch of a route up; what is left keeps its mileposts. */
  public RoadEdit retire(String routeId, double fromM, double toM) {
    Route old = route(routeId);
    double from = checked(old, Math.min(fromM, toM));
    double to = checked(old, Math.max(fromM, toM));
    List<CenterlinePart> head =
        from > SHORTEST_M ? Centerlines.cut(old.parts(), 0, from) : List.of();
    List<CenterlinePart> tail =
        old.lengthM() - to > SHORTEST_M
            ? Centerlines.cut(old.parts(), to, old.lengthM())
            : List.of();
    if (head.isEmpty() && tail.isEmpty()) {
      return retire(routeId);
    }
    if (to - from < SHORTEST_M) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "the stretch to give up is %.2f m long, expected 1 m or more",
              to - from));
    }
    List<Carry> carries = new ArrayList<>();
    LinePen pen = new LinePen(crs, 0);
    if (!head.isEmpty()) {
      carries.add(carried(head, routeId, routeId, pen.add(head)));
    }
    if (!tail.isEmpty()) {
      carries.add(carried(tail, routeId, routeId, pen.add(tail)));
    }
    Route now =
        drawn(old, routeId, old.name(), old.roadClass(), pen.parts(), List.of(old), carries);
    String what =
        "retire %s from %s to %s".formatted(routeId, milesAt(old, from), milesAt(old, to));
    return new RoadEdit(
        EditKind.RETIRE, on, what, false, List.of(old), List.of(now), carries, List.of());
  }

  /** What was drawn of a route before, shifted along. */
  static Carry carried(List<CenterlinePart> drawn, String before, String after, double shiftM) {
    double from = drawn.get(0).fromAlong();
    double to = drawn.get(drawn.size() - 1).toAlong();
    return Carry.shifted(before, from, to, after, shiftM);
  }

  /** A roadway of the same name with the other traffic; an edit of one may be due on the other. */
  Optional<Route> otherRoadway(Route route) {
    return network.named(route.name()).stream().filter(r -> !r.id().equals(route.id())).findFirst();
  }
}
