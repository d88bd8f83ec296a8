package lanemend.inventory.edit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import lanemend.inventory.AttributeName;
import lanemend.inventory.Entered;
import lanemend.network.Candidate;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.ProjectedCrs;
import lanemend.network.Route;
import lanemend.network.SnapHint;
import lanemend.network.edit.EditKind;
import lanemend.network.edit.Ground;
import lanemend.network.edit.Image;
import lanemend.network.edit.RoadEdit;

/**
 * What becomes of each event when its road is edited; the table of these rules stands in
 * docs/method.md, Editing roads.
 */
public final class EventRules {
  /** Less than this is rounding, metres. */
  private static final double ROUNDING_M = 0.01;

  /** A milepost is written to a thousandth of a mile. */
  private static final double SAME_MILES = 0.0005;

  /** A point entered is looked for on a line drawn anew within this of it (common practice). */
  private static final double POINT_REACH_M = 60;

  private static final double POINT_AGREES_M = 100;

  private final RoadEdit edit;
  private final Locator after;
  private final ProjectedCrs crs;

  /**
   * @param network the roads before the edit
   */
  public EventRules(RoadEdit edit, Network network, ProjectedCrs crs) {
    this.edit = edit;
    this.crs = crs;
    java.util.Map<String, Route> routes = new java.util.LinkedHashMap<>();
    edit.after().forEach(r -> routes.put(r.id(), r));
    this.after = new Locator(new Network(network.crsWkt(), routes, List.of()));
  }

  /** What becomes of an event of an edited road; empty when nothing about it changes. */
  public Optional<EventFate> fate(RoadEvent event) {
    if (edit.kind() == EditKind.RECALIBRATE) {
      return recalibrated(event);
    }
    List<Image> images =
        edit.images(event.routeId(), event.fromAlongM(), event.toAlongM()).stream()
            .filter(i -> i.ground() != Ground.REBUILT || outlivesPavement(event.kind()))
            .toList();
    if (images.isEmpty()) {
      return Optional.of(givenUp(event));
    }
    return event.kind().fact() ? fact(event, images) : single(event, images);
  }

  /** What is said of the traffic, and what only the agency knows the meaning of. */
  private static boolean outlivesPavement(EventKind kind) {
    return kind == EventKind.TRAFFIC_FACT || kind == EventKind.AGENCY_FACT;
  }

  private EventFate givenUp(RoadEvent e) {
    String since = "the road here was given up on " + edit.on();
    if (e.kind().history()) {
      String why = since + "; it is kept with the road as it was";
      return new EventFate(e, Outcome.STAYS, why, List.of(), true, "");
    }
    String look = since + ": withdraw it, or place it on a road of today";
    return new EventFate(e, Outcome.NEEDS_LOOK, since, List.of(), true, look);
  }

  private Optional<EventFate> fact(RoadEvent e, List<Image> pieces) {
    List<Image> images = joined(pieces);
    double left = left(e, images);
    String look = farLook(images);
    if (images.stream().anyMatch(i -> i.ground() == Ground.REBUILT)
        && e.kind() == EventKind.AGENCY_FACT) {
      look = "it was entered for the road before it was rebuilt: is it so on the new one?";
    }
    if (images.stream().anyMatch(Image::turned)
        && e.key().equals(AttributeName.ONE_WAY.key())
        && e.value().equals("yes")) {
      look = "one-way traffic ran towards growing along, which now runs the other way";
    }
    if (left > ROUNDING_M) {
      String why =
          String.format(
              Locale.ROOT,
              "%.0f m of its %.0f m lie on road given up on %s",
              left,
              e.lengthM(),
              edit.on());
      return Optional.of(new EventFate(e, Outcome.SHORTENED, why, images, true, look));
    }
    if (images.size() > 1) {
      String why = "it goes on over " + images.size() + " stretches";
      return Optional.of(new EventFate(e, Outcome.STAYS, why, images, true, look));
    }
    return whole(e, images.get(0), look);
  }

  /** Old road and rebuilt road that follow each other are one stretch to a fact that has both. */
  private static List<Image> joined(List<Image> pieces) {
    List<Image> joined = new ArrayList<>();
    for (Image next : pieces) {
      Image last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      boolean follows =
          last != null
              && !last.turned()
              && !next.turned()
              && last.routeId().equals(next.routeId())
              && next.fromM() - last.toM() < ROUNDING_M;
      if (follows) {
        Ground ground = last.ground().compareTo(next.ground()) > 0 ? last.ground() : next.ground();
        double before = last.beforeM() + next.beforeM();
        joined.set(
            joined.size() - 1,
            new Image(last.routeId(), last.fromM(), next.toM(), before, ground, false));
      } else {
        joined.add(next);
      }
    }
    return joined;
  }

  private static double left(RoadEvent e, List<Image> images) {
    return e.lengthM() - images.stream().mapToDouble(Image::beforeM).sum();
  }

  private static String farLook(List<Image> images) {
    return images.stream().anyMatch(i -> i.ground() == Ground.REDRAWN_FAR)
        ? String.format(
            Locale.ROOT,
            "the line drawn anew lies more than %.0f m from the old one here, so the place is an"
                + " estimate",
            POINT_REACH_M)
        : "";
  }

