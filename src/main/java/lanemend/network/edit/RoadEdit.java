package lanemend.network.edit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import lanemend.network.Route;

/**
 * What an edit makes of the roads. Nothing is changed by it: whoever keeps the roads ends the
 * editions of before and adds those of after.
 *
 * @param on first day of the new editions, first day no longer valid of the old ones
 * @param what in a few words, for instance {@code split SR 7 at 12.400}
 * @param corrected the mileposts were wrong all along, so that what was entered by milepost lies
 *     where the new ones say; only with {@link EditKind#RECALIBRATE}
 * @param before editions that end
 * @param after editions that begin
 * @param carries which stretch of before lies where afterwards; what none covers is given up
 * @param notes what was decided on the way, a sentence each
 */
public record RoadEdit(
    EditKind kind,
    LocalDate on,
    String what,
    boolean corrected,
    List<Route> before,
    List<Route> after,
    List<Carry> carries,
    List<String> notes) {

  /** Ends of two pieces closer than this are one place, metres. */
  private static final double TOUCHING_M = 1e-6;

  public RoadEdit {
    before = List.copyOf(before);
    after = List.copyOf(after);
    carries =
        carries.stream()
            .sorted(Comparator.comparing(Carry::routeBefore).thenComparingDouble(Carry::fromM))
            .toList();
    notes = List.copyOf(notes);
  }

  /** True where events of this route must be looked at. */
  public boolean touches(String routeId) {
    return before.stream().anyMatch(r -> r.id().equals(routeId));
  }

  /** The edition of this route that ends. */
  public Optional<Route> before(String routeId) {
    return before.stream().filter(r -> r.id().equals(routeId)).findFirst();
  }

  /** The edition of this route that begins. */
  public Optional<Route> after(String routeId) {
    return after.stream().filter(r -> r.id().equals(routeId)).findFirst();
  }

  /**
   * Where a stretch of a route lies afterwards, by growing along of before; pieces that follow each
   * other without a break are one. A spot (from = to) has one image or none: where two stretches
   * meet, that of the later one.
   */
  public List<Image> images(String routeId, double fromM, double toM) {
    List<Image> images = new ArrayList<>();
    for (Carry c : carries) {
      if (c.routeBefore().equals(routeId)) {
        addImage(images, c, fromM, toM);
      }
    }
    if (fromM == toM && images.size() > 1) {
      return List.of(images.get(images.size() - 1));
    }
    return images;
  }

  private static void addImage(List<Image> images, Carry c, double fromM, double toM) {
    double from = Math.max(fromM, c.fromM());
    double to = Math.min(toM, c.toM());
    boolean holds = fromM == toM ? from <= to + TOUCHING_M : to - from > TOUCHING_M;
    if (!holds) {
      return;
    }
    double a = c.along(Math.min(from, to));
    double b = c.along(Math.max(from, to));
    Image next =
        new Image(
            c.routeAfter(),
            Math.min(a, b),
            Math.max(a, b),
            Math.max(0, to - from),
            c.ground(),
            c.turned());
    Image last = images.isEmpty() ? null : images.get(images.size() - 1);
    if (last != null && follows(last, next)) {
      images.set(images.size() - 1, joined(last, next));
    } else {
      images.add(next);
    }
  }

  private static boolean follows(Image last, Image next) {
    double apart = next.turned() ? last.fromM() - next.toM() : next.fromM() - last.toM();
    return last.routeId().equals(next.routeId())
        && last.turned() == next.turned()
        && (last.ground() == Ground.REBUILT) == (next.ground() == Ground.REBUILT)
        && Math.abs(apart) <= TOUCHING_M;
  }

  private static Image joined(Image last, Image next) {
    return new Image(
        last.routeId(),
        Math.min(last.fromM(), next.fromM()),
        Math.max(last.toM(), next.toM()),
        last.beforeM() + next.beforeM(),
        last.ground().compareTo(next.ground()) > 0 ? last.ground() : next.ground(),
        last.turned());
  }
}