  private Optional<EventFate> single(RoadEvent e, List<Image> images) {
    Image best = images.stream().max(Comparator.comparingDouble(Image::beforeM)).orElseThrow();
    double left = left(e, List.of(best));
    if (left <= ROUNDING_M) {
      return whole(e, best, farLook(List.of(best)));
    }
    boolean cut = images.size() > 1 && left(e, images) < left - ROUNDING_M;
    String why =
        String.format(
            Locale.ROOT,
            cut
                ? "%.1f m of its %.1f m now lie on another road or stretch"
                : "%.1f m of its %.1f m lie on road given up on " + edit.on(),
            left,
            e.lengthM());
    boolean quiet = e.kind().history() && !cut;
    String look = quiet ? farLook(List.of(best)) : why + ": is it still one?";
    return Optional.of(new EventFate(e, Outcome.SHORTENED, why, List.of(best), true, look));
  }

  /** An event of which no metre was lost. */
  private Optional<EventFate> whole(RoadEvent e, Image image, String look) {
    Image now = image.ground() == Ground.SAME ? image : byPoint(e, image).orElse(image);
    boolean same =
        now.routeId().equals(e.routeId())
            && now.fromM() == e.fromAlongM()
            && now.toM() == e.toAlongM()
            && now.ground() == Ground.SAME;
    if (same && look.isEmpty()) {
      return renumbered(e, now);
    }
    if (now.ground() == Ground.SAME) {
      return Optional.of(new EventFate(e, Outcome.STAYS, called(e, now), List.of(now), true, look));
    }
    String why =
        now.ground() == Ground.REBUILT
            ? "it goes over to the road that was rebuilt"
            : "the line was drawn anew";
    return Optional.of(
        new EventFate(e, Outcome.MOVED, why + "; " + called(e, now), List.of(now), true, look));
  }

  /** On a line drawn anew, a place entered by a point is where that point now falls. */
  private Optional<Image> byPoint(RoadEvent e, Image image) {
    Entered entered = e.entered();
    if (entered == null || entered.longitude() == null || entered.latitude() == null) {
      return Optional.empty();
    }
    double[] xy = crs.project(entered.longitude(), entered.latitude());
    double middle = (image.fromM() + image.toM()) / 2;
    double half = image.lengthM() / 2;
    double end = edit.after(image.routeId()).orElseThrow().lengthM();
    return after.candidates(xy[0], xy[1], POINT_REACH_M, SnapHint.NONE).stream()
        .filter(c -> c.place().routeId().equals(image.routeId()))
        .min(Comparator.comparingDouble(c -> Math.abs(c.place().alongM() - middle)))
        .map(Candidate::place)
        .filter(p -> Math.abs(p.alongM() - middle) <= POINT_AGREES_M)
        .map(
            p ->
                new Image(
                    image.routeId(),
                    Math.max(0, p.alongM() - half),
                    Math.min(end, p.alongM() + half),
                    image.beforeM(),
                    image.ground(),
                    image.turned()));
  }

  /** Nothing but, perhaps, the number at its place is another. */
  private Optional<EventFate> renumbered(RoadEvent e, Image now) {
    double was = miles(edit.before(e.routeId()).orElseThrow(), e);
    double is = edit.after(now.routeId()).orElseThrow().mileposts().at(middle(now)).miles();
    if (Math.abs(was - is) < SAME_MILES) {
      return Optional.empty();
    }
    return Optional.of(new EventFate(e, Outcome.STAYS, called(e, now), List.of(now), false, ""));
  }

  private static double miles(Route route, RoadEvent e) {
    return route.mileposts().at(e.middleAlongM()).miles();
  }

  private static double middle(Image image) {
    return (image.fromM() + image.toM()) / 2;
  }

  /** What the place was called and is called now. */
  private String called(RoadEvent e, Image now) {
    Route before = edit.before(e.routeId()).orElseThrow();
    Route is = edit.after(now.routeId()).orElseThrow();
    return String.format(
        Locale.ROOT,
        "%s %s is now %s %s",
        before.id(),
        before.mileposts().at(e.middleAlongM()).text(),
        is.id(),
        is.mileposts().at(middle(now)).text());
  }

  private Optional<EventFate> recalibrated(RoadEvent e) {
    Image stays =
        new Image(e.routeId(), e.fromAlongM(), e.toAlongM(), e.lengthM(), Ground.SAME, false);
    if (!edit.corrected() || e.entered() == null) {
      return renumbered(e, stays);
    }
    EnteredStretch entered = EnteredStretch.of(e);
    Route before = edit.before(e.routeId()).orElseThrow();
    Route now = edit.after(e.routeId()).orElseThrow();
    if (!entered.byMilepost() || !entered.standsAt(before, e)) {
      // Entered by a point, by hand since, or under mileposts older than those corrected.
      return renumbered(e, stays);
    }
    EnteredStretch.Found found = entered.find(now, e);
    if (!found.problem().isEmpty()) {
      return Optional.of(
          new EventFate(
              e,
              Outcome.NEEDS_LOOK,
              found.problem(),
              List.of(stays),
              false,
              found.problem() + ": it was left where the old mileposts put it"));
    }
    double from = found.fromM();
    double to = found.toM();
    OptionalDouble moved = OptionalDouble.of((from + to) / 2 - e.middleAlongM());
    if (Math.abs(from - e.fromAlongM()) < ROUNDING_M && Math.abs(to - e.toAlongM()) < ROUNDING_M) {
      return renumbered(e, stays);
    }
    Image image = new Image(e.routeId(), from, to, e.lengthM(), Ground.SAME, false);
    String why =
        String.format(
            Locale.ROOT,
            "entered at milepost %s, which by the corrected posts is %.0f m further %s",
            entered.text(),
            Math.abs(moved.getAsDouble()),
            moved.getAsDouble() >= 0 ? "along" : "back");
    return Optional.of(new EventFate(e, Outcome.MOVED, why, List.of(image), true, ""));
  }
}
